package draftwitness.driver;

import static org.assertj.core.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/**
 * A real pseudo-terminal made by socat, with this test on one side and an independent program on the other; and a tiny
 * link that lets a decoder talk over it in real time.
 */
final class Peer implements AutoCloseable {
    private final Path device;
    private final Process socat;
    private final List<Process> programs = new ArrayList<>();
    private final BlockingQueue<Chunk> arrived = new LinkedBlockingQueue<>(10_000);
    private final Thread reader;
    private final InputStream heldOpen;
    final DecodeLog log = new DecodeLog();

    /** Makes the pseudo-terminal {@code folder/device}. */
    Peer(Path folder) throws IOException {
        device = folder.resolve("device");
        socat = new ProcessBuilder("socat", "-", "PTY,link=" + device + ",raw,echo=0").start();
        await("socat made no device", () -> Files.exists(device));
        heldOpen = Files.newInputStream(device); // else socat ends with the first program
        reader = new Thread(this::read, "peer-reader");
        reader.setDaemon(true);
        reader.start();
    }

    /** Skips the test, or with CI=true fails it, where the program is missing. */
    static void require(String... command) {
        try {
            Process process =
                    new ProcessBuilder(command).redirectErrorStream(true).start();
            process.getInputStream().readAllBytes();
            if (process.waitFor() == 0) {
                return;
            }
        } catch (IOException e) {
            missing(command, e.getMessage());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        missing(command, "it failed");
    }

    private static void missing(String[] command, String why) {
        String text = String.join(" ", command) + ": " + why;
        if ("true".equals(System.getenv("CI"))) {
            fail("peer missing: " + text);
        }
        abort("peer missing: " + text);
    }

    private static void await(String problem, BooleanSupplier condition) {
        long deadline = System.nanoTime() + 20_000_000_000L;
        while (!condition.getAsBoolean()) {
            if (System.nanoTime() > deadline) {
                fail(problem);
            }
            Thread.onSpinWait();
        }
    }

    /** Starts a program on the other side and waits for its line "ready"; {@code DEVICE} stands for the device. */
    Process start(String... command) throws IOException {
        List<String> words = new ArrayList<>();
        for (String word : command) {
            words.add(word.equals("DEVICE") ? device.toString() : word);
        }
        Process program = new ProcessBuilder(words)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        programs.add(program);
        BufferedReader out =
                new BufferedReader(new InputStreamReader(program.getInputStream(), StandardCharsets.UTF_8));
        String line = out.readLine();
        if (!"ready".equals(line)) {
            fail(String.join(" ", words) + " said " + line);
        }
        return program;
    }

    private void read() {
        byte[] buffer = new byte[4096];
        try (InputStream in = socat.getInputStream()) {
            for (int n = in.read(buffer); n > 0; n = in.read(buffer)) {
                arrived.add(new Chunk(buffer, 0, n, Ticker.system().nanos()));
            }
        } catch (IOException e) {
            // closed with the test
        }
    }

    /** Lets the decoder talk until the condition holds; fails after 30 s. */
    void talk(Decoder decoder, BooleanSupplier until) throws IOException, InterruptedException {
        Ticker ticker = Ticker.system();
        OutputStream out = socat.getOutputStream();
        long deadline = ticker.nanos() + 30_000_000_000L;
        while (!until.getAsBoolean()) {
            if (ticker.nanos() > deadline) {
                fail("not reached in 30 s; readings " + log.readings.size() + ", faults " + log.faults);
            }
            Optional<byte[]> question = decoder.due(ticker.nanos(), log);
            if (question.isPresent()) {
                out.write(question.get());
                out.flush();
            }
            long wait = Math.min(Math.max(0, decoder.nextDueNanos() - ticker.nanos()), 100_000_000L);
            Chunk chunk = arrived.poll(wait, TimeUnit.NANOSECONDS);
            if (chunk != null) {
                decoder.decode(chunk, log);
            }
        }
    }

    @Override
    public void close() throws IOException {
        for (Process program : programs) {
            program.destroy();
        }
        socat.destroy();
        heldOpen.close();
        Files.deleteIfExists(device);
    }
}
