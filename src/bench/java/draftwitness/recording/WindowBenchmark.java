package draftwitness.recording;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Warmup;

/** Ten minutes at full rate, anywhere in a recording. */
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
public class WindowBenchmark {
    private static final long WINDOW_NANOS = DayState.HOUR_NANOS / 6;

    @Benchmark
    public List<Series> fourChannels(DayState day) throws RecordingException {
        long from = day.anywhere(WINDOW_NANOS);
        return day.file.read(day.file.header().channels(), from, from + WINDOW_NANOS);
    }

    @Benchmark
    public Series oneChannel(DayState day) throws RecordingException {
        long from = day.anywhere(WINDOW_NANOS);
        return day.file.read(day.file.header().channels().get(0), from, from + WINDOW_NANOS);
    }
}
