package draftwitness.app;

import draftwitness.driver.DriverCatalog;
import draftwitness.driver.DriverGuess;
import draftwitness.link.ByteLink;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.Links;
import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;

/** Listens to a link for a while, without ever sending anything, and tells which drivers make sense of what comes. */
public final class Listening {
    private static final Links LINKS = new Links(Map.of());
    private static final int MOST_BYTES = 64 * 1024;

    private Listening() {}

    /**
     * What was heard.
     *
     * @param address where
     * @param bytes how many bytes came
     * @param guesses drivers that make readings of them, best first
     */
    public record Heard(LinkAddress address, int bytes, List<DriverGuess> guesses) {
        public Heard {
            guesses = List.copyOf(guesses);
        }
    }

    /**
     * Listens. Blocks.
     *
     * @param nanos how long
     * @throws LinkException if the link cannot be opened
     */
    public static Heard to(LinkAddress address, long nanos, DriverCatalog catalog) throws LinkException {
        byte[] bytes = hear(address, nanos);
        List<DriverGuess> guesses = bytes.length == 0 ? new ArrayList<>() : DriverGuess.rank(catalog, bytes);
        return new Heard(address, bytes.length, guesses);
    }

    private static byte[] hear(LinkAddress address, long nanos) throws LinkException {
        ByteArrayOutputStream heard = new ByteArrayOutputStream();
        ScheduledExecutorService end = Executors.newSingleThreadScheduledExecutor();
        try (ByteLink link = LINKS.open(address, Ticker.system().fromZero())) {
            ScheduledFuture<?> closing = end.schedule(link::close, nanos, TimeUnit.NANOSECONDS);
            Optional<Chunk> chunk = link.read();
            while (chunk.isPresent() && heard.size() < MOST_BYTES) {
                heard.writeBytes(chunk.get().toArray());
                chunk = link.read();
            }
            closing.cancel(false);
        } catch (LinkException e) {
            if (heard.size() == 0 && !String.valueOf(e.getMessage()).endsWith("closed")) {
                throw e;
            }
        } finally {
            end.shutdownNow();
        }
        return heard.toByteArray();
    }
}
