package draftwitness.recording;

import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The recording of the demo, as it comes with the program: opened and decoded to its end, replayed to its end. */
@State(Scope.Benchmark)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
public class ReferenceBenchmark {
    private static final Path FILE = Path.of("recordings", "demo-house.dwrec");

    @Benchmark
    public long decode() throws RecordingException {
        long[] readings = {0};
        try (RecordingFile file = RecordingFile.open(FILE)) {
            file.forEachRun(-1, Long.MIN_VALUE + 1, Long.MAX_VALUE, run -> readings[0] += run.size);
        }
        return readings[0];
    }

    @Benchmark
    public long replay() throws RecordingException {
        long[] slices = {0};
        try (RecordingFile file = RecordingFile.open(FILE)) {
            file.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slice -> slices[0]++);
        }
        return slices[0];
    }
}
