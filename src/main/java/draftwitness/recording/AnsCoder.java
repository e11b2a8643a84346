package draftwitness.recording;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Range variant of asymmetric numeral systems (J. Duda, "Asymmetric numeral systems: entropy coding combining speed of
 * Huffman coding with compression rate of arithmetic coding", arXiv:1311.2540, 2013) with one static model a stream.
 *
 * <p>A number {@code u} is cut into plain low bits and a token. With {@code h = u >>> k}, the token is {@code h} below
 * {@value #DIRECT}; above, with {@code v = h - DIRECT + 1} of {@code b} bits, it is {@code DIRECT + b - 1} and
 * {@code v} without its top bit goes to the plain bits. Only tokens are modelled, so that a model takes a dozen bytes;
 * {@code k} is chosen for the shortest whole.
 *
 * <pre>
 * 8 bits  k (0 to 32), or 255 when all numbers are 0 and nothing follows
 * 7 bits  number of tokens m in the model
 * m x 6 bits  weights: 0 is never used, else (4 + (c &amp; 3)) &lt;&lt; (c &gt;&gt; 2)
 * zero bits to a whole byte
 * v       bytes of the token part: two states of 8 bytes, for numbers 0, 2, 4 ... and 1, 3, 5 ..., then 4-byte words,
 *         highest byte first, in the order of reading
 * plain bits, number by number: of v if there are any, then k low bits
 * zero bits to a whole byte
 * </pre>
 *
 * <p>Each state is 2^31 before the last number is written, and takes a word whenever reading lets it fall below that;
 * frequencies sum to 4096.
 */
final class AnsCoder implements IntegerCoder {
    static final AnsCoder INSTANCE = new AnsCoder();

    private static final int ALL_ZERO = 255;
    private static final int MAX_K = 32;
    private static final int DIRECT = 20;
    private static final int TOKENS = DIRECT + 64;
    private static final int SCALE_BITS = 12;
    private static final int SCALE = 1 << SCALE_BITS;
    private static final long LOW = 1L << 31;
    private static final int WEIGHT_BITS = 6;

    private AnsCoder() {}

    private static int token(long h) {
        return h >= 0 && h < DIRECT ? (int) h : DIRECT + 63 - Long.numberOfLeadingZeros(h - DIRECT + 1);
    }

    @Override
    public void encode(BitWriter out, long[] numbers, int n) {
        Plan plan = plan(numbers, n);
        if (plan == null) {
            out.bits(ALL_ZERO, 8);
            return;
        }
        out.bits(plan.k, 8);
        out.bits(plan.codes.length, 7);
        for (int code : plan.codes) {
            out.bits(code, WEIGHT_BITS);
        }
        out.align();
        writeTokens(out, numbers, n, plan);
        writePlainBits(out, numbers, n, plan.k);
        out.align();
    }

    private static void writeTokens(BitWriter out, long[] numbers, int n, Plan plan) {
        int[] frequency = frequencies(plan.codes);
        int[] start = starts(frequency);
        int[] words = new int[n + 1];
        int count = 0;
        long[] x = {LOW, LOW};
        for (int i = n - 1; i >= 0; i--) {
            int t = token(numbers[i] >>> plan.k);
            int f = frequency[t];
            long state = x[i & 1];
            if (state >= ((LOW >>> SCALE_BITS) << 32) * f) {
                words[count++] = (int) state;
                state >>>= 32;
            }
            x[i & 1] = ((state / f) << SCALE_BITS) + state % f + start[t];
        }
        out.varint(16 + 4L * count);
        for (long state : x) {
            out.bits(state >>> 32, 32);
            out.bits(state, 32);
        }
        for (int w = count - 1; w >= 0; w--) {
            out.bits(words[w], 32);
        }
    }

    private static void writePlainBits(BitWriter out, long[] numbers, int n, int k) {
        for (int i = 0; i < n; i++) {
            long h = numbers[i] >>> k;
            if (h < 0 || h >= DIRECT) {
                long v = h - DIRECT + 1;
                int bits = 63 - Long.numberOfLeadingZeros(v);
                out.bits(v >>> 32, Math.max(0, bits - 32));
                out.bits(v, Math.min(bits, 32));
            }
            out.bits(numbers[i], k);
        }
    }

    @Override
    public void decode(BitReader in, long[] numbers, int n) {
        int k = (int) in.bits(8);
        if (k == ALL_ZERO) {
            Arrays.fill(numbers, 0, n, 0);
            return;
        }
        int[] codes = new int[(int) in.bits(7)];
        if (k > MAX_K || codes.length == 0 || codes.length > TOKENS) {
            throw new IndexOutOfBoundsException("no such model");
        }
        for (int t = 0; t < codes.length; t++) {
            codes[t] = (int) in.bits(WEIGHT_BITS);
        }
        in.align();
        int length = in.varint(16, Integer.MAX_VALUE);
        int position = in.bytePosition();
        in.seekByte(Math.addExact(position, length));
        readTokens(in, position, numbers, n, slots(codes));
        readPlainBits(in, numbers, n, k);
        in.align();
    }

    private static void readTokens(BitReader in, int from, long[] numbers, int n, int[] slots) {
        long x = in.longAt(from);
        long y = in.longAt(from + 8);
        int position = from + 16;
        for (int i = 0; i < n; i++) { // two states in turns, so that one need not wait for the other
            int slot = (int) x & (SCALE - 1);
            int entry = slots[slot];
            numbers[i] = entry & 0x7F;
            x = ((entry >>> 7) & 0x1FFF) * (x >>> SCALE_BITS) + slot - (entry >>> 20);
            if (x < LOW) {
                x = (x << 32) | (in.intAt(position) & 0xFFFF_FFFFL);
                position += 4;
            }
            if (++i == n) {
                break;
            }
            slot = (int) y & (SCALE - 1);
            entry = slots[slot];
            numbers[i] = entry & 0x7F;
            y = ((entry >>> 7) & 0x1FFF) * (y >>> SCALE_BITS) + slot - (entry >>> 20);
            if (y < LOW) {
                y = (y << 32) | (in.intAt(position) & 0xFFFF_FFFFL);
                position += 4;
            }
        }
    }

    private static void readPlainBits(BitReader in, long[] numbers, int n, int k) {
        for (int i = 0; i < n; i++) {
            long h = numbers[i];
            if (h >= DIRECT) {
                int bits = (int) h - DIRECT;
                long high = bits > 32 ? in.bits(bits - 32) : 0;
                long low = bits == 0 ? 0 : in.bits(Math.min(bits, 32));
                h = ((1L << bits) | (high << 32) | low) + DIRECT - 1;
            }
            // Two shifts, since a shift by 64 would be one by 0 when k is 0.
            numbers[i] = (h << k) | (in.window() >>> 1 >>> (63 - k));
            in.skip(k);
        }
    }

    /** For each slot the token, its frequency (from bit 7) and its first slot (from bit 20). */
    private static int[] slots(int[] codes) {
        int[] frequency = frequencies(codes);
        int[] slots = new int[SCALE];
        int slot = 0;
        for (int t = 0; t < frequency.length; t++) {
            int entry = t | (frequency[t] << 7) | (slot << 20);
            Arrays.fill(slots, slot, slot + frequency[t], entry);
            slot += frequency[t];
        }
        return slots;
    }

    private static int[] starts(int[] frequency) {
        int[] start = new int[frequency.length];
        for (int t = 1; t < frequency.length; t++) {
            start[t] = start[t - 1] + frequency[t - 1];
        }
        return start;
    }

    private static long weight(int code) {
        return code == 0 ? 0 : (4L + (code & 3)) << (code >> 2);
    }

    /** The code of the weight nearest below or at a count; a used token never gets 0. */
    private static int code(long count) {
        if (count == 0) {
            return 0;
        }
        int best = 1;
        for (int code = 1; code < 1 << WEIGHT_BITS; code++) {
            best = Math.abs(weight(code) - 4 * count) < Math.abs(weight(best) - 4 * count) ? code : best;
        }
        return best;
    }

    /** Scales weights to whole frequencies that sum to 4096; the same in writing and reading. */
    private static int[] frequencies(int[] codes) {
        long sum = 0;
        for (int code : codes) {
            sum += weight(code);
        }
        if (sum == 0) {
            throw new IndexOutOfBoundsException("a model without tokens");
        }
        int[] frequency = new int[codes.length];
        int largest = 0;
        int left = SCALE;
        for (int t = 0; t < codes.length; t++) {
            long w = weight(codes[t]);
            frequency[t] = w == 0 ? 0 : (int) Math.max(1, w * SCALE / sum);
            left -= frequency[t];
            largest = frequency[t] > frequency[largest] ? t : largest;
        }
        frequency[largest] += left;
        if (frequency[largest] < 1) {
            throw new IndexOutOfBoundsException("a model with too many tokens");
        }
        return frequency;
    }

    /** How a stream is cut into tokens and plain bits, and what the tokens' weights are. */
    private static final class Plan {
        private final int k;
        private final int[] codes;

        Plan(int k, int[] codes) {
            this.k = k;
            this.codes = codes;
        }
    }

    /** The shortest plan, or null when all numbers are 0. */
    private static @Nullable Plan plan(long[] numbers, int n) {
        double sum = 0;
        for (int i = 0; i < n; i++) {
            sum += numbers[i] < 0 ? 0x1p63 : numbers[i];
        }
        if (sum == 0) {
            return null;
        }
        int centre = Math.max(0, Math.min(MAX_K, Math.getExponent(sum / n) - 1));
        Plan best = null;
        double least = Double.MAX_VALUE;
        for (int k = Math.max(0, centre - 2); k <= Math.min(MAX_K, centre + 1); k++) {
            long[] counts = count(numbers, n, k);
            Plan plan = new Plan(k, codes(counts));
            double bits = bits(counts, plan);
            if (bits < least) {
                least = bits;
                best = plan;
            }
        }
        return best;
    }

    private static long[] count(long[] numbers, int n, int k) {
        long[] counts = new long[TOKENS];
        int used = 0;
        for (int i = 0; i < n; i++) {
            int t = token(numbers[i] >>> k);
            counts[t]++;
            used = Math.max(used, t + 1);
        }
        return Arrays.copyOf(counts, used);
    }

    private static int[] codes(long[] counts) {
        long most = Arrays.stream(counts).max().orElse(1);
        int shift = Math.max(0, 64 - Long.numberOfLeadingZeros(most) - 15);
        int[] codes = new int[counts.length];
        for (int t = 0; t < codes.length; t++) {
            codes[t] = code(counts[t] == 0 ? 0 : Math.max(1, counts[t] >>> shift));
        }
        return codes;
    }

    private static double bits(long[] counts, Plan plan) {
        int[] frequency = frequencies(plan.codes);
        double bits = WEIGHT_BITS * counts.length;
        for (int t = 0; t < counts.length; t++) {
            if (counts[t] > 0) {
                double plain = plan.k + Math.max(0, t - DIRECT);
                bits += counts[t] * (plain - Math.log(frequency[t] / (double) SCALE) / Math.log(2));
            }
        }
        return bits;
    }
}
