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
import draftwitness.reading.ZeroOffset;
import java.io.PrintStream;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A session told in the terminal: a line now and then with the newest value of each tap as the instrument wrote it and
 * the span that it went through since the line before; a line for every change of a contact, however short; and a line
 * whenever a source comes, goes or falls silent. Called on the session's thread.
 */
public final class TextReporter implements SessionListener {
    private static final long STALE_NANOS = 3_000_000_000L;

    /** What is known of one tap. */
    private static final class Latest {
        private final Step step;
        private long timeNanos;
        private long count;
        private long lowest = Long.MAX_VALUE;
        private long highest = Long.MIN_VALUE;

        Latest(Step step) {
            this.step = step;
        }

        void take(long time, long newCount) {
            timeNanos = time;
            count = newCount;
            lowest = Math.min(lowest, newCount);
            highest = Math.max(highest, newCount);
        }

        void told() {
            lowest = Long.MAX_VALUE;
            highest = Long.MIN_VALUE;
        }
    }

    private final PrintStream out;
    private final long everyNanos;
    private final Map<Tap, Latest> latest = new EnumMap<>(Tap.class);
    private final Set<String> away = new HashSet<>();
    private SessionHeader header = new SessionHeader(null, "", 1, List.of(), List.of(), "");
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
    }

    @Override
    public void begin(SessionHeader begun) {
        header = begun;
        latest.clear();
        away.clear();
        nextLine = Long.MIN_VALUE;
        if (!begun.title().isEmpty()) {
            out.println(begun.title());
        }
    }

    @Override
    public void slice(Slice slice) {
        slice.events().forEach(this::tell);
        slice.blocks().forEach(this::take);
        if (slice.endNanos() >= nextLine) {
            nextLine = (Math.floorDiv(slice.endNanos(), everyNanos) + 1) * everyNanos;
            out.println(line(slice.endNanos()));
        }
    }

    private void tell(SourceEvent event) {
        if (event.state().interrupts()) {
            away.add(event.sourceId());
        } else {
            away.remove(event.sourceId());
        }
        Optional<ZeroOffset> zero = ZeroOffset.in(event);
        if (zero.isPresent()) {
            out.println(ZeroWords.line(zero.get()));
            return;
        }
        out.println(Durations.clock(event.timeNanos()) + "  " + event.sourceId() + ": "
                + event.state().name().toLowerCase(Locale.ROOT)
                + (event.detail().isEmpty() ? "" : " (" + event.detail() + ")"));
    }

    private void take(Block block) {
        Tap tap = block.channel().tap();
        Latest before = latest.get(tap);
        boolean contact = tap.quantity() == Quantity.CONTACT;
        Latest now = before != null && before.step.equals(block.step()) ? before : new Latest(block.step());
        for (int i = 0; i < block.size(); i++) {
            if (contact && before != null && (block.count(i) == 0) != (now.count == 0)) {
                out.println(String.format(
                        Locale.ROOT,
                        "%s%s  %s %s",
                        Durations.clock(block.timeNanos(i)),
                        String.format(Locale.ROOT, "%.2f", block.timeNanos(i) % 1_000_000_000 / 1e9)
                                .substring(1),
                        tap.role(),
                        block.count(i) == 0 ? "opens" : "closes"));
            }
            now.take(block.timeNanos(i), block.count(i));
        }
        latest.put(tap, now);
    }

    private String line(long nowNanos) {
        StringBuilder line = new StringBuilder(Durations.clock(nowNanos));
        for (Channel channel : header.channels()) {
            line.append("  ").append(channel.tap().role()).append(' ');
            append(line, channel, latest.get(channel.tap()), nowNanos);
        }
        return line.toString();
    }

    private void append(StringBuilder line, Channel channel, @Nullable Latest n, long nowNanos) {
        if (n == null) {
            line.append("nothing yet");
        } else if (n.step.unit().quantity() == Quantity.CONTACT) {
            line.append(away.contains(channel.sourceId()) ? "not known" : n.count == 0 ? "open" : "closed");
        } else {
            Decimal.append(line, n.count, n.step.decimals());
            line.append(' ').append(n.step.unit().symbol());
            if (nowNanos - n.timeNanos > STALE_NANOS) {
                line.append(" (")
                        .append((nowNanos - n.timeNanos) / 1_000_000_000)
                        .append(" s ago)");
            } else if (n.highest > n.lowest) {
                line.append(" (");
                Decimal.append(line, n.lowest, n.step.decimals());
                line.append(" to ");
                Decimal.append(line, n.highest, n.step.decimals());
                line.append(')');
            }
            n.told();
        }
    }

    @Override
    public void end() {
        out.flush();
    }
}
