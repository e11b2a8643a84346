package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.reading.Chunk;
import draftwitness.reading.Decimal;
import draftwitness.reading.Unit;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Lines of text decoded by the shipped driver, a thousand in chunks of 64 bytes: time a line. */
@State(Scope.Benchmark)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
public class LineBenchmark {
    private static final int LINES = 1000;
    private static final int CHUNK_BYTES = 64;

    private Chunk[] chunks = new Chunk[0];
    private Decoder decoder;
    private long readings;

    @Setup
    public void lines() throws InputException {
        decoder = DriverCatalog.shipped().find("ascii-line").newDecoder();
        Random random = new Random(3);
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < LINES; i++) {
            text.append(String.format(Locale.ROOT, "%.1f Pa\r\n", -250 + 4 * random.nextGaussian()));
        }
        byte[] bytes = text.toString().getBytes(StandardCharsets.US_ASCII);
        chunks = new Chunk[(bytes.length + CHUNK_BYTES - 1) / CHUNK_BYTES];
        for (int c = 0; c < chunks.length; c++) {
            int from = c * CHUNK_BYTES;
            chunks[c] = new Chunk(bytes, from, Math.min(CHUNK_BYTES, bytes.length - from), c);
        }
    }

    @Benchmark
    @OperationsPerInvocation(LINES)
    public long decode() {
        DecodeSink sink = new DecodeSink() {
            @Override
            public void reading(int index, Decimal value, Unit unit, long arrivalNanos) {
                readings++;
            }

            @Override
            public void fault(Fault fault, int bytes) {}
        };
        for (Chunk chunk : chunks) {
            decoder.decode(chunk, sink);
        }
        return readings;
    }
}
