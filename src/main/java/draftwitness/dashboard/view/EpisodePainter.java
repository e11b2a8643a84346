package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.EpisodeMark;
import draftwitness.dashboard.LaneFrame;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.Tone;
import java.awt.Color;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Marks episodes where they occur: a bracket at the top of the strip that they were seen on, with a shape and a word,
 * over a pale ground. Brackets that would cover each other go into rows. One thread.
 */
final class EpisodePainter {
    private static final int ROW = 18;
    private static final int GLYPH = 13;
    private static final int ROWS = 3;
    private static final int GROUND_ALPHA = 26;

    private final Look look;

    EpisodePainter(Look look) {
        this.look = look;
    }

    /**
     * A bracket's place.
     *
     * @param bracket the span itself
     * @param touch bracket and word: where pressing or hovering means this episode
     */
    record Place(EpisodeMark mark, Rectangle plot, Rectangle2D bracket, Rectangle2D touch, boolean word) {}

    /** All brackets in view, lane by lane. */
    List<Place> places(Graphics2D g, LanesLayout layout, ChartFrame frame) {
        FontMetrics metrics = g.getFontMetrics(look.bold(12.5));
        List<Place> out = new ArrayList<>();
        for (int lane = 0; lane < frame.lanes().size(); lane++) {
            double[] reached = new double[ROWS];
            Arrays.fill(reached, Double.NEGATIVE_INFINITY);
            Rectangle plot = layout.places().get(lane).plot();
            for (EpisodeMark mark : frame.happenings().episodes()) {
                if (laneOf(frame.lanes(), mark) == lane && inView(mark, frame.window())) {
                    out.add(place(mark, plot, frame.window(), metrics, reached));
                }
            }
        }
        return out;
    }

    private static boolean inView(EpisodeMark mark, TimeSpan window) {
        return mark.span().toNanos() >= window.fromNanos() && mark.span().fromNanos() <= window.toNanos();
    }

    /** The lane of the episode's tap, else the first. */
    private static int laneOf(List<LaneFrame> lanes, EpisodeMark mark) {
        for (int i = 0; i < lanes.size(); i++) {
            if (lanes.get(i).channel().tap() == mark.tap()) {
                return i;
            }
        }
        return 0;
    }

    private Place place(EpisodeMark mark, Rectangle plot, TimeSpan window, FontMetrics metrics, double[] reached) {
        double perNano = plot.width / (double) Math.max(1, window.lengthNanos());
        double from = plot.x + (mark.span().fromNanos() - window.fromNanos()) * perNano;
        double width = Math.max(look.px(6), mark.span().lengthNanos() * perNano);
        double left = Math.max(from, plot.x);
        double words = look.px(GLYPH + 10) + metrics.stringWidth(mark.word());
        double wanted = Math.min(Math.max(from + width, left + words), plot.getMaxX());
        int rows = plot.height < look.px(60) ? 1 : ROWS;
        for (int row = 0; row < rows; row++) {
            if (reached[row] <= left) {
                reached[row] = Math.max(from + width, left + words) + look.px(4);
                double y = plot.y + row * look.px(ROW) + look.px(2);
                return new Place(
                        mark,
                        plot,
                        new Rectangle2D.Double(from, y, width, look.px(ROW)),
                        new Rectangle2D.Double(left, y, Math.max(look.px(8), wanted - left), look.px(ROW)),
                        left + words <= plot.getMaxX());
            }
        }
        // No free row: the bracket alone, in the last one.
        double y = plot.y + (rows - 1) * look.px(ROW) + look.px(2);
        Rectangle2D bracket = new Rectangle2D.Double(from, y, width, look.px(ROW));
        return new Place(mark, plot, bracket, bracket, false);
    }

    /** Pale grounds, before the readings are drawn. */
    void grounds(Graphics2D graphics, LanesLayout layout, ChartFrame frame) {
        Graphics2D g = (Graphics2D) graphics.create();
        for (Place p : places(g, layout, frame)) {
            Color c = look.ink(p.mark().tone());
            g.setColor(new Color(c.getRed(), c.getGreen(), c.getBlue(), GROUND_ALPHA));
            g.fill(new Rectangle2D.Double(
                            p.bracket().getX(), p.plot().y, p.bracket().getWidth(), p.plot().height)
                    .createIntersection(p.plot()));
        }
        g.dispose();
    }

    /** Brackets and words, over everything. */
    void brackets(Graphics2D graphics, LanesLayout layout, ChartFrame frame) {
        Graphics2D g = Look.smooth(graphics);
        for (Place p : places(g, layout, frame)) {
            Graphics2D own = (Graphics2D) g.create();
            own.clip(p.plot());
            own.setColor(look.ink(p.mark().tone()));
            own.setStroke(look.stroke(2));
            double y = p.bracket().getY();
            Path2D path = new Path2D.Double();
            path.moveTo(p.bracket().getX() + 1, y + look.px(6));
            path.lineTo(p.bracket().getX() + 1, y);
            path.lineTo(p.bracket().getMaxX() - 1, y);
            path.lineTo(p.bracket().getMaxX() - 1, y + look.px(6));
            own.draw(path);
            if (p.word()) {
                word(own, p);
            }
            own.dispose();
        }
        g.dispose();
    }

    private void word(Graphics2D g, Place p) {
        g.setFont(look.bold(12.5));
        FontMetrics metrics = g.getFontMetrics();
        int x = (int) p.touch().getX() + look.px(4);
        int y = (int) p.touch().getY() + look.px(3);
        boolean glyph = p.mark().tone() != Tone.QUIET;
        int after = glyph ? look.px(GLYPH + 4) : 0;
        int width = after + metrics.stringWidth(p.mark().word());
        g.setColor(Look.color(look.palette().lane()));
        g.fillRect(x - look.px(1), y, width + look.px(3), look.px(ROW - 4));
        g.setColor(look.ink(p.mark().tone()));
        Glyphs.paint(g, p.mark().tone(), x, y + look.px(1), look.px(GLYPH));
        g.drawString(p.mark().word(), x + after, y + look.px(1) + metrics.getAscent() - look.px(1));
    }

    /** The episode at a point, or null. */
    @Nullable
    EpisodeMark at(Graphics2D g, LanesLayout layout, ChartFrame frame, Point point) {
        EpisodeMark found = null;
        for (Place p : places(g, layout, frame)) {
            if (p.touch().contains(point)) {
                found = p.mark();
            }
        }
        return found;
    }
}
