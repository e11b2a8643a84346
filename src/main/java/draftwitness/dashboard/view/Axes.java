package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.LaneFrame;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.ValueRange;
import draftwitness.reading.Unit;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.geom.Line2D;
import java.text.DateFormat;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.text.SimpleDateFormat;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import org.jfree.chart.axis.AxisState;
import org.jfree.chart.axis.DateAxis;
import org.jfree.chart.axis.DateTickUnit;
import org.jfree.chart.axis.DateTickUnitType;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.TickType;
import org.jfree.chart.axis.TickUnits;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.axis.ValueTick;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;

/** Draws value and time axes with the chart library's axes; the readings themselves are drawn by {@link Traces}. */
final class Axes {
    private final Look look;

    Axes(Look look) {
        this.look = look;
    }

    /** Draws the value axis left of a plot and its grid lines on it. */
    void value(Graphics2D graphics, Rectangle plot, LaneFrame lane) {
        value(graphics, plot, lane.unit(), lane.range());
    }

    /** Draws an axis of seconds below a plot and its grid lines on it. */
    void seconds(Graphics2D graphics, Rectangle plot, double from, double to) {
        Graphics2D g = Look.smooth(graphics);
        NumberAxis axis = new NumberAxis();
        dress(axis);
        axis.setNumberFormatOverride(signed());
        axis.setRange(from, Math.max(from + 1, to));
        settle(g, axis, plot, RectangleEdge.BOTTOM);
        grid(g, axis, plot, RectangleEdge.BOTTOM);
        axis.draw(g, plot.y + plot.height, plot, plot, RectangleEdge.BOTTOM, null);
        g.dispose();
    }

    /** Draws a value axis left of a plot and its grid lines on it. */
    void value(Graphics2D graphics, Rectangle plot, Unit unit, ValueRange range) {
        Graphics2D g = Look.smooth(graphics);
        NumberAxis axis = new NumberAxis();
        dress(axis);
        axis.setAutoRangeIncludesZero(false);
        axis.setNumberFormatOverride(signed());
        axis.setRange(unit.fromBase(range.low()), unit.fromBase(range.high()));
        settle(g, axis, plot, RectangleEdge.LEFT);
        grid(g, axis, plot, RectangleEdge.LEFT);
        axis.draw(g, plot.x, plot, plot, RectangleEdge.LEFT, null);
        g.dispose();
    }

    /** Draws the time axis into its area. */
    void time(Graphics2D graphics, Rectangle area, ChartFrame frame) {
        Graphics2D g = Look.smooth(graphics);
        DateAxis axis = timeAxis(frame);
        settle(g, axis, area, RectangleEdge.BOTTOM);
        axis.draw(g, area.y + look.px(2), area, area, RectangleEdge.BOTTOM, null);
        g.dispose();
    }

    /** Draws the time axis' grid lines over plots. */
    void timeGrid(Graphics2D graphics, ChartFrame frame, List<Rectangle> plots) {
        Graphics2D g = Look.smooth(graphics);
        DateAxis axis = timeAxis(frame);
        for (Rectangle plot : plots) {
            settle(g, axis, plot, RectangleEdge.BOTTOM);
            grid(g, axis, plot, RectangleEdge.BOTTOM);
        }
        g.dispose();
    }

    private DateAxis timeAxis(ChartFrame frame) {
        TimeZone zone = frame.start() == null ? TimeZone.getTimeZone("UTC") : TimeZone.getTimeZone(frame.zone());
        DateAxis axis = new DateAxis(null, zone, Locale.ENGLISH);
        dress(axis);
        axis.setStandardTickUnits(timeUnits(zone));
        long origin = frame.start() == null ? 0 : toMillis(frame.start());
        TimeSpan window = frame.window();
        double from = Math.floor(window.fromNanos() / 1e6);
        axis.setRange(origin + from, origin + Math.max(from + 1, Math.floor(window.toNanos() / 1e6)));
        return axis;
    }

    private static long toMillis(Instant instant) {
        return instant.toEpochMilli();
    }

    private static TickUnits timeUnits(TimeZone zone) {
        TickUnits units = new TickUnits();
        add(units, zone, "HH:mm:ss.SSS", DateTickUnitType.MILLISECOND, 10, 20, 50, 100, 200, 500);
        add(units, zone, "HH:mm:ss", DateTickUnitType.SECOND, 1, 2, 5, 10, 15, 30);
        add(units, zone, "HH:mm", DateTickUnitType.MINUTE, 1, 2, 5, 10, 15, 30);
        add(units, zone, "HH:mm", DateTickUnitType.HOUR, 1, 2, 3, 6, 12);
        add(units, zone, "d MMM", DateTickUnitType.DAY, 1, 2, 7);
        return units;
    }

    private static void add(TickUnits units, TimeZone zone, String pattern, DateTickUnitType type, int... multiples) {
        for (int multiple : multiples) {
            DateFormat format = new SimpleDateFormat(pattern, Locale.ENGLISH);
            format.setTimeZone(zone);
            units.add(new DateTickUnit(type, multiple, format));
        }
    }

    private void dress(ValueAxis axis) {
        axis.setTickLabelFont(look.font(12));
        axis.setTickLabelPaint(Look.color(look.palette().quietInk()));
        axis.setTickLabelInsets(new RectangleInsets(look.px(2), look.px(4), look.px(2), look.px(4)));
        axis.setTickMarkPaint(Look.color(look.palette().quietInk()));
        axis.setTickMarkOutsideLength(look.px(4));
        axis.setAxisLineVisible(false);
    }

    /** The axis finds its tick unit from the one before; asked often enough, grid and labels get the same. */
    private static void settle(Graphics2D g, ValueAxis axis, Rectangle area, RectangleEdge edge) {
        for (int i = 0; i < 3; i++) {
            axis.refreshTicks(g, new AxisState(), area, edge);
        }
    }

    private void grid(Graphics2D g, ValueAxis axis, Rectangle plot, RectangleEdge edge) {
        g.setColor(Look.color(look.palette().grid()));
        g.setStroke(look.stroke(1));
        for (Object each : axis.refreshTicks(g, new AxisState(), plot, edge)) {
            ValueTick tick = (ValueTick) each;
            if (tick.getTickType().equals(TickType.MAJOR)) {
                double at = Math.round(axis.valueToJava2D(tick.getValue(), plot, edge)) + 0.5;
                g.draw(
                        edge.equals(RectangleEdge.LEFT)
                                ? new Line2D.Double(plot.x, at, plot.x + plot.width, at)
                                : new Line2D.Double(at, plot.y, at, plot.y + plot.height));
            }
        }
    }

    private static DecimalFormat signed() {
        DecimalFormatSymbols symbols = DecimalFormatSymbols.getInstance(Locale.ENGLISH);
        symbols.setMinusSign('\u2212');
        return new DecimalFormat("0.####", symbols);
    }
}
