package draftwitness.app;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.Verification;
import draftwitness.recording.Verifier;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;

/**
 * Eight instruments of 1000 lines a second each on pseudo terminals (socat), recorded by the program in a process of its
 * own. Each line is a number one step above the one before, so that every line that is missing shows. Arguments: folder,
 * seconds (600). Linux.
 */
final class Soak {
    private static final String[] ROLES = {
        "draft.switch", "draft.inducer", "draft.collector", "gas.manifold", "gas.inlet", "static.supply", "static.return",
        "draft.burner-box"
    };
    private static final int TURN = 20_000;
    private static final int RATE = 1000;

    private Soak() {}

    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments[0]);
        int seconds = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 600;
        Path file = folder.resolve("soak.dwrec");
        List<Process> lines = new ArrayList<>();
        try {
            for (int i = 0; i < ROLES.length; i++) {
                lines.add(pair(folder, i));
            }
            Process recorder = recorder(folder, file);
            run(folder, file, seconds, recorder);
        } finally {
            lines.forEach(Process::destroy);
        }
    }

    private static Process pair(Path folder, int i) throws Exception {
        Process socat = new ProcessBuilder(
                        "socat", "pty,raw,echo=0,link=" + folder.resolve("in" + i), "pty,raw,echo=0,link=" + folder.resolve("out" + i))
                .inheritIO()
                .start();
        while (!Files.exists(folder.resolve("out" + i)) || !Files.exists(folder.resolve("in" + i))) {
            LockSupport.parkNanos(10_000_000);
        }
        return socat;
    }

    private static Process recorder(Path folder, Path file) throws Exception {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx128m",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                "draftwitness.app.Main",
                "record",
                "--out",
                file.toString()));
        for (int i = 0; i < ROLES.length; i++) {
            command.add("--source");
            command.add(ROLES[i] + "=ascii-line@serial:" + folder.resolve("out" + i) + "?baud=115200");
        }
        return new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("soak.log").toFile())
                .start();
    }

    private static void run(Path folder, Path file, int seconds, Process recorder) throws Exception {
        while (recorder.isAlive() && !Files.exists(file)) {
            LockSupport.parkNanos(50_000_000);
        }
        LockSupport.parkNanos(3_000_000_000L); // the ports are open
        AtomicLong sent = new AtomicLong();
        List<Thread> writers = new ArrayList<>();
        for (int i = 0; i < ROLES.length; i++) {
            Path in = folder.resolve("in" + i);
            Thread writer = new Thread(() -> write(in, seconds, sent));
            writers.add(writer);
            writer.start();
        }
        List<Long> memory = new ArrayList<>();
        while (writers.stream().anyMatch(Thread::isAlive)) {
            LockSupport.parkNanos(5_000_000_000L);
            memory.add(residentKilobytes(recorder));
        }
        LockSupport.parkNanos(3_000_000_000L);
        double cpu = recorder.info().totalCpuDuration().orElseThrow().toMillis() / 1000.0;
        long stop = System.nanoTime();
        recorder.destroy(); // SIGTERM
        System.out.println("recorder ended with " + (recorder.waitFor(60, TimeUnit.SECONDS) ? recorder.exitValue() : -1) + " within "
                + (System.nanoTime() - stop) / 1_000_000 + " ms of being told");
        System.out.println("processor time of the recorder: " + cpu + " s of " + seconds + " s");
        System.out.println("memory, MB resident: a quarter through " + mega(memory, memory.size() / 4) + ", half "
                + mega(memory, memory.size() / 2) + ", end " + mega(memory, memory.size() - 1) + ", most "
                + memory.stream().mapToLong(m -> m).max().orElse(0) / 1024);
        check(file, sent.get());
    }

    private static long mega(List<Long> memory, int at) {
        return memory.get(Math.min(at, memory.size() - 1)) / 1024;
    }

    private static void write(Path in, int seconds, AtomicLong sent) {
        try (OutputStream out = new FileOutputStream(in.toFile())) {
            long start = System.nanoTime();
            StringBuilder text = new StringBuilder();
            for (int k = 0; k < seconds * RATE; ) {
                long due = Math.min((long) seconds * RATE, (System.nanoTime() - start) / (1_000_000_000L / RATE));
                text.setLength(0);
                for (int end = (int) Math.min(due, k + 200); k < end; k++) {
                    int n = k % TURN;
                    text.append(n / 10).append('.').append(n % 10).append('\n');
                    sent.incrementAndGet();
                }
                out.write(text.toString().getBytes(StandardCharsets.US_ASCII));
                LockSupport.parkNanos(2_000_000);
            }
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static long residentKilobytes(Process process) throws Exception {
        for (String line : Files.readAllLines(Path.of("/proc/" + process.pid() + "/status"))) {
            if (line.startsWith("VmRSS:")) {
                return Long.parseLong(line.replaceAll("\\D", ""));
            }
        }
        return 0;
    }

    private static void check(Path file, long sent) throws Exception {
        Verification verification = Verifier.verify(file);
        Map<Channel, Long> last = new HashMap<>();
        long[] missing = {0};
        try (RecordingFile recording = RecordingFile.open(file)) {
            recording.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slice -> {
                for (Block block : slice.blocks()) {
                    for (int i = 0; i < block.size(); i++) {
                        long count = block.step().decimals() == 1 ? block.count(i) : block.count(i) * 10;
                        Long before = last.put(block.channel(), count);
                        missing[0] += before == null ? 0 : Math.floorMod(count - before - 1, TURN);
                    }
                }
            });
        }
        System.out.println("lines sent " + sent + ", readings " + verification.readings() + ", missing between the first and the last "
                + missing[0] + ", damages " + verification.damages().size() + ", finished " + verification.finished());
        System.out.println("file " + Files.size(file) + " bytes, " + Files.size(file) / (double) verification.readings() + " a reading");
    }
}
