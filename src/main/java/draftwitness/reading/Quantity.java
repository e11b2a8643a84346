package draftwitness.reading;

/** What a channel measures; units convert only within one quantity. */
public enum Quantity {
    /** Gauge or differential pressure; base unit pascal, suction negative. */
    PRESSURE,
    /** Flame rectification current; base unit microampere. */
    CURRENT,
    /** Electric potential; base unit volt. */
    VOLTAGE,
    /** Temperature; base unit degree Celsius. */
    TEMPERATURE,
    /** A contact or control output: 1 closed or on, 0 open or off. Its state holds until it changes. */
    CONTACT;

    /** The unit that values are kept and computed in. */
    public Unit baseUnit() {
        return switch (this) {
            case PRESSURE -> Unit.PASCAL;
            case CURRENT -> Unit.MICROAMPERE;
            case VOLTAGE -> Unit.VOLT;
            case TEMPERATURE -> Unit.CELSIUS;
            case CONTACT -> Unit.CONTACT;
        };
    }
}
