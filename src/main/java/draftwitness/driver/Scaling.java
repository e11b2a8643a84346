package draftwitness.driver;

import draftwitness.reading.Decimal;
import draftwitness.reading.Step;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;

/**
 * Raw number times {@code scale} plus {@code offset}, as a decimal. Immutable.
 *
 * <p>Whole numbers stay exact as long as scale and offset have at most {@value Step#MAX_DECIMALS} decimals together;
 * everything else is rounded half to even to {@code decimals}.
 */
final class Scaling {
    private final BigDecimal scale;
    private final BigDecimal offset;
    private final int decimals;
    private final int exactDecimals;

    /**
     * @param decimals digits after the point for what cannot be kept exactly
     * @param alwaysRound round whole numbers to {@code decimals} too, since the description says so
     */
    Scaling(BigDecimal scale, BigDecimal offset, int decimals, boolean alwaysRound) {
        this.scale = trimmed(scale);
        this.offset = trimmed(offset);
        this.decimals = decimals;
        int needed = Math.max(this.scale.scale(), this.offset.scale());
        this.exactDecimals = alwaysRound || needed > Step.MAX_DECIMALS ? -1 : needed;
    }

    /** Times one, plus nothing. */
    static Scaling plain(int decimals) {
        return new Scaling(BigDecimal.ONE, BigDecimal.ZERO, decimals, false);
    }

    private static BigDecimal trimmed(BigDecimal value) {
        BigDecimal bare = value.stripTrailingZeros();
        return bare.scale() < 0 ? bare.setScale(0) : bare;
    }

    /** Empty if it does not fit into 63 bits. */
    Optional<Decimal> whole(long raw) {
        return decimal(BigDecimal.valueOf(raw), exactDecimals < 0 ? decimals : exactDecimals);
    }

    /** A decimal number that is exact in itself: ten to the power {@code exponent} times {@code mantissa}. */
    Optional<Decimal> exact(long mantissa, int exponent) {
        BigDecimal raw = BigDecimal.valueOf(mantissa).scaleByPowerOfTen(exponent);
        int needed = Math.max(0, -exponent) + (exactDecimals < 0 ? 0 : scale.scale());
        boolean round = exactDecimals < 0 || needed > Step.MAX_DECIMALS;
        return decimal(raw, round ? decimals : Math.max(needed, offset.scale()));
    }

    /** Rounded to the declared decimals; the raw number is finite. */
    Optional<Decimal> rounded(double raw) {
        return decimal(new BigDecimal(raw), decimals);
    }

    private Optional<Decimal> decimal(BigDecimal raw, int digits) {
        try {
            BigDecimal value = raw.multiply(scale).add(offset).setScale(digits, RoundingMode.HALF_EVEN);
            return Optional.of(new Decimal(value.unscaledValue().longValueExact(), digits));
        } catch (ArithmeticException e) {
            return Optional.empty(); // too large: an expected outcome of outside data
        }
    }
}
