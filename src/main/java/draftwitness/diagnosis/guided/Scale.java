package draftwitness.diagnosis.guided;

/** What the number of a {@link Figure} counts; values are kept in the unit named here. */
public enum Scale {
    PASCAL("Pa"),
    PASCAL_PER_SECOND("Pa/s"),
    SECOND("s"),
    /** Of a whole; told in percent. */
    SHARE("1"),
    CUBIC_METRE_PER_SECOND("m3/s"),
    /** A plain number. */
    NUMBER("1"),
    COUNT("1");

    private final String symbol;

    Scale(String symbol) {
        this.symbol = symbol;
    }

    /** Symbol of the unit that values are kept in. */
    public String symbol() {
        return symbol;
    }
}
