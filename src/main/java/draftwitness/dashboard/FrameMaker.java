package draftwitness.dashboard;

import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Puts together what the lanes show. Keeps the value axes calm from frame to frame; otherwise nothing of one frame
 * passes to the next. User-interface thread, or any one thread for a picture.
 */
public final class FrameMaker {
    private final ZoneId zone;
    private final RangeKeeper ranges = new RangeKeeper();

    public FrameMaker(ZoneId zone) {
        this.zone = zone;
    }

    /**
     * What to make a frame of.
     *
     * @param session the session
     * @param setup the appliance's ratings
     * @param headNanos newest moment, or the playhead
     * @param live true for a live session
     * @param window the time to show
     * @param units the unit of pressures
     * @param pointing cursor and measure
     */
    public record View(
            ShownSession session,
            Setup setup,
            long headNanos,
            boolean live,
            TimeSpan window,
            UnitChoice units,
            Pointing pointing) {}

    /**
     * Where else readings come from; all may be the session's own windows when they answer at once.
     *
     * @param overview for the whole session
     * @param probe for cursor and measure
     */
    public record Besides(SeriesWindows overview, SeriesWindows probe) {}

    /** A frame whose strips have about so many columns. */
    public ChartFrame frame(View view, Besides besides, int stripColumns, int overviewColumns) {
        ColumnGrid grid = ColumnGrid.covering(view.window(), stripColumns);
        List<LaneFrame> lanes = new ArrayList<>();
        LaneWriter writer = new LaneWriter(view.session(), view.setup(), view.headNanos(), zone);
        for (Channel channel : view.session().header().channels()) {
            Columns columns = view.session().windows().columns(channel.tap(), grid);
            lanes.add(lane(view, writer, besides.probe(), channel, columns));
        }
        TimeSpan extent = view.session().windows().extent();
        return new ChartFrame(
                view.window(),
                extent,
                view.headNanos(),
                view.live(),
                view.session().header().start(),
                zone,
                lanes,
                view.pointing(),
                overviewLane(view, writer, besides.overview(), ColumnGrid.covering(extent, overviewColumns)),
                Happenings.NONE);
    }

    /** Forgets the value axes: another session follows. */
    public void forget() {
        ranges.forget();
    }

    private LaneFrame lane(View view, LaneWriter writer, SeriesWindows probe, Channel channel, Columns columns) {
        Unit unit = view.units().of(channel);
        Step step = view.session().windows().step(channel.tap());
        List<LevelLine> lines = new PlateNotes(view.setup(), unit, Figures.decimals(step, unit)).lines(channel.tap());
        double[] reach = reach(columns, lines);
        ValueRange range = ranges.range(channel.tap(), reach[0], reach[1], unit);
        return new LaneFrame(
                writer.write(channel, unit),
                channel,
                unit,
                columns,
                range,
                lines,
                holdUntil(view, channel),
                new ProbeWriter(probe, view.pointing()).write(channel, unit));
    }

    private @Nullable LaneFrame overviewLane(View view, LaneWriter writer, SeriesWindows windows, ColumnGrid grid) {
        Channel telling = mostTelling(view.session().header().channels());
        if (telling == null) {
            return null;
        }
        Unit unit = view.units().of(telling);
        Columns columns = windows.columns(telling.tap(), grid);
        double[] reach = reach(columns, List.of());
        return new LaneFrame(
                writer.write(telling, unit),
                telling,
                unit,
                columns,
                ValueRange.around(reach[0], reach[1], unit),
                List.of(),
                holdUntil(view, telling),
                LaneProbe.NONE);
    }

    /** The switch's draft if there is one, else the first pressure, else the first channel. */
    private static @Nullable Channel mostTelling(List<Channel> channels) {
        Channel best = null;
        for (Channel c : channels) {
            if (c.tap() == Tap.DRAFT_SWITCH) {
                return c;
            }
            boolean firstPressure = c.tap().quantity() == Quantity.PRESSURE
                    && (best == null || best.tap().quantity() != Quantity.PRESSURE);
            if (best == null || firstPressure) {
                best = c;
            }
        }
        return best;
    }

    /** Smallest and largest of the readings shown, the rated levels and 0: a strip always shows where zero is. */
    private static double[] reach(Columns columns, List<LevelLine> lines) {
        double low = 0;
        double high = 0;
        double[] extremes = columns.extremes();
        if (extremes != null) {
            low = Math.min(low, extremes[0]);
            high = Math.max(high, extremes[1]);
        }
        for (LevelLine line : lines) {
            low = Math.min(low, line.value());
            high = Math.max(high, line.value());
        }
        return new double[] {low, high};
    }

    /** A contact's last state holds until now, or until its source was interrupted. */
    private static long holdUntil(View view, Channel channel) {
        long end = view.live() ? view.headNanos() : view.session().nowNanos();
        SourceHistory.Condition condition = view.session().sources().at(channel.sourceId(), end);
        return condition != null && condition.state().interrupts() ? condition.sinceNanos() : end;
    }
}
