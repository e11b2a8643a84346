package draftwitness.driver;

/**
 * Text that lets a regular expression look only so often, so that no description and no line can make matching take for
 * ever. One owner thread.
 */
final class BoundedText implements CharSequence {
    private static final int LOOKS = 50_000;

    /** Thrown from within a matcher; caught where matching is started. */
    static final class TooManyLooks extends RuntimeException {
        private static final long serialVersionUID = 1;

        TooManyLooks() {
            super("the pattern needs too many steps on this text", null, false, false);
        }
    }

    private final String text;
    private int left = LOOKS;

    BoundedText(String text) {
        this.text = text;
    }

    @Override
    public int length() {
        return text.length();
    }

    @Override
    public char charAt(int index) {
        if (left-- <= 0) {
            throw new TooManyLooks();
        }
        return text.charAt(index);
    }

    @Override
    public CharSequence subSequence(int start, int end) {
        return text.substring(start, end);
    }

    @Override
    public String toString() {
        return text;
    }
}
