package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Locale;

/**
 * What a recording costs while it goes on: log bytes a commit, bytes a reading on the disk, commits against a plain
 * append and fsync in the same run, the largest log, and the stop. Arguments: folder, hours (24). 4 channels, 50 Hz.
 *
 * <p>Every commit is timed, and every {@value #EVERY}th is followed by an append and fsync of as many bytes as its
 * readings take.
 */
final class WhileRecording {
    private static final int EVERY = 20;
    private static final int CELLS = RecordingWriter.CELLS_A_COMMIT;

    private WhileRecording() {}

    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments[0]);
        int hours = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 24;
        Path file = folder.resolve("while.dwrec");
        Path plain = folder.resolve("plain.bin");
        Files.deleteIfExists(file);
        FurnaceData data = new FurnaceData(1, 1_000_000, 500_000);
        SessionHeader header = data.header();
        Slicer slicer = new Slicer(header.channels(), 0);
        int commits = (int) (hours * 36_000L / CELLS);
        double[] commit = new double[commits / EVERY];
        double[] append = new double[commits / EVERY];
        RecordingWriter writer = RecordingWriter.create(file, header);
        Path log = Database.beside(file, "-wal");
        long firstLog = 0;
        int firstCommits = 0;
        long biggestLog = 0;
        long biggestCommit = 0;
        long before = 0; // the log begins with the first commit
        try (FileChannel out = FileChannel.open(
                plain, StandardOpenOption.CREATE, StandardOpenOption.WRITE, StandardOpenOption.TRUNCATE_EXISTING)) {
            for (int i = 0; i < commits; i++) {
                Slice[] slices = new Slice[CELLS];
                for (int k = 0; k < CELLS; k++) {
                    slices[k] = data.next(slicer);
                }
                long t = System.nanoTime();
                for (Slice slice : slices) {
                    writer.append(slice);
                }
                long spent = System.nanoTime() - t;
                if (i % EVERY == 0 && i / EVERY < commit.length) {
                    commit[i / EVERY] = spent / 1e3;
                    t = System.nanoTime();
                    append(out);
                    append[i / EVERY] = (System.nanoTime() - t) / 1e3;
                }
                long size = (i < 2000 || i % 50 == 0) && Files.exists(log) ? Files.size(log) : before;
                if (size > before && firstCommits == i) {
                    firstLog += size - before; // until the log is used again from its beginning
                    firstCommits = i + 1;
                }
                biggestCommit = Math.max(biggestCommit, i < 2000 ? size - before : 0);
                biggestLog = Math.max(biggestLog, size);
                before = size;
                if (i + 1 == 4500) {
                    print("file and log after an hour", (Files.size(file) + size) / (4500.0 * CELLS * 20), "B/reading");
                }
            }
        }
        print("readings", commits * (double) CELLS * 20 / 1e6, "M");
        print("log a commit, mean until the log wraps", (double) firstLog / firstCommits, "B");
        print("log a commit, largest (a packed row)", biggestCommit, "B");
        print("largest log", biggestLog / 1e6, "MB");
        print("file and log at the end", (Files.size(file) + Files.size(log)) / (commits * (double) CELLS * 20), "B/reading");
        long t = System.nanoTime();
        writer.close();
        print("stop to one file", (System.nanoTime() - t) / 1e6, "ms");
        print("finished file", Files.size(file) / (commits * (double) CELLS * 20), "B/reading");
        Arrays.sort(commit);
        Arrays.sort(append);
        print("commit, median", commit[commit.length / 2], "us");
        print("commit, 99 %", commit[commit.length * 99 / 100], "us");
        print("append and fsync, median", append[append.length / 2], "us");
        print("commit against append", commit[commit.length / 2] / append[append.length / 2], "x");
    }

    private static void append(FileChannel out) throws IOException {
        out.write(ByteBuffer.allocate(240));
        out.force(false);
    }

    private static void print(String what, double value, String unit) {
        System.out.println(String.format(Locale.ROOT, "  %-60s %10.3f %s", what, value, unit));
    }
}
