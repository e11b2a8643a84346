package draftwitness.dashboard.view;

import draftwitness.dashboard.Columns;
import draftwitness.dashboard.LaneFrame;
import draftwitness.dashboard.Sample;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.ValueRange;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import org.jspecify.annotations.Nullable;

/**
 * Draws readings from their columns.
 *
 * <p>Many readings a column: one bar a column from the smallest to the largest value, joined to the last value of the
 * column before, in device pixels and without smoothing; that keeps every one-reading dip and is fast. Few readings a
 * column: a smooth line through them. Both leave gaps blank.
 */
final class Traces {
    private static final double LINE = 1.8;

    /** Noise about zero may reach a little over the end of an axis. */
    private static final int OVERSHOOT = 5;

    private final Look look;

    Traces(Look look) {
        this.look = look;
    }

    /** Draws a lane's readings; the columns' grid need not fit the window. */
    void paint(Graphics2D graphics, Rectangle plot, TimeSpan window, LaneFrame lane) {
        paint(graphics, plot, window, lane.columns(), lane.range());
    }

    /** Draws readings; the columns' grid need not fit the window. */
    void paint(Graphics2D graphics, Rectangle plot, TimeSpan window, Columns columns, ValueRange range) {
        paint(graphics, plot, window, columns, range, Look.color(look.palette().trace()));
    }

    /** Draws readings in a colour. */
    void paint(Graphics2D graphics, Rectangle plot, TimeSpan window, Columns columns, ValueRange range, Color color) {
        Graphics2D g = (Graphics2D) graphics.create();
        int over = look.px(OVERSHOOT);
        g.clip(new Rectangle(plot.x, plot.y - over, plot.width, plot.height + 2 * over));
        g.setColor(color);
        if (columns.sparse()) {
            new Smooth(g, new Scale(plot, window, range)).paint(columns);
        } else {
            bars(g, plot, window, columns, range);
        }
        g.dispose();
    }

    private void bars(Graphics2D g, Rectangle plot, TimeSpan window, Columns columns, ValueRange range) {
        AffineTransform t = g.getTransform();
        double sx = t.getScaleX();
        double sy = t.getScaleY();
        g.scale(1 / sx, 1 / sy);
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_OFF);
        Rectangle device = new Rectangle(
                (int) Math.round(plot.x * sx), (int) Math.round(plot.y * sy), (int) Math.round(plot.width * sx), (int)
                        Math.round(plot.height * sy));
        Scale scale = new Scale(device, window, range);
        int thick = (int) Math.max(1, Math.round(LINE * look.scale() * sy));
        double previous = Double.NaN;
        long previousTime = 0;
        for (int i = 0; i < columns.grid().count(); i++) {
            if (columns.count(i) == 0) {
                continue;
            }
            boolean joined = !Double.isNaN(previous) && !columns.interrupted(previousTime, columns.firstTime(i));
            double low = joined ? Math.min(columns.min(i), previous) : columns.min(i);
            double high = joined ? Math.max(columns.max(i), previous) : columns.max(i);
            int x = (int) Math.floor(scale.x(columns.grid().startOf(i)));
            int next = (int) Math.floor(scale.x(columns.grid().startOf(i + 1)));
            int from = joined ? Math.min(x, (int) Math.floor(scale.x(previousTime)) + 1) : x;
            int top = (int) Math.round(scale.y(high) - thick / 2.0);
            int bottom = (int) Math.round(scale.y(low) + thick / 2.0);
            g.fillRect(from, top, Math.max(1, next - from), Math.max(thick, bottom - top));
            previous = columns.last(i);
            previousTime = columns.lastTime(i);
        }
    }

    /** Where times and values are, in pixels. */
    record Scale(Rectangle plot, TimeSpan window, ValueRange range) {
        double x(long nanos) {
            return plot.x + (double) (nanos - window.fromNanos()) * plot.width / Math.max(1, window.lengthNanos());
        }

        double y(double value) {
            return plot.y + (range.high() - value) / range.span() * plot.height;
        }
    }

    private final class Smooth {
        private final Graphics2D g;
        private final Scale scale;
        private final Path2D path = new Path2D.Double();
        private long lastTime = Long.MIN_VALUE;
        private double lastValue;
        private boolean single;

        Smooth(Graphics2D g, Scale scale) {
            this.g = g;
            this.scale = scale;
        }

        void paint(Columns columns) {
            g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
            g.setStroke(look.stroke(LINE));
            point(columns, columns.before());
            for (int i = 0; i < columns.grid().count(); i++) {
                if (columns.count(i) > 0) {
                    column(columns, i);
                }
            }
            point(columns, columns.after());
            dotIfSingle();
            g.draw(path);
        }

        private void column(Columns columns, int i) {
            long from = columns.firstTime(i);
            long to = columns.lastTime(i);
            to(columns, from, columns.first(i));
            if (columns.count(i) > 2) {
                to(columns, from + (to - from) / 3, columns.min(i));
                to(columns, to - (to - from) / 3, columns.max(i));
            }
            if (columns.count(i) > 1) {
                to(columns, to, columns.last(i));
            }
        }

        private void point(Columns columns, @Nullable Sample sample) {
            if (sample != null) {
                to(columns, sample.timeNanos(), sample.value());
            }
        }

        private void to(Columns columns, long time, double value) {
            boolean joined = lastTime != Long.MIN_VALUE && !columns.interrupted(lastTime, time);
            if (joined) {
                path.lineTo(scale.x(time), scale.y(value));
                single = false;
            } else {
                dotIfSingle();
                path.moveTo(scale.x(time), scale.y(value));
                single = true;
            }
            lastTime = time;
            lastValue = value;
        }

        /** A reading without neighbours would vanish in a line; it gets a dot. */
        private void dotIfSingle() {
            if (single) {
                double r = 2 * look.scale();
                g.fill(new Ellipse2D.Double(scale.x(lastTime) - r, scale.y(lastValue) - r, 2 * r, 2 * r));
            }
        }
    }
}
