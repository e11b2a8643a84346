package draftwitness.reading;

/**
 * The smallest step an instrument shows: one count is {@code 10^-decimals} of {@code unit}. Readings are kept as whole
 * counts of it, so what was read is what is stored and written.
 *
 * @param unit the unit that the instrument sends
 * @param decimals digits after the decimal point, 0 to {@value #MAX_DECIMALS}
 */
public record Step(Unit unit, int decimals) {
    /** Finest step kept: a billionth of the unit. */
    public static final int MAX_DECIMALS = 9;

    private static final double[] POWERS = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9};
    private static final long[] WHOLE_POWERS = {
        1, 10, 100, 1000, 10_000, 100_000, 1_000_000, 10_000_000, 100_000_000, 1_000_000_000
    };

    public Step {
        if (decimals < 0 || decimals > MAX_DECIMALS) {
            throw new IllegalArgumentException(decimals + " decimals are outside 0.." + MAX_DECIMALS);
        }
    }

    /** The value of so many counts in {@link #unit()}, correctly rounded while {@code |count| < 2^53}. */
    public double inUnit(long count) {
        return count / POWERS[decimals];
    }

    /** The value of so many counts in the base unit of the quantity (pascal for pressure). */
    public double inBase(long count) {
        return unit.toBase(count / POWERS[decimals]);
    }

    /** {@code 10^decimals}: counts in one unit. */
    public long countsPerUnit() {
        return WHOLE_POWERS[decimals];
    }

    /**
     * The same value counted in a finer step of the same unit.
     *
     * @throws IllegalArgumentException if {@code finer} has another unit or fewer decimals
     * @throws ArithmeticException if the count no longer fits
     */
    public long recount(long count, Step finer) {
        if (finer.unit != unit || finer.decimals < decimals) {
            throw new IllegalArgumentException(finer + " is not finer than " + this);
        }
        return Math.multiplyExact(count, WHOLE_POWERS[finer.decimals - decimals]);
    }
}
