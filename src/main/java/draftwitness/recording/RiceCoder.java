package draftwitness.recording;

import java.util.Arrays;

/**
 * Golomb-Rice coding with one parameter a stream (R. F. Rice, "Some practical universal noiseless coding techniques",
 * JPL Publication 79-22, 1979): a number {@code u} becomes {@code u >>> k} one bits, a zero bit and the low {@code k}
 * bits. Numbers that would need {@value #ESCAPE} one bits or more are written as that many one bits and 64 plain bits.
 *
 * <p>A stream is one byte {@code k} (0 to {@value #MAX_K}) and the codes, or the byte {@value #ALL_ZERO} alone when all
 * numbers are 0.
 */
final class RiceCoder implements IntegerCoder {
    static final RiceCoder INSTANCE = new RiceCoder();
    static final int ESCAPE = 24;
    static final int MAX_K = 32;
    static final int ALL_ZERO = 255;

    private RiceCoder() {}

    @Override
    public void encode(BitWriter out, long[] numbers, int n) {
        int k = bestParameter(numbers, n);
        out.bits(k, 8);
        if (k == ALL_ZERO) {
            return;
        }
        for (int i = 0; i < n; i++) {
            long u = numbers[i];
            long quotient = u >>> k;
            if (quotient >= 0 && quotient < ESCAPE) {
                int q = (int) quotient;
                out.bits((1L << (q + 1)) - 2, q + 1);
                out.bits(u, k);
            } else {
                out.bits((1L << ESCAPE) - 1, ESCAPE);
                out.bits(u >>> 32, 32);
                out.bits(u, 32);
            }
        }
    }

    @Override
    public void decode(BitReader in, long[] numbers, int n) {
        int k = (int) in.bits(8);
        if (k == ALL_ZERO) {
            Arrays.fill(numbers, 0, n, 0);
            return;
        }
        if (k > MAX_K) {
            throw new IndexOutOfBoundsException("Rice parameter " + k);
        }
        for (int i = 0; i < n; i++) {
            long window = in.window();
            int q = Long.numberOfLeadingZeros(~window);
            if (q < ESCAPE) {
                // Two shifts, since a shift by 64 would be one by 0 when k is 0.
                numbers[i] = ((long) q << k) | (window << (q + 1) >>> 1 >>> (63 - k));
                in.skip(q + 1 + k);
            } else {
                in.skip(ESCAPE);
                long high = in.bits(32);
                numbers[i] = (high << 32) | in.bits(32);
            }
        }
    }

    /** The parameter with the shortest result, or {@link #ALL_ZERO}. */
    private static int bestParameter(long[] numbers, int n) {
        double sum = 0;
        for (int i = 0; i < n; i++) {
            sum += numbers[i] < 0 ? 0x1p63 : numbers[i];
        }
        if (sum == 0) {
            return ALL_ZERO;
        }
        int centre = Math.max(0, Math.min(MAX_K, Math.getExponent(sum / n)));
        int best = centre;
        double least = Double.MAX_VALUE;
        for (int k = Math.max(0, centre - 3); k <= Math.min(MAX_K, centre + 1); k++) {
            double bits = length(numbers, n, k);
            if (bits < least) {
                least = bits;
                best = k;
            }
        }
        return best;
    }

    private static double length(long[] numbers, int n, int k) {
        long bits = 0;
        for (int i = 0; i < n; i++) {
            long q = numbers[i] >>> k;
            bits += q >= 0 && q < ESCAPE ? q + 1 + k : ESCAPE + 64;
        }
        return bits;
    }
}
