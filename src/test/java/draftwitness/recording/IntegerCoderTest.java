package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.LongUnaryOperator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Streams of numbers come back, and damaged ones fail in the expected way. */
class IntegerCoderTest {
    static List<IntegerCoder> coders() {
        return List.of(RiceCoder.INSTANCE, AnsCoder.INSTANCE);
    }

    @ParameterizedTest
    @MethodSource("coders")
    void givenAnyNumbers_whenCodedOneAfterAnother_thenTheyComeBack(IntegerCoder coder) {
        for (int seed = 0; seed < 400; seed++) {
            Random random = new Random(seed);
            BitWriter out = new BitWriter();
            long[][] streams = new long[1 + random.nextInt(4)][];
            for (int s = 0; s < streams.length; s++) {
                streams[s] = numbers(random);
                coder.encode(out, streams[s], streams[s].length);
            }
            out.align();
            BitReader in = new BitReader(out.toArray());
            for (long[] stream : streams) {
                long[] got = new long[stream.length];
                coder.decode(in, got, got.length);
                assertThat(Arrays.equals(got, stream)).as("seed %d", seed).isTrue();
            }
            assertThat(in.overrun()).as("seed %d", seed).isFalse();
        }
    }

    private static long[] numbers(Random random) {
        int n = random.nextInt(4) == 0 ? random.nextInt(4) : random.nextInt(3000);
        int shape = random.nextInt(7);
        int bits = 1 + random.nextInt(20);
        LongUnaryOperator shapes = i -> switch (shape) {
            case 0 -> 0;
            case 1 -> random.nextInt(500) == 0 ? 1 : 0;
            case 2 -> random.nextLong();
            case 3 -> random.nextLong(1L << bits);
            case 4 -> BitWriter.zigzag(Math.round(random.nextGaussian() * (1L << bits)));
            case 5 -> random.nextInt(100) == 0 ? random.nextLong() : random.nextInt(6);
            default -> 1L << random.nextInt(64);
        };
        return java.util.stream.LongStream.range(0, n).map(shapes).toArray();
    }

    @ParameterizedTest
    @MethodSource("coders")
    void givenDamagedBytes_whenDecoded_thenOnlyTheExpectedExceptionComes(IntegerCoder coder) {
        for (int seed = 0; seed < 2000; seed++) {
            Random random = new Random(seed);
            BitWriter out = new BitWriter();
            long[] numbers = numbers(random);
            coder.encode(out, numbers, numbers.length);
            out.align();
            byte[] bytes = out.toArray();
            bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
            try {
                coder.decode(new BitReader(bytes), new long[numbers.length], numbers.length);
            } catch (IndexOutOfBoundsException e) {
                assertThat(e).isNotNull(); // the one that callers expect
            }
        }
    }

    @ParameterizedTest
    @MethodSource("coders")
    void givenGaussianNumbers_whenCoded_thenTheLengthIsNearTheirEntropy(IntegerCoder coder) {
        Random random = new Random(7);
        int n = 3200;
        double sigma = 8;
        long[] numbers = new long[n];
        for (int i = 0; i < n; i++) {
            numbers[i] = BitWriter.zigzag(Math.round(random.nextGaussian() * sigma));
        }
        BitWriter out = new BitWriter();
        coder.encode(out, numbers, n);
        out.align();
        // Differential entropy of a normal variable: 0.5 log2(2 pi e sigma^2) bits (Cover and Thomas, Elements of
        // Information Theory, 2nd ed., eq. 8.9); here a step of 1 is small against sigma.
        double entropy = 0.5 * Math.log(2 * Math.PI * Math.E * sigma * sigma) / Math.log(2);
        double limit = coder == AnsCoder.INSTANCE ? 1.02 : 1.06;
        assertThat(8.0 * out.size() / n).isBetween(0.98 * entropy, limit * entropy);
    }
}
