package draftwitness.recording;

import draftwitness.reading.Channel;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/** What a screen of 1600 columns asks for. */
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
public class OverviewBenchmark {
    private static final int COLUMNS = 1600;

    @Benchmark
    public void whole(DayState day, Blackhole hole) throws RecordingException {
        overview(day, 0, day.hours * DayState.HOUR_NANOS, hole);
    }

    @Benchmark
    public void anHour(DayState day, Blackhole hole) throws RecordingException {
        long from = day.anywhere(DayState.HOUR_NANOS);
        overview(day, from, from + DayState.HOUR_NANOS, hole);
    }

    private static void overview(DayState day, long from, long to, Blackhole hole) throws RecordingException {
        for (Channel channel : day.file.header().channels()) {
            hole.consume(day.file.overview(channel, from, to, COLUMNS));
        }
    }
}
