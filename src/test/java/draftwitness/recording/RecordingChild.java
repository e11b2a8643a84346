package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The program of a child process: records without end, and says after each commit how far it is safe. */
final class RecordingChild {
    private RecordingChild() {}

    /** Starts {@code java} with this class, its output readable, errors joined in. */
    static Process start(List<String> before, String... arguments) throws Exception {
        List<String> command = new ArrayList<>(before);
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(List.of("-Xmx192m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1", "-cp"));
        command.add(System.getProperty("java.class.path"));
        command.add(RecordingChild.class.getName());
        command.addAll(List.of(arguments));
        return new ProcessBuilder(command).redirectErrorStream(true).start();
    }

    /** Arguments: file, seed, cells to make. */
    public static void main(String[] arguments) {
        Path path = Path.of(arguments[0]);
        SessionHeader header = RandomSessions.header();
        List<Slice> slices =
                RandomSessions.slices(header, Long.parseLong(arguments[1]), 0, Integer.parseInt(arguments[2]));
        try (RecordingWriter writer = RecordingWriter.create(path, header)) {
            System.out.println("ready");
            long safe = Long.MIN_VALUE;
            for (Slice slice : slices) {
                writer.append(slice);
                if (writer.committedNanos() != safe) {
                    safe = writer.committedNanos();
                    System.out.println(safe);
                }
            }
            System.out.println("end");
        } catch (RecordingException e) {
            System.out.println(e.kind() + " " + e.getMessage());
        }
    }
}
