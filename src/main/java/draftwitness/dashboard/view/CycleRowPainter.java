package draftwitness.dashboard.view;

import draftwitness.dashboard.CycleMark;
import draftwitness.dashboard.Tone;
import draftwitness.dashboard.Words;
import java.awt.Color;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;

/**
 * Paints the row of cycles: over each cycle its sign, below it a bar that stands on the set point and is as high as the
 * weakest margin; a bar that hangs below fell short of it. The one that is not over is an outline. One thread.
 */
final class CycleRowPainter {
    private static final int SIGN = 13;
    private static final int SIGN_ZONE = 20;
    private static final double LEAST_BAR = 3;

    /** Share of the bars' zone above the set point. */
    private static final double ABOVE = 0.78;

    /** Height of the bars' zone in healthy margins, above the set point. */
    private static final double TOP = 1.3;

    private final Look look;

    CycleRowPainter(Look look) {
        this.look = look;
    }

    /** Turns session time into x. */
    interface Scale {
        double x(long nanos);
    }

    void paint(Graphics2D graphics, Rectangle strip, List<CycleMark> cycles, Scale scale) {
        Graphics2D g = Look.smooth(graphics);
        g.clip(strip);
        Rectangle bars = new Rectangle(
                strip.x, strip.y + look.px(SIGN_ZONE + 2), strip.width, strip.height - look.px(SIGN_ZONE + 4));
        double set = bars.y + bars.height * ABOVE;
        boolean margins = cycles.stream().anyMatch(c -> !Double.isNaN(c.margin()));
        if (margins) {
            levels(g, bars, set);
        }
        for (CycleMark c : cycles) {
            bar(g, c, place(c, scale), bars, set);
        }
        // What calls for a person is painted last, so that it is not hidden where there are many.
        for (boolean calling : new boolean[] {false, true}) {
            double until = Double.NEGATIVE_INFINITY;
            for (int i = 0; i < cycles.size(); i++) {
                CycleMark c = cycles.get(i);
                if (calling == (c.tone() == Tone.DANGER)) {
                    double next = i + 1 < cycles.size()
                            ? place(cycles.get(i + 1), scale).getX()
                            : strip.getMaxX();
                    until = sign(g, c, place(c, scale), strip, next, until);
                }
            }
        }
        g.dispose();
    }

    private Rectangle2D place(CycleMark c, Scale scale) {
        double from = scale.x(c.span().fromNanos());
        double width = Math.max(LEAST_BAR * look.scale(), scale.x(c.span().toNanos()) - from - look.scale());
        return new Rectangle2D.Double(from, 0, width, 0);
    }

    /** Lines at the set point and at a healthy margin. */
    private void levels(Graphics2D g, Rectangle bars, double set) {
        g.setColor(Look.color(look.palette().contactOpen()));
        g.setStroke(look.stroke(1));
        g.draw(new Line2D.Double(bars.x, set, bars.getMaxX(), set));
        g.setColor(Look.color(look.palette().grid()));
        double healthy = set - bars.height * ABOVE / TOP;
        g.draw(new Line2D.Double(bars.x, healthy, bars.getMaxX(), healthy));
    }

    private void bar(Graphics2D g, CycleMark c, Rectangle2D place, Rectangle bars, double set) {
        if (Double.isNaN(c.margin())) {
            return;
        }
        double height = Math.max(look.px(2), Math.abs(c.margin()) / TOP * bars.height * ABOVE);
        double top = c.margin() >= 0 ? set - height : set;
        Rectangle2D bar =
                new Rectangle2D.Double(place.getX(), top, place.getWidth(), Math.min(height, bars.getMaxY() - top));
        g.setColor(color(c));
        if (c.open()) {
            g.setStroke(look.dashed(1.6));
            g.draw(bar);
        } else {
            g.fill(bar);
        }
    }

    private Color color(CycleMark c) {
        boolean quiet = c.tone() == Tone.NORMAL || c.tone() == Tone.QUIET;
        return quiet ? Look.color(look.palette().contactClosed()) : look.ink(c.tone());
    }

    /** The sign, with its word where there is room; gives how far it reaches. */
    private double sign(Graphics2D g, CycleMark c, Rectangle2D place, Rectangle strip, double next, double until) {
        double room = Math.max(place.getWidth(), next - place.getX());
        boolean many = room < look.px(SIGN) * 1.2;
        double size = many && c.tone() != Tone.DANGER ? Math.max(look.px(4), room * 0.7) : look.px(SIGN);
        double cx = Math.min(
                place.getX() + Math.max(size, Math.min(place.getWidth(), look.px(20))) / 2, strip.getMaxX() - size / 2);
        if (cx - size / 2 < until) {
            return until; // one sign over another would be read as neither
        }
        double cy = strip.y + look.px(SIGN_ZONE) / 2.0 + look.px(2);
        g.setColor(color(c));
        Signs.paint(g, c.sign(), cx, cy, size, c.open());
        g.setFont(c.tone() == Tone.DANGER ? look.bold(13) : look.font(13));
        FontMetrics metrics = g.getFontMetrics();
        double textX = cx + size / 2 + look.px(5);
        String word = word(metrics, c, Math.min(next, strip.getMaxX()) - textX - look.px(4));
        if (!word.isEmpty()) {
            g.setColor(look.ink(c.tone() == Tone.NORMAL ? Tone.QUIET : c.tone()));
            g.drawString(word, (float) textX, (float) (cy + (metrics.getAscent() - metrics.getDescent()) / 2.0));
        }
        return cx + size / 2;
    }

    private static String word(FontMetrics metrics, CycleMark c, double room) {
        String number = String.valueOf(c.index());
        String full = Words.get("cycle.sign", number, c.word());
        if (metrics.stringWidth(full) <= room) {
            return full;
        }
        return metrics.stringWidth(number) <= room ? number : "";
    }
}
