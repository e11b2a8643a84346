package draftwitness.dashboard;

import draftwitness.reading.Unit;

/**
 * What a strip's value axis spans, in base units.
 *
 * @param low lower end
 * @param high upper end, above {@code low}
 */
public record ValueRange(double low, double high) {
    public ValueRange {
        if (!(low < high)) {
            throw new IllegalArgumentException("range " + low + " .. " + high + " is empty");
        }
    }

    /** Least that an axis spans: 10 of the base unit (10 Pa), so that sensor noise does not fill a strip. */
    static final double LEAST_SPAN = 10;

    /** Share of the span left free above and below. */
    private static final double ROOM = 0.05;

    /** A range with room around two values, its ends round in the given unit. */
    public static ValueRange around(double low, double high, Unit unit) {
        double a = unit.fromBase(low);
        double b = unit.fromBase(high);
        double span = Math.max(b - a, unit.fromBase(LEAST_SPAN));
        double step = roundStep(span / 10);
        double bottom = step * Math.floor(outside(a, -ROOM * span) / step);
        double top = step * Math.ceil(outside(b, ROOM * span) / step);
        if (top - bottom < span) {
            top = bottom + step * Math.ceil(span / step);
        }
        return new ValueRange(unit.toBase(bottom), unit.toBase(top));
    }

    /** An end with room around it; noise about zero needs none, so that axes begin at zero. */
    private static double outside(double end, double room) {
        return Math.abs(end) < Math.abs(room) / 2 ? 0 : end + room;
    }

    /** 1, 2, 2.5 or 5 times a power of ten, not below {@code least}. */
    private static double roundStep(double least) {
        double power = Math.pow(10, Math.floor(Math.log10(least)));
        for (double factor : new double[] {1, 2, 2.5, 5}) {
            if (factor * power >= least * (1 - 1e-9)) {
                return factor * power;
            }
        }
        return 10 * power;
    }

    public double span() {
        return high - low;
    }

    public boolean contains(double from, double to) {
        return from >= low && to <= high;
    }
}
