package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;

/** A recording of the furnace kind, made for the run in a folder of its own, open for reading. */
@State(Scope.Benchmark)
public class DayState {
    static final long HOUR_NANOS = 3_600_000_000_000L;

    /** How long the recording is; 24 h have 17.28 million readings. */
    @Param("24")
    public int hours;

    private final Random random = new Random(5);
    private Path path;
    RecordingFile file;

    @Setup(Level.Trial)
    public void write() throws Exception {
        path = Files.createTempFile("bench", ".dwrec");
        FurnaceData data = new FurnaceData(1, 1_000_000, 500_000);
        SessionHeader header = data.header();
        Slicer slicer = new Slicer(header.channels(), 0);
        try (RecordingWriter writer = RecordingWriter.bulk(path, path, header)) {
            for (long cell = 0; cell < hours * 36_000L; cell++) {
                writer.append(data.next(slicer));
            }
        }
        file = RecordingFile.open(path);
    }

    /** Somewhere in the recording, so that a window of that length fits behind it. */
    long anywhere(long windowNanos) {
        return (long) (random.nextDouble() * (hours * HOUR_NANOS - windowNanos));
    }

    @TearDown(Level.Trial)
    public void remove() throws Exception {
        file.close();
        Files.delete(path);
    }
}
