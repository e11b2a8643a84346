package draftwitness.recording;

import draftwitness.reading.Channel;
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
 * Measures a recording of 24 hours, 4 channels, 50 Hz: sizes against the data's own entropy, writing, closing and
 * reading. Prints one line a figure. Arguments: folder, hours (24).
 */
final class StorageTable {
    private StorageTable() {}

    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments[0]);
        int hours = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 24;
        for (boolean fine : new boolean[] {false, true}) {
            long step = fine ? 1000 : 1_000_000;
            Path file = folder.resolve(fine ? "fine.dwrec" : "coarse.dwrec");
            Files.deleteIfExists(file);
            System.out.println((fine ? "times at 1 us" : "times at 1 ms") + ", " + hours + " h");
            write(file, new FurnaceData(1, step, 500_000), hours);
            read(file, hours);
            read(file, hours);
            commits(folder, new FurnaceData(2, step, 500_000));
        }
    }

    private static void write(Path file, FurnaceData data, int hours) throws Exception {
        SessionHeader header = data.header();
        Slicer slicer = new Slicer(header.channels(), 0);
        long cells = hours * 36_000L;
        long biggestLog = 0;
        long spent = 0;
        RecordingWriter writer = RecordingWriter.create(file, header);
        for (long i = 0; i < cells; i++) {
            Slice slice = data.next(slicer);
            long t = Cpu.nanos();
            writer.append(slice);
            spent += Cpu.nanos() - t;
            if (i % 1000 == 999) {
                biggestLog = Math.max(biggestLog, Files.size(Database.beside(file, "-wal")));
            }
        }
        long t = Cpu.nanos();
        writer.close();
        double close = (Cpu.nanos() - t) / 1e6;
        double readings = cells * 20.0;
        double bytes = Files.size(file) / readings;
        print("readings", readings / 1e6, "M");
        print("floor (times %.3f + counts %.3f bits)".formatted(data.timeBits(), data.countBits()), data.floorBytes(), "B/reading");
        print("finished file", bytes, "B/reading");
        print("finished file against floor", bytes / data.floorBytes(), "x");
        print("append, all commits included", spent / 1e9, "s");
        print("biggest log seen", biggestLog / 1e6, "MB");
        print("stop to one file", close, "ms");
    }

    private static void read(Path path, int hours) throws Exception {
        long t = Cpu.nanos();
        try (RecordingFile file = RecordingFile.open(path)) {
            long end = hours * 3600_000_000_000L;
            long readings = 0;
            print("open", (Cpu.nanos() - t) / 1e6, "ms");
            for (int round = 0; round < 6; round++) {
                t = Cpu.nanos();
                for (Channel channel : file.header().channels()) {
                    readings += file.overview(channel, 0, end, 1600).size();
                }
                print("overview of all, 4 channels, 1600 columns", (Cpu.nanos() - t) / 1e6, "ms");
                long from = (hours / 2) * 3600_000_000_000L + round * 777_000_000_000L;
                t = Cpu.nanos();
                for (Series series : file.read(file.header().channels(), from, from + 600_000_000_000L)) {
                    readings += series.size();
                }
                print("10 minutes at full rate, 4 channels", (Cpu.nanos() - t) / 1e6, "ms");
            }
            long[] count = {0};
            t = Cpu.nanos();
            file.forEachRun(-1, Long.MIN_VALUE + 1, Long.MAX_VALUE, run -> count[0] += run.size);
            double seconds = (Cpu.nanos() - t) / 1e9;
            print("decode everything", count[0] / seconds / 1e6, "M readings/s");
            t = Cpu.nanos();
            long[] slices = {0};
            file.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, s -> slices[0]++);
            print("replay as slices", count[0] / ((Cpu.nanos() - t) / 1e9) / 1e6, "M readings/s");
            t = Cpu.nanos();
            readings += file.readings(file.header().channels().get(0));
            print("counts of everything", (Cpu.nanos() - t) / 1e6, "ms");
        }
    }

    /** Median commit of a second's four blocks against a plain append and fsync of as many bytes, in turns. */
    private static void commits(Path folder, FurnaceData data) throws Exception {
        Path file = folder.resolve("commits.dwrec");
        Path plain = folder.resolve("plain.bin");
        Files.deleteIfExists(file);
        SessionHeader header = data.header();
        Slicer slicer = new Slicer(header.channels(), 0);
        int n = 1900;
        double[] commit = new double[n];
        double[] append = new double[n];
        long log = 0;
        long logBytes = 0;
        try (RecordingWriter writer = RecordingWriter.create(file, header);
                FileChannel out = FileChannel.open(
                        plain, StandardOpenOption.CREATE, StandardOpenOption.WRITE, StandardOpenOption.TRUNCATE_EXISTING)) {
            for (int i = 0; i < n; i++) {
                Slice[] second = new Slice[10];
                for (int k = 0; k < 10; k++) {
                    second[k] = data.next(slicer);
                }
                long t = Cpu.nanos();
                for (Slice slice : second) {
                    writer.append(slice);
                }
                commit[i] = (Cpu.nanos() - t) / 1e3;
                t = Cpu.nanos();
                append(out);
                append[i] = (Cpu.nanos() - t) / 1e3;
                long size = Files.size(Database.beside(file, "-wal")); 
                logBytes += Math.max(0, size - log);
                log = size;
                if (i == n - 2) {
                    print("while recording, file and log", Files.size(file) + size, "B");
                }
            }
            print("log a commit", (double) log / n, "B (to the first wrap)");
        }
        Arrays.sort(commit);
        Arrays.sort(append);
        print("commit, median", commit[n / 2], "us");
        print("commit, 99 %", commit[n * 99 / 100], "us");
        print("append and fsync of 240 bytes, median", append[n / 2], "us");
        print("commit against append", commit[n / 2] / append[n / 2], "x");
    }

    private static void append(FileChannel out) throws IOException {
        out.write(ByteBuffer.allocate(240));
        out.force(false);
    }

    private static void print(String what, double value, String unit) {
        System.out.println(String.format(Locale.ROOT, "  %-60s %10.3f %s", what, value, unit));
    }
}
