package draftwitness.dashboard.view;

/** Texts for hovering, broken into lines that can be read. */
final class Tips {
    private static final int WIDTH = 420;

    private Tips() {}

    /** A plain text as a tip of readable width. */
    static String wrapped(String text) {
        String safe = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
        return "<html><body style='width:" + WIDTH + "px'>" + safe.replace("\n", "<br>") + "</body></html>";
    }
}
