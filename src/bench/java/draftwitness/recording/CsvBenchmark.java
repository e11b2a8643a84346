package draftwitness.recording;

import draftwitness.input.InputException;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** An hour of readings as a table (720 000 of them, in memory), every cell of it read. */
@State(Scope.Benchmark)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
public class CsvBenchmark {
    private byte[] table = new byte[0];

    @Setup
    public void export(DayState day) throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ExportOptions hour = new ExportOptions(0, DayState.HOUR_NANOS, false, false);
        TableExport.toStream(day.file, out, TableFormat.CSV, hour, Progress.NONE);
        table = out.toByteArray();
    }

    @Benchmark
    public long parse() throws IOException, InputException {
        CsvReader reader = new CsvReader("table", new ByteArrayInputStream(table));
        reader.header();
        long sum = 0;
        while (reader.nextLine()) {
            do {
                sum += reader.number() ? reader.count : 0;
            } while (reader.anotherCell());
        }
        return sum;
    }
}
