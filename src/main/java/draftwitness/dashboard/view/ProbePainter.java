package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.Figures;
import draftwitness.dashboard.LaneFrame;
import draftwitness.dashboard.LaneProbe;
import draftwitness.dashboard.Sample;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.Words;
import java.awt.Color;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;

/** Paints cursor and measure over the strips, with what they say on each. One thread. */
final class ProbePainter {
    private final Look look;

    ProbePainter(Look look) {
        this.look = look;
    }

    void paint(Graphics2D graphics, LanesLayout layout, ChartFrame frame) {
        Long cursor = frame.pointing().cursorNanos();
        TimeSpan span = frame.pointing().measured();
        if (cursor == null && span == null) {
            return;
        }
        Graphics2D g = Look.smooth(graphics);
        for (int i = 0; i < frame.lanes().size(); i++) {
            LanesLayout.Place place = layout.places().get(i);
            Rectangle lane = new Rectangle(place.plot().x, place.whole().y, place.plot().width, place.whole().height);
            Graphics2D inside = (Graphics2D) g.create();
            inside.clip(lane);
            Traces.Scale scale = new Traces.Scale(
                    place.plot(), frame.window(), frame.lanes().get(i).range());
            if (span != null) {
                measure(inside, lane, scale, span, frame.lanes().get(i).probe());
            }
            if (cursor != null) {
                cursor(inside, lane, scale.x(cursor), scale, frame.lanes().get(i));
            }
            inside.dispose();
        }
        g.dispose();
    }

    private void measure(Graphics2D g, Rectangle lane, Traces.Scale scale, TimeSpan span, LaneProbe probe) {
        double from = scale.x(span.fromNanos());
        double to = scale.x(span.toNanos());
        Color c = Look.color(look.palette().playhead());
        g.setColor(new Color(c.getRed(), c.getGreen(), c.getBlue(), 26));
        g.fill(new Rectangle2D.Double(from, lane.y, to - from, lane.height));
        g.setColor(c);
        g.setStroke(look.stroke(1.4));
        g.draw(new Line2D.Double(from, lane.y, from, lane.y + lane.height));
        g.draw(new Line2D.Double(to, lane.y, to, lane.y + lane.height));
        if (!probe.measureText().isEmpty()) {
            label(g, lane, (from + to) / 2, lane.y + look.px(4), probe.measureText(), false);
        }
    }

    private void cursor(Graphics2D g, Rectangle lane, double x, Traces.Scale scale, LaneFrame frame) {
        g.setColor(Look.color(look.palette().playhead()));
        g.setStroke(look.dashed(1.2));
        double crisp = Math.round(x) + 0.5;
        g.draw(new Line2D.Double(crisp, lane.y, crisp, lane.y + lane.height));
        Sample reading = frame.probe().reading();
        if (reading == null) {
            return;
        }
        double y = scale.y(reading.value());
        if (!frame.ribbon()) {
            double r = look.px(4);
            g.setStroke(look.stroke(1.6));
            g.draw(new Ellipse2D.Double(scale.x(reading.timeNanos()) - r, y - r, 2 * r, 2 * r));
        }
        label(
                g,
                lane,
                x + look.px(8),
                lane.y + lane.height - look.px(24),
                frame.probe().readingText(),
                true);
    }

    /** Paints the time at the cursor, or the length measured, over the time axis. */
    void time(Graphics2D graphics, Rectangle axis, ChartFrame frame) {
        Long cursor = frame.pointing().cursorNanos();
        TimeSpan span = frame.pointing().measured();
        if (cursor == null && span == null) {
            return;
        }
        String text = span != null
                ? Words.get("measure.length", Figures.seconds(span.lengthNanos()))
                : Figures.timeOfDayFine(frame.start(), cursor == null ? 0 : cursor, frame.zone());
        long at = span != null ? span.fromNanos() + span.lengthNanos() / 2 : cursor == null ? 0 : cursor;
        double x = axis.x
                + (double) (at - frame.window().fromNanos())
                        * axis.width
                        / Math.max(1, frame.window().lengthNanos());
        Graphics2D g = Look.smooth(graphics);
        label(g, axis, x, axis.y + look.px(4), text, false);
        g.dispose();
    }

    /** A text on its own ground, kept inside the lane; beginning at x, or centred on it. */
    private void label(Graphics2D g, Rectangle lane, double x, int top, String text, boolean begins) {
        g.setFont(look.bold(13));
        FontMetrics metrics = g.getFontMetrics();
        int width = metrics.stringWidth(text) + look.px(12);
        int height = metrics.getAscent() + metrics.getDescent() + look.px(2);
        int left = (int) Math.round(begins ? x : x - width / 2.0);
        if (begins && left + width > lane.x + lane.width) {
            left = (int) Math.round(x) - look.px(16) - width;
        }
        left = Math.max(lane.x + look.px(2), Math.min(lane.x + lane.width - width - look.px(2), left));
        g.setColor(Look.color(look.palette().ground()));
        g.fillRoundRect(left, top, width, height, look.px(8), look.px(8));
        g.setColor(Look.color(look.palette().playhead()));
        g.setStroke(look.stroke(1));
        g.drawRoundRect(left, top, width, height, look.px(8), look.px(8));
        g.setColor(Look.color(look.palette().ink()));
        g.drawString(text, left + look.px(6), top + metrics.getAscent() + look.px(1));
    }
}
