package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.LaneFrame;
import draftwitness.dashboard.LevelLine;
import draftwitness.dashboard.RibbonParts;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.Words;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;

/** Paints all strips on their one time axis; the same for the window and for pictures. One thread. */
final class LanesPainter {
    private final Look look;
    private final Axes axes;
    private final Traces traces;

    LanesPainter(Look look) {
        this.look = look;
        this.axes = new Axes(look);
        this.traces = new Traces(look);
    }

    /** Paints the time axis below the strips. */
    void timeAxis(Graphics2D g, Rectangle area, ChartFrame frame) {
        axes.time(g, area, frame);
    }

    /** Paints strips and value axes; not the headers and not the time axis. */
    void paint(Graphics2D g, LanesLayout layout, ChartFrame frame) {
        List<LanesLayout.Place> places = layout.places();
        for (int i = 0; i < places.size(); i++) {
            ground(g, places.get(i), frame.lanes().get(i), frame.window());
        }
        List<Rectangle> plots = places.stream().map(LanesLayout.Place::plot).toList();
        EpisodePainter episodes = new EpisodePainter(look);
        episodes.grounds(g, layout, frame);
        axes.timeGrid(g, frame, plots);
        for (int i = 0; i < places.size(); i++) {
            strip(g, places.get(i).plot(), frame.lanes().get(i), frame.window());
        }
        episodes.brackets(g, layout, frame);
        if (!frame.live()) {
            playhead(g, plots, frame);
        }
    }

    private void ground(Graphics2D graphics, LanesLayout.Place place, LaneFrame lane, TimeSpan window) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setColor(Look.color(look.palette().lane()));
        g.fill(place.whole());
        gaps(g, place.plot(), lane, window);
        g.dispose();
    }

    /** Missing readings: hatched, so that nobody takes them for zero, with a word where there is room. */
    private void gaps(Graphics2D g, Rectangle plot, LaneFrame lane, TimeSpan window) {
        Traces.Scale scale = new Traces.Scale(plot, window, lane.range());
        g.clip(plot);
        for (TimeSpan gap : lane.columns().gaps()) {
            double from = scale.x(gap.fromNanos());
            double width = Math.max(look.px(2), scale.x(gap.toNanos()) - from);
            hatch(g, new Rectangle2D.Double(from, plot.y, width, plot.height));
            g.setFont(look.font(12));
            String text = Words.get("gap");
            FontMetrics metrics = g.getFontMetrics();
            if (metrics.stringWidth(text) + look.px(12) < width) {
                Graphics2D smooth = Look.smooth(g);
                smooth.setColor(Look.color(look.palette().quietInk()));
                int x = (int) Math.round(from + (width - metrics.stringWidth(text)) / 2);
                smooth.drawString(text, x, plot.y + (plot.height + metrics.getAscent()) / 2);
                smooth.dispose();
            }
        }
        g.setClip(null);
    }

    private void hatch(Graphics2D graphics, Rectangle2D area) {
        Graphics2D g = Look.smooth(graphics);
        g.clip(area);
        g.setColor(Look.color(look.palette().gap()));
        g.setStroke(look.stroke(2));
        double step = look.px(9);
        double start = Math.floor(area.getX() / step) * step;
        for (double x = start - area.getHeight(); x < area.getMaxX(); x += step) {
            g.draw(new Line2D.Double(x, area.getMaxY(), x + area.getHeight(), area.getY()));
        }
        g.dispose();
    }

    private void strip(Graphics2D graphics, Rectangle plot, LaneFrame lane, TimeSpan window) {
        if (lane.ribbon()) {
            new RibbonPainter(look)
                    .paint(
                            graphics,
                            plot,
                            window,
                            lane.header().tap(),
                            RibbonParts.of(lane.columns(), lane.holdUntilNanos()));
            return;
        }
        axes.value(graphics, plot, lane);
        if (lane.range().high() > 0 && lane.range().low() < 0) {
            zero(graphics, plot, lane);
        }
        for (LevelLine line : lane.lines()) {
            level(graphics, plot, lane, line);
            levelLabel(graphics, plot, lane, line);
        }
        traces.paint(graphics, plot, window, lane); // last: no label hides a reading
    }

    private void zero(Graphics2D graphics, Rectangle plot, LaneFrame lane) {
        Graphics2D g = (Graphics2D) graphics.create();
        double y = Math.round(new Traces.Scale(plot, new TimeSpan(0, 1), lane.range()).y(0)) + 0.5;
        g.setColor(Look.color(look.palette().contactOpen()));
        g.setStroke(look.stroke(1));
        g.draw(new Line2D.Double(plot.x, y, plot.x + plot.width, y));
        g.dispose();
    }

    private void level(Graphics2D graphics, Rectangle plot, LaneFrame lane, LevelLine line) {
        Graphics2D g = Look.smooth(graphics);
        double y = levelY(plot, lane, line);
        g.setColor(Look.color(
                line.dashed() ? look.palette().breakPoint() : look.palette().setPoint()));
        g.setStroke(line.dashed() ? look.dashed(1.4) : look.stroke(1.6));
        g.draw(new Line2D.Double(plot.x, y, plot.x + plot.width, y));
        g.dispose();
    }

    private static double levelY(Rectangle plot, LaneFrame lane, LevelLine line) {
        return Math.round(new Traces.Scale(plot, new TimeSpan(0, 1), lane.range()).y(line.value())) + 0.5;
    }

    private void levelLabel(Graphics2D graphics, Rectangle plot, LaneFrame lane, LevelLine line) {
        Graphics2D g = Look.smooth(graphics);
        double y = levelY(plot, lane, line);
        g.setFont(look.bold(12));
        FontMetrics metrics = g.getFontMetrics();
        int x = plot.x + plot.width - metrics.stringWidth(line.label()) - look.px(6);
        int baseline = (int) (line.dashed() ? y - look.px(4) : y + metrics.getAscent() + look.px(2));
        g.setColor(Look.color(look.palette().lane()));
        g.fillRect(
                x - look.px(3),
                baseline - metrics.getAscent(),
                metrics.stringWidth(line.label()) + look.px(6),
                metrics.getAscent() + metrics.getDescent());
        g.setColor(Look.color(look.palette().setPoint()));
        g.drawString(line.label(), x, baseline);
        g.dispose();
    }

    private void playhead(Graphics2D graphics, List<Rectangle> plots, ChartFrame frame) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setColor(Look.color(look.palette().playhead()));
        g.setStroke(look.stroke(2));
        for (Rectangle plot : plots) {
            double x = plot.x
                    + (double) (frame.headNanos() - frame.window().fromNanos())
                            * plot.width
                            / Math.max(1, frame.window().lengthNanos());
            if (x >= plot.x && x <= plot.x + plot.width) {
                g.draw(new Line2D.Double(x, plot.y, x, plot.y + plot.height));
            }
        }
        g.dispose();
    }
}
