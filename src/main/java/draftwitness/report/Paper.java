package draftwitness.report;

/** What a report is printed on. */
public enum Paper {
    A4("A4"),
    LETTER("letter");

    private final String css;

    Paper(String css) {
        this.css = css;
    }

    /** The size's name in style sheets. */
    String css() {
        return css;
    }
}
