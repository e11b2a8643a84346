package draftwitness.dashboard;

import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.Unit;

/** Writes what cursor and measure say about a lane. Pure. */
final class ProbeWriter {
    private final SeriesWindows windows;
    private final Pointing pointing;

    ProbeWriter(SeriesWindows windows, Pointing pointing) {
        this.windows = windows;
        this.pointing = pointing;
    }

    LaneProbe write(Channel channel, Unit unit) {
        Long cursor = pointing.cursorNanos();
        TimeSpan span = pointing.measured();
        if (cursor == null && span == null) {
            return LaneProbe.NONE;
        }
        boolean contact = channel.tap().quantity() == Quantity.CONTACT;
        int decimals = Figures.decimals(windows.step(channel.tap()), unit);
        Sample at = cursor == null ? null : windows.readingAt(channel.tap(), cursor);
        String reading = "";
        if (at != null) {
            reading = contact
                    ? LaneWriter.state(channel.tap(), at.value())
                    : Figures.quantity(at.value(), unit, decimals);
        }
        String measure = span == null || contact ? "" : measure(channel, unit, decimals, span);
        return new LaneProbe(at, reading, measure);
    }

    private String measure(Channel channel, Unit unit, int decimals, TimeSpan span) {
        ColumnGrid grid = new ColumnGrid(span.fromNanos(), span.lengthNanos() + 1, 1);
        Columns all = windows.columns(channel.tap(), grid);
        if (!all.grid().equals(grid) || all.count(0) == 0) {
            return Words.get("measure.none");
        }
        double change = all.last(0) - all.first(0);
        double seconds = (all.lastTime(0) - all.firstTime(0)) / 1e9;
        return Words.get(
                "measure.values",
                signed(change, unit, decimals),
                seconds > 0 ? signed(change / seconds, unit, decimals) : "\u2013",
                Figures.number(all.min(0), unit, decimals),
                Figures.number(all.max(0), unit, decimals),
                mean(all, unit, decimals),
                Figures.symbol(unit));
    }

    private static String mean(Columns all, Unit unit, int decimals) {
        return Double.isNaN(all.mean(0)) ? "\u2013" : Figures.number(all.mean(0), unit, decimals);
    }

    private static String signed(double base, Unit unit, int decimals) {
        String text = Figures.number(base, unit, decimals);
        return base > 0 ? "+" + text : text;
    }
}
