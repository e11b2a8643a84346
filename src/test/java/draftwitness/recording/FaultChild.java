package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.LongBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;

/**
 * The program of a child process that runs on a disk that fails: it lets the n-th write, force, removal or change of
 * length fail, for every n until none does, once and from then on, and looks at what is left each time.
 *
 * <p>Arguments: folder, the file shared with {@code faults.c}. Prints a line a loop, or what went wrong.
 */
final class FaultChild {
    private static final SessionHeader HEADER = RandomSessions.header();
    private static final List<Slice> SLICES = RandomSessions.slow(HEADER, 31, 0, 136);
    private static final Instant NOW = Instant.parse("2026-01-18T08:00:00Z");
    private static final int[] KINDS = {1, 2, 4, 8};
    private static final String[] NAMES = {"write", "force", "name", "length"};

    private final Path folder;
    private final LongBuffer control;

    private FaultChild(Path folder, LongBuffer control) {
        this.folder = folder;
        this.control = control;
    }

    /** What is done while the disk fails. */
    private interface Work {
        /** True if it went well to its end. */
        boolean run(Path file) throws Exception;
    }

    /** What must be so afterwards. */
    private interface Check {
        void run(Path file, boolean complete) throws Exception;
    }

    public static void main(String[] arguments) throws Exception {
        try (FileChannel channel =
                FileChannel.open(Path.of(arguments[1]), StandardOpenOption.READ, StandardOpenOption.WRITE)) {
            LongBuffer control = channel.map(FileChannel.MapMode.READ_WRITE, 0, 40)
                    .order(ByteOrder.nativeOrder())
                    .asLongBuffer();
            new FaultChild(Path.of(arguments[0]), control).loops();
        }
        System.out.println("end");
    }

    private long safe;
    private boolean created;

    private void loops() throws Exception {
        for (int k = 0; k < KINDS.length; k++) {
            for (int ever = 0; ever < 2; ever++) {
                loop("record", k, ever, file -> {}, this::record, this::checkRecorded);
                loop("repair", k, ever, FaultChild::damage, FaultChild::repair, FaultChild::checkRepaired);
                loop("note", k, ever, FaultChild::noted, FaultChild::note, FaultChild::checkNoted);
            }
        }
    }

    /** Prepares a file while the disk is good. */
    private interface Prepare {
        void run(Path file) throws Exception;
    }

    private void loop(String what, int kind, int ever, Prepare prepare, Work work, Check check) throws Exception {
        int failures = 0;
        for (int n = 1; ; n++) {
            Path own = Files.createDirectory(folder.resolve(what + kind + ever + "-" + n));
            Path file = own.resolve("a.dwrec");
            prepare.run(file);
            control.put(3, 0).put(4, 0).put(2, ever).put(1, n).put(0, KINDS[kind]);
            boolean complete = work.run(file);
            control.put(0, 0);
            boolean failed = control.get(4) > 0;
            String where = what + ", " + NAMES[kind] + " " + n + (ever == 1 ? " and all after it" : "");
            require(complete || failed, where + ": it failed by itself");
            try {
                check.run(file, complete);
            } catch (Exception | AssertionError e) {
                throw new IllegalStateException(where + ": " + e, e);
            }
            remove(own);
            failures += failed ? 1 : 0;
            if (!failed) {
                System.out.println(what + " " + NAMES[kind] + " " + (ever == 1 ? "ever" : "once") + " " + failures);
                return;
            }
        }
    }

    private static void remove(Path own) throws IOException {
        for (Path p : RoundTripTest.filesIn(own)) {
            Files.delete(p);
        }
        Files.delete(own);
    }

    private static void require(boolean condition, String what) {
        if (!condition) {
            throw new IllegalStateException(what);
        }
    }

    private boolean record(Path file) throws RecordingException {
        safe = Long.MIN_VALUE;
        created = false;
        RecordingWriter writer = null;
        boolean complete = false;
        try {
            writer = RecordingWriter.create(file, HEADER);
            created = true;
            for (Slice slice : SLICES) {
                writer.append(slice);
            }
            writer.close();
            complete = true;
        } catch (RecordingException e) {
            requireOneLine(e);
        } finally {
            safe = writer == null ? safe : writer.committedNanos();
            closeQuietly(writer);
        }
        return complete;
    }

    private static void closeQuietly(RecordingWriter writer) {
        try {
            if (writer != null) {
                writer.close();
            }
        } catch (RecordingException e) {
            requireOneLine(e);
        }
    }

    private static void requireOneLine(RecordingException e) {
        String message = String.valueOf(e.getMessage());
        require(!message.contains("\n") && message.contains(": "), "no clear line: " + message);
    }

    private void checkRecorded(Path path, boolean complete) throws Exception {
        if (!created) { // and said so: what may be left, where nothing can be removed, has no reading in it
            require(!complete && safe == Long.MIN_VALUE, "complete without a beginning");
            return;
        }
        List<Damage> damages = Verifier.verify(path).damages();
        require(damages.isEmpty(), "damaged: " + damages);
        try (RecordingFile file = RecordingFile.open(path)) {
            List<Slice> got = RoundTripTest.replay(file);
            require(got.size() * Slice.CELL_NANOS >= safe, "safe to " + safe + ", there are " + got.size());
            require(got.equals(SLICES.subList(0, got.size())), "something else came back");
            require(!file.finished() || got.size() == SLICES.size(), "finished early");
            require(!complete || got.size() == SLICES.size(), "complete, and it is not");
        }
    }

    private static void damage(Path file) throws Exception {
        RoundTripTest.record(file, HEADER, SLICES);
        byte[] bytes = Files.readAllBytes(file);
        Arrays.fill(bytes, 0, Schema.PAGE_BYTES, (byte) 0x55);
        Files.write(file, bytes);
        Files.write(file.resolveSibling("before"), bytes);
    }

    private static Path saved(Path file) {
        return file.resolveSibling("saved.dwrec");
    }

    private static boolean repair(Path file) {
        try {
            return Repair.run(file, saved(file)).readings() > 0;
        } catch (RecordingException e) {
            requireOneLine(e);
            return false;
        }
    }

    private static void checkRepaired(Path path, boolean complete) throws Exception {
        require(
                Arrays.equals(Files.readAllBytes(path), Files.readAllBytes(path.resolveSibling("before"))),
                "the damaged file was changed");
        require(Files.exists(saved(path)) == complete, "a repair that failed left something, or a good one nothing");
        if (complete) {
            require(Verifier.verify(saved(path)).damages().isEmpty(), "the repaired file is damaged");
            try (RecordingFile file = RecordingFile.open(saved(path))) {
                require(RoundTripTest.replay(file).equals(SLICES), "repaired to something else");
            }
        }
    }

    private static void noted(Path file) throws Exception {
        RoundTripTest.record(file, HEADER, SLICES);
        Notebook.of(file).add(1, 2, "first", NOW);
        Files.writeString(file.resolveSibling("before"), Verifier.verify(file).evidence());
    }

    private static boolean note(Path file) {
        try {
            Notebook.of(file).add(3, 4, "second", NOW);
            return true;
        } catch (RecordingException e) {
            requireOneLine(e);
            return false;
        }
    }

    private static void checkNoted(Path path, boolean complete) throws Exception {
        Verification verification = Verifier.verify(path);
        require(verification.damages().isEmpty(), "damaged: " + verification.damages());
        require(
                verification.evidence().equals(Files.readString(path.resolveSibling("before"))),
                "a note changed the evidence");
        int notes = Notebook.of(path).notes().size();
        require(notes == 2 || (notes == 1 && !complete), "there are " + notes + " notes");
    }
}
