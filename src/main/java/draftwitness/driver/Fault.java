package draftwitness.driver;

/** Why bytes were not taken for a reading. */
public enum Fault {
    /** The rest of a message whose beginning was not seen, after opening or after another fault. */
    PARTIAL("began in the middle of a message"),
    /** Not a number, or not the declared pattern. */
    NOT_A_READING("not a reading"),
    /** A unit that is unknown or of another quantity. */
    UNKNOWN_UNIT("unknown unit"),
    /** Characters that do not belong into text. */
    GARBLED("garbled bytes"),
    /** No end within the largest length. */
    TOO_LONG("message too long"),
    /** Checksum does not agree. */
    BAD_CHECKSUM("checksum wrong"),
    /** Bytes between messages. */
    NOISE("bytes between messages"),
    /** The instrument says that it has no value. */
    NO_VALUE("instrument reports no value"),
    /** Beyond what the instrument can measure, by its own word. */
    OVER_RANGE("over range"),
    /** No answer in time. */
    NO_ANSWER("no answer"),
    /** An answer to another question, or after its time. */
    STRAY_ANSWER("stray answer"),
    /** The instrument refused the request. */
    REFUSED("request refused");

    private final String words;

    Fault(String words) {
        this.words = words;
    }

    /** In plain words, for screens and tables. */
    public String words() {
        return words;
    }
}
