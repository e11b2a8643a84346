package draftwitness.recording;

import draftwitness.reading.Decimal;
import draftwitness.reading.Step;
import draftwitness.reading.Unit;
import java.math.BigDecimal;
import java.math.RoundingMode;

/** Writes counts of one step as decimals of another unit. Pure. */
final class Conversion {
    private Conversion() {}

    /** Decimals of {@code unit} needed to tell two successive counts of {@code step} apart, at most the maximum. */
    static int decimals(Step step, Unit unit) {
        if (step.unit() == unit) {
            return step.decimals();
        }
        double size = step.inBase(1);
        for (int decimals = 0; decimals < Step.MAX_DECIMALS; decimals++) {
            if (new Step(unit, decimals).inBase(1) <= size) {
                return decimals;
            }
        }
        return Step.MAX_DECIMALS;
    }

    /**
     * A value in whole counts of {@code unit} with exactly so many decimals: exact in the step's own unit, else
     * rounded.
     *
     * @throws ArithmeticException if it does not fit into 63 bits
     */
    static long count(long count, Step step, Unit unit, int decimals) {
        if (step.unit() == unit && step.decimals() <= decimals) {
            return Math.multiplyExact(count, new Step(unit, decimals).countsPerUnit() / step.countsPerUnit());
        }
        return rounded(count, step, unit, decimals).unscaledValue().longValueExact();
    }

    private static BigDecimal rounded(long count, Step step, Unit unit, int decimals) {
        BigDecimal value = step.unit() == unit
                ? BigDecimal.valueOf(count, step.decimals())
                : new BigDecimal(unit.fromBase(step.inBase(count)));
        return value.setScale(decimals, RoundingMode.HALF_EVEN);
    }

    /** Appends a value with exactly so many decimals of {@code unit}: exact in the step's own unit, else rounded. */
    static void append(StringBuilder out, long count, Step step, Unit unit, int decimals) {
        long factor = new Step(unit, decimals).countsPerUnit();
        if (step.unit() == unit && step.decimals() <= decimals) {
            long scale = factor / step.countsPerUnit();
            if (Math.abs((double) count) * scale < 0x1p62) {
                Decimal.append(out, count * scale, decimals);
                return;
            }
        }
        out.append(rounded(count, step, unit, decimals).toPlainString());
    }
}
