package draftwitness.app;

import draftwitness.furnace.Scenarios;
import draftwitness.input.InputException;
import draftwitness.link.ByteLink;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.LinkNeeds;
import draftwitness.link.Links;
import draftwitness.reading.Chunk;
import draftwitness.reading.Tap;
import draftwitness.time.Ticker;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A simulated house played out of a link, as a fake instrument for trying a driver: somebody else's program, or this
 * one, reads the other end. Blocks until the scenario is over.
 */
public final class ServedSimulation {
    private ServedSimulation() {}

    /**
     * Plays a scenario.
     *
     * @param link the link's settings that are tried out on the way: {@code simulated:SCENARIO?seed=1&speed=1}
     * @param target where the bytes go, a serial port or a TCP listener
     * @param only the tap whose values are sent, one plain value with its unit a line; null for lines that name their
     *     tap
     * @param nanos how much of the scenario; its own length when negative
     * @return lines sent
     * @throws LinkException if the target cannot be opened or takes no more
     */
    public static long run(LinkAddress link, LinkAddress target, @Nullable Tap only, long nanos)
            throws InputException, LinkException {
        Scenarios.find(link.target()); // unknown ones are wrong usage
        Links.check(target);
        Ticker ticker = Ticker.system().scaled(link.speed()).fromZero();
        long sent = 0;
        try (ByteLink out = new Links(Map.of()).open(target, ticker);
                ByteLink in = new SimulatedLinks(nanos).open(link, LinkNeeds.BYTES, ticker)) {
            for (Optional<Chunk> chunk = in.read(); chunk.isPresent(); chunk = in.read()) {
                byte[] line = only == null ? chunk.get().toArray() : plain(chunk.get(), only);
                if (line.length > 0) {
                    out.write(line);
                    sent++;
                }
            }
        }
        return sent;
    }

    /** {@code draft.switch -312.4 Pa} as {@code -312.4 Pa}; empty for other taps. */
    private static byte[] plain(Chunk chunk, Tap only) {
        String line = new String(chunk.toArray(), StandardCharsets.US_ASCII).strip();
        String name = only.role() + " ";
        return line.startsWith(name)
                ? (line.substring(name.length()) + "\r\n").getBytes(StandardCharsets.US_ASCII)
                : new byte[0];
    }
}
