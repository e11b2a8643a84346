package draftwitness.dashboard.view;

import draftwitness.dashboard.Palette;
import draftwitness.dashboard.Tone;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Stroke;

/**
 * Colours, fonts and sizes that painters use. Immutable.
 *
 * @param palette the theme's colours
 * @param family font family
 * @param scale size of one design pixel; the design is drawn for 96 dots an inch
 */
record Look(Palette palette, String family, double scale) {

    /** So many design pixels, rounded. */
    int px(double design) {
        return (int) Math.round(design * scale);
    }

    Font font(double designSize) {
        return new Font(family, Font.PLAIN, 1).deriveFont((float) (designSize * scale));
    }

    Font bold(double designSize) {
        return new Font(family, Font.BOLD, 1).deriveFont((float) (designSize * scale));
    }

    /** The largest size up to {@code designSize} at which a text fits a width. */
    Font boldFitting(Graphics2D g, String text, double designSize, int width) {
        Font font = bold(designSize);
        int needed = g.getFontMetrics(font).stringWidth(text);
        return needed <= width ? font : font.deriveFont(font.getSize2D() * width / needed);
    }

    Stroke stroke(double designWidth) {
        return new BasicStroke((float) (designWidth * scale), BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND);
    }

    Stroke dashed(double designWidth) {
        float dash = (float) (6 * scale);
        return new BasicStroke(
                (float) (designWidth * scale),
                BasicStroke.CAP_BUTT,
                BasicStroke.JOIN_ROUND,
                1f,
                new float[] {dash, dash * 0.7f},
                0f);
    }

    static Color color(int rgb) {
        return new Color(rgb);
    }

    Color ink(Tone tone) {
        return color(
                switch (tone) {
                    case NORMAL -> palette.ink();
                    case QUIET -> palette.quietInk();
                    case ATTENTION -> palette.attention();
                    case DANGER -> palette.danger();
                });
    }

    /** A copy of a graphics for painting with smooth text and shapes; to be disposed of. */
    static Graphics2D smooth(Graphics2D g) {
        Graphics2D copy = (Graphics2D) g.create();
        copy.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        copy.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        copy.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        return copy;
    }

    /** The text, shortened with dots when it does not fit. */
    static String fit(FontMetrics metrics, String text, int width) {
        if (metrics.stringWidth(text) <= width) {
            return text;
        }
        String dots = "\u2026";
        int n = text.length();
        while (n > 0 && metrics.stringWidth(text.substring(0, n) + dots) > width) {
            n--;
        }
        return text.substring(0, n) + dots;
    }
}
