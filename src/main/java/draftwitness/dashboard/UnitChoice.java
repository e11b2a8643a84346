package draftwitness.dashboard;

import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.Unit;
import org.jspecify.annotations.Nullable;

/** The unit that pressures are shown in; other quantities keep their own. */
public enum UnitChoice {
    /** Each channel in the unit its instrument sends. */
    AS_SENT(null),
    PASCAL(Unit.PASCAL),
    HECTOPASCAL(Unit.HECTOPASCAL),
    KILOPASCAL(Unit.KILOPASCAL),
    MILLIBAR(Unit.MILLIBAR),
    INCH_OF_WATER(Unit.INCH_OF_WATER),
    MILLIMETRE_OF_WATER(Unit.MILLIMETRE_OF_WATER),
    POUND_PER_SQUARE_INCH(Unit.POUND_PER_SQUARE_INCH);

    private final @Nullable Unit unit;

    UnitChoice(@Nullable Unit unit) {
        this.unit = unit;
    }

    /** The unit to show a channel in. */
    public Unit of(Channel channel) {
        return unit == null || channel.tap().quantity() != Quantity.PRESSURE ? channel.unit() : unit;
    }

    /** The unit to show pressures of several instruments in; pascal where each would have its own. */
    public Unit common() {
        return unit == null ? Unit.PASCAL : unit;
    }

    /** As shown in a list of choices. */
    public String label() {
        return unit == null ? Words.get("unit.as-sent") : unit.symbol();
    }

    @Override
    public String toString() {
        return label();
    }
}
