package draftwitness.dashboard.view;

import draftwitness.dashboard.RibbonParts;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.ValueRange;
import draftwitness.dashboard.Words;
import draftwitness.reading.Tap;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;

/**
 * Paints a contact as a ribbon: closed is a filled bar, open a thin line at its foot, both with the word where there is
 * room; changes too fast to draw apart are a hatched bar. One thread.
 */
final class RibbonPainter {
    private final Look look;

    RibbonPainter(Look look) {
        this.look = look;
    }

    void paint(Graphics2D graphics, Rectangle plot, TimeSpan window, Tap tap, List<RibbonParts.Part> parts) {
        Graphics2D g = Look.smooth(graphics);
        g.clip(plot);
        Traces.Scale scale = new Traces.Scale(plot, window, new ValueRange(0, 1));
        double top = plot.y + plot.height * 0.2;
        double height = plot.height * 0.6;
        for (RibbonParts.Part part : parts) {
            double from = Math.max(plot.x - 4, scale.x(part.fromNanos()));
            double to = Math.min(plot.x + plot.width + 4, scale.x(part.toNanos()));
            if (to >= plot.x && from <= plot.x + plot.width) {
                part(g, new Rectangle2D.Double(from, top, Math.max(1, to - from), height), tap, part.state());
            }
        }
        g.dispose();
    }

    private void part(Graphics2D g, Rectangle2D bar, Tap tap, RibbonParts.State state) {
        switch (state) {
            case CLOSED -> {
                g.setColor(Look.color(look.palette().contactClosed()));
                g.fill(bar);
                g.setColor(Look.color(look.palette().lane()));
                word(g, bar, Words.get(kind(tap) + ".closed"));
            }
            case OPEN -> {
                g.setColor(Look.color(look.palette().contactOpen()));
                g.setStroke(look.stroke(2));
                g.draw(new Line2D.Double(bar.getX(), bar.getMaxY(), bar.getMaxX(), bar.getMaxY()));
                g.setColor(Look.color(look.palette().quietInk()));
                word(g, bar, Words.get(kind(tap) + ".open"));
            }
            case BOTH -> {
                g.setColor(Look.color(look.palette().ink()));
                g.setStroke(look.stroke(1));
                for (double x = bar.getX(); x <= bar.getMaxX(); x += look.px(3)) {
                    g.draw(new Line2D.Double(x, bar.getY() - look.px(3), x, bar.getMaxY()));
                }
            }
        }
    }

    private void word(Graphics2D g, Rectangle2D bar, String word) {
        g.setFont(look.bold(13));
        FontMetrics metrics = g.getFontMetrics();
        if (metrics.stringWidth(word) + look.px(12) <= bar.getWidth()) {
            float x = (float) bar.getX() + look.px(6);
            float y = (float) (bar.getCenterY() + (metrics.getAscent() - metrics.getDescent()) / 2.0);
            g.drawString(word, x, y);
        }
    }

    private static String kind(Tap tap) {
        return tap == Tap.CONTACT_SWITCH ? "contact" : "output";
    }
}
