package draftwitness.app;

import draftwitness.input.Durations;
import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Decimal;
import draftwitness.reading.Quantity;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import java.io.PrintStream;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * A session told in the terminal: a line now and then with the newest value of each tap as the instrument wrote it, and
 * a line whenever a source comes, goes or falls silent. Called on the session's thread.
 */
public final class TextReporter implements SessionListener {
    private static final long STALE_NANOS = 3_000_000_000L;

    private record Newest(long timeNanos, long count, Step step) {}

    private final PrintStream out;
    private final long everyNanos;
    private final Map<Tap, Newest> newest = new EnumMap<>(Tap.class);
    private SessionHeader header;
    private long nextLine = Long.MIN_VALUE;

    /**
     * Makes a reporter.
     *
     * @param out where the lines go
     * @param everyNanos session time between two lines
     */
    public TextReporter(PrintStream out, long everyNanos) {
        this.out = out;
        this.everyNanos = everyNanos;
        this.header = new SessionHeader(null, "", 1, List.of(), List.of(), "");
    }

    @Override
    public void begin(SessionHeader begun) {
        header = begun;
        newest.clear();
        nextLine = Long.MIN_VALUE;
        if (!begun.title().isEmpty()) {
            out.println(begun.title());
        }
    }

    @Override
    public void slice(Slice slice) {
        for (SourceEvent event : slice.events()) {
            out.println(Durations.clock(event.timeNanos()) + "  " + event.sourceId() + ": "
                    + event.state().name().toLowerCase(Locale.ROOT)
                    + (event.detail().isEmpty() ? "" : " (" + event.detail() + ")"));
        }
        for (Block block : slice.blocks()) {
            int last = block.size() - 1;
            newest.put(block.channel().tap(), new Newest(block.timeNanos(last), block.count(last), block.step()));
        }
        if (slice.endNanos() >= nextLine && !newest.isEmpty()) {
            nextLine = (Math.floorDiv(slice.endNanos(), everyNanos) + 1) * everyNanos;
            out.println(line(slice.endNanos()));
        }
    }

    private String line(long nowNanos) {
        StringBuilder line = new StringBuilder(Durations.clock(nowNanos));
        for (Channel channel : header.channels()) {
            line.append("  ").append(channel.tap().role()).append(' ');
            Newest n = newest.get(channel.tap());
            if (n == null) {
                line.append("nothing yet");
            } else if (n.step().unit().quantity() == Quantity.CONTACT) {
                line.append(n.count() == 0 ? "open" : "closed");
            } else {
                Decimal.append(line, n.count(), n.step().decimals());
                line.append(' ').append(n.step().unit().symbol());
                if (nowNanos - n.timeNanos() > STALE_NANOS) {
                    line.append(" (")
                            .append((nowNanos - n.timeNanos()) / 1_000_000_000)
                            .append(" s ago)");
                }
            }
        }
        return line.toString();
    }

    @Override
    public void end() {
        out.flush();
    }
}
