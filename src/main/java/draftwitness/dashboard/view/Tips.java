package draftwitness.dashboard.view;

/** Texts for hovering, broken into lines that can be read. */
final class Tips {
    private static final int WIDTH = 420;

    private Tips() {}

    /** A plain text as a tip of readable width. */
    static String wrapped(String text) {
        String safe = safe(text);
        return "<html><body style='width:" + WIDTH + "px'>" + safe.replace("\n", "<br>") + "</body></html>";
    }

    /** A plain text that breaks into lines where it stands. */
    static String line(String text) {
        return "<html>" + safe(text) + "</html>";
    }

    private static String safe(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }
}
