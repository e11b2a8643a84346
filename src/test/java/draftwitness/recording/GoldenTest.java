package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Block;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import java.io.ByteArrayOutputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Files of every format version that shipped stay readable, with the contents written beside them. */
class GoldenTest {
    @TempDir
    Path folder;

    @ParameterizedTest
    @CsvSource({"v1, finished, true", "v1, cut, false", "v1, thinned, true"})
    void givenAFileOfAnOlderVersion_whenRead_thenItHoldsWhatItHeld(String version, String name, boolean finished)
            throws Exception {
        Path path = folder.resolve(name + ".dwrec");
        copy(version, name + ".dwrec", path);
        copy(version, name + ".dwrec-wal", Database.beside(path, "-wal"));
        Verification verification = Verifier.verify(path);
        assertThat(verification.damages()).isEmpty();
        assertThat(verification.finished()).isEqualTo(finished);
        assertThat(text(path)).isEqualTo(new String(resource(version, name + ".txt"), StandardCharsets.UTF_8));
    }

    /** All that a recording holds, as text. */
    private static String text(Path path) throws Exception {
        ByteArrayOutputStream table = new ByteArrayOutputStream();
        try (RecordingFile file = RecordingFile.open(path)) {
            TableExport.toStream(file, table, TableFormat.CSV, ExportOptions.ALL, Progress.NONE);
            StringBuilder beside = new StringBuilder();
            file.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slice -> beside(slice, beside));
            SessionHeader h = file.header();
            return "title " + h.title() + "\nstart " + h.start() + "\nstep " + h.timeStepNanos() + "\nsetup\n"
                    + h.setupToml() + "sources " + h.sources() + "\nnotes "
                    + Notebook.of(path).notes() + "\nevents\n"
                    + file.events().stream().map(SourceEvent::toString).collect(Collectors.joining("\n"))
                    + "\nthinned " + file.thinned() + "\nreadings\n" + table.toString(StandardCharsets.UTF_8)
                    + "beside the times: time, arrival if it is not the time, counter if there is one\n" + beside;
        }
    }

    private static void beside(Slice slice, StringBuilder out) {
        for (Block block : slice.blocks()) {
            for (int i = 0; i < block.size() && (block.hasArrivals() || block.hasCounters()); i++) {
                out.append(block.channel().tap().role()).append(' ').append(block.timeNanos(i));
                out.append(block.hasArrivals() ? " " + block.arrivalNanos(i) : " -");
                out.append(block.hasCounters() ? " " + block.counter(i) : " -").append('\n');
            }
        }
    }

    private static void copy(String version, String name, Path to) throws Exception {
        byte[] bytes = resource(version, name);
        if (bytes.length > 0) {
            Files.write(to, bytes);
        }
    }

    /** Empty when there is none. */
    private static byte[] resource(String version, String name) throws Exception {
        try (InputStream in = GoldenTest.class.getResourceAsStream("/recordings/" + version + "/" + name)) {
            return in == null ? new byte[0] : in.readAllBytes();
        }
    }

    /** Makes the files of the present version, in the folder named; only for a new version's first time. */
    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments[0]);
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.tameAndSlow(header, 2031, 0, 1500);
        Path finished = RoundTripTest.record(folder.resolve("finished.dwrec"), header, slices);
        Notebook.of(finished).add(1_000_000_000L, 2_000_000_000L, "listen here", Instant.parse("2026-01-18T08:00:00Z"));
        Files.writeString(folder.resolve("finished.txt"), text(finished));
        Path thinned = folder.resolve("thinned.dwrec");
        KeepPolicy policy = new KeepPolicy(20_000_000_000L, 0, Long.MAX_VALUE);
        try (RecordingWriter writer = RecordingWriter.create(thinned, header, policy)) {
            for (Slice slice : slices) {
                writer.append(slice);
            }
        }
        Files.writeString(folder.resolve("thinned.txt"), text(thinned));
        Path going = folder.resolve("going.dwrec");
        Path cut = folder.resolve("cut.dwrec");
        try (RecordingWriter writer = RecordingWriter.create(going, header)) {
            for (Slice slice : slices.subList(0, 705)) {
                writer.append(slice);
            }
            Files.copy(going, cut);
            Files.copy(Database.beside(going, "-wal"), Database.beside(cut, "-wal"));
        }
        Files.delete(going);
        Files.writeString(folder.resolve("cut.txt"), text(cut));
        Files.deleteIfExists(Database.beside(cut, "-shm"));
    }
}
