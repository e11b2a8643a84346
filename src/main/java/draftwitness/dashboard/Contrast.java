package draftwitness.dashboard;

/** Contrast of two colours as WCAG 2.2 defines it. Pure. */
public final class Contrast {
    private Contrast() {}

    /** Relative luminance of 0xRRGGBB, 0 (black) to 1 (white): WCAG 2.2, "relative luminance". */
    public static double luminance(int rgb) {
        return 0.2126 * linear(rgb >> 16 & 0xFF) + 0.7152 * linear(rgb >> 8 & 0xFF) + 0.0722 * linear(rgb & 0xFF);
    }

    private static double linear(int channel) {
        double c = channel / 255.0;
        return c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
    }

    /** Contrast ratio, 1 to 21, whichever colour is the lighter: WCAG 2.2, "contrast ratio". */
    public static double ratio(int a, int b) {
        double la = luminance(a);
        double lb = luminance(b);
        return (Math.max(la, lb) + 0.05) / (Math.min(la, lb) + 0.05);
    }
}
