package draftwitness.app;

import draftwitness.bridge.BridgeException;
import draftwitness.bridge.Broker;
import draftwitness.bridge.Follower;
import draftwitness.bridge.Site;
import draftwitness.capture.SourcePlan;
import draftwitness.driver.DriverCatalog;
import draftwitness.input.InputException;
import draftwitness.input.Options;
import draftwitness.link.ByteLink;
import draftwitness.link.Feed;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.LinkNeeds;
import draftwitness.link.LinkOpener;
import draftwitness.link.PacedLink;
import draftwitness.reading.Channel;
import draftwitness.reading.Chunk;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.setup.Setup;
import draftwitness.time.Ticker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Opens {@code mqtt:HOST[:PORT]/SITE}: what a bridge elsewhere publishes, as lines of text that the driver
 * {@code simulated-house} reads, at the very times at which it was read there.
 *
 * <p>Before a session is made of it the site is met once, to learn its channels, setup and clock; the session then
 * begins at a cell a little ahead, so that everybody who follows counts time alike.
 */
public final class FollowLinks implements LinkOpener {
    private static final String DRIVER = "simulated-house";
    private static final int WAIT_SECONDS = 15;

    /** Cells from meeting a site to the session's first one. */
    private static final int AHEAD_CELLS = 10;

    /** Options that are never typed: the first cell, and the instant at which it began. */
    private static final String FROM = "from";

    private static final String START = "start";

    /**
     * A site that was met.
     *
     * @param plans one source, on all the taps that it has
     * @param setup as it is kept there
     */
    public record Met(List<SourcePlan> plans, Setup setup) {
        public Met {
            plans = List.copyOf(plans);
        }
    }

    /** Whether a source text {@code ID=DRIVER@LINK} is one of these. */
    public static boolean follows(String source) {
        return source.contains("@mqtt:");
    }

    /**
     * Meets a site: waits until somebody speaks for it.
     *
     * @param source {@code ID=DRIVER@mqtt:HOST[:PORT]/SITE}
     * @throws InputException if that cannot be understood
     * @throws LinkException if the broker is not there, or nobody speaks for the site
     */
    public static Met meet(String source) throws InputException, LinkException {
        int equals = source.indexOf('=');
        int at = source.indexOf("@mqtt:");
        if (equals < 1 || equals > at || !source.substring(equals + 1, at).equals(DRIVER)) {
            throw new InputException("--source " + source + " is not ID=" + DRIVER + "@mqtt:HOST[:PORT]/SITE");
        }
        LinkAddress address = LinkAddress.parse(source.substring(at + 1));
        try (Follower follower = follow(address)) {
            SessionHeader header = follower.header();
            List<String> taps = new ArrayList<>();
            String id = source.substring(0, equals);
            for (Channel c : header.channels()) {
                taps.add(c.tap().role() + "=" + id + "." + c.tap().role());
            }
            long from = follower.firstCell() + AHEAD_CELLS;
            Map<String, String> options = new LinkedHashMap<>(address.options().values());
            options.put(FROM, Long.toString(from));
            Instant start = header.start();
            if (start != null) {
                options.put(START, start.plusNanos(from * Slice.CELL_NANOS).toString());
            }
            LinkAddress settled = address.with(new Options(address.target(), options));
            List<SourcePlan> plans = new SourcePlanner(DriverCatalog.shipped())
                    .plan(List.of(id + "=" + DRIVER + "@mqtt:" + settled.options()), taps);
            return new Met(plans, Setup.parse("setup of " + site(address).name(), header.setupToml()));
        } catch (BridgeException e) {
            throw new LinkException(String.valueOf(e.getMessage()), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new LinkException(address + ": interrupted", e);
        }
    }

    /** When the session that follows a settled address begins, if that is known. */
    static Optional<Instant> start(LinkAddress address) {
        return address.options().text(START).map(Instant::parse);
    }

    private static Follower follow(LinkAddress address) throws InputException, BridgeException, InterruptedException {
        String client = "draftwitness-" + UUID.randomUUID().toString().substring(0, 13);
        return Follower.follow(broker(address), site(address), client, WAIT_SECONDS, Ticker.system());
    }

    private static Site site(LinkAddress address) throws InputException {
        int slash = address.target().lastIndexOf('/');
        if (slash < 1) {
            throw new InputException("'" + address + "' is not mqtt:HOST[:PORT]/SITE");
        }
        return Site.parse(address.target().substring(slash + 1));
    }

    private static Broker broker(LinkAddress address) throws InputException {
        Options options = address.options();
        String tls = options.text("tls").orElse("no");
        if (!tls.equals("yes") && !tls.equals("no")) {
            throw new InputException("'" + address + "': tls=" + tls + " is not yes or no");
        }
        String host = address.target().substring(0, address.target().lastIndexOf('/'));
        return Broker.parse(
                (tls.equals("yes") ? "mqtts://" : "mqtt://") + host,
                options.text("ca").map(Path::of).orElse(null),
                options.text("user").orElse(null),
                password(options.text("password-file").map(Path::of).orElse(null)));
    }

    /**
     * The first line of a file; null without one.
     *
     * @throws InputException if the file cannot be read
     */
    public static @Nullable String password(@Nullable Path file) throws InputException {
        if (file == null) {
            return null;
        }
        try {
            return Files.readString(file).lines().findFirst().orElse("");
        } catch (IOException e) {
            throw new InputException(file + ": the password cannot be read from it (" + e.getMessage() + ")", e);
        }
    }

    @Override
    public ByteLink open(LinkAddress address, LinkNeeds needs, Ticker ticker) throws LinkException {
        try {
            long from = Long.parseLong(address.options().text(FROM).orElse("0"));
            return new PacedLink(address.toString(), new Lines(follow(address), from), ticker);
        } catch (InputException | BridgeException e) {
            throw new LinkException(String.valueOf(e.getMessage()), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new LinkException(address + ": interrupted", e);
        }
    }

    /** A site's readings as text. One owner thread. */
    private static final class Lines implements Feed {
        private final Follower follower;
        private final long fromCell;
        private final Deque<Chunk> ready = new ArrayDeque<>();

        Lines(Follower follower, long fromCell) {
            this.follower = follower;
            this.fromCell = fromCell;
        }

        @Override
        public Optional<Chunk> next() throws LinkException {
            try {
                while (ready.isEmpty()) {
                    Optional<Slice> slice = follower.next();
                    if (slice.isEmpty()) {
                        return Optional.empty();
                    }
                    ready.addAll(TapLine.ofSlice(slice.get(), fromCell * Slice.CELL_NANOS));
                }
                return Optional.of(ready.remove());
            } catch (BridgeException e) {
                throw new LinkException(String.valueOf(e.getMessage()), e);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new LinkException("interrupted", e);
            }
        }

        @Override
        public void close() {
            follower.close();
        }
    }
}
