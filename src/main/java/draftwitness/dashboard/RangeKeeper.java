package draftwitness.dashboard;

import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.util.EnumMap;
import java.util.Map;

/**
 * Keeps value axes calm: an axis grows as soon as readings need it, and shrinks only when they use less than four
 * tenths of it. User-interface thread.
 */
final class RangeKeeper {
    private static final double SHRINK_BELOW = 0.4;

    private record Kept(ValueRange range, Unit unit) {}

    private final Map<Tap, Kept> kept = new EnumMap<>(Tap.class);

    /** The range for values {@code low} to {@code high} (base units). */
    ValueRange range(Tap tap, double low, double high, Unit unit) {
        Kept before = kept.get(tap);
        if (before != null
                && before.unit() == unit
                && before.range().contains(low, high)
                && Math.max(high - low, ValueRange.LEAST_SPAN)
                        >= SHRINK_BELOW * before.range().span()) {
            return before.range();
        }
        ValueRange range = ValueRange.around(low, high, unit);
        kept.put(tap, new Kept(range, unit));
        return range;
    }

    void forget() {
        kept.clear();
    }
}
