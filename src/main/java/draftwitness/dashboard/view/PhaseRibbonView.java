package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.PhaseMark;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.Tone;
import draftwitness.dashboard.Words;
import java.awt.Dimension;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.event.MouseEvent;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import javax.accessibility.AccessibleRole;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/**
 * The sequence as a quiet ribbon over the strips: where each phase begins, with its name where there is room. Lockouts
 * and waits are barred as well as toned. Stays in place when lanes are scrolled. Event dispatch thread.
 */
final class PhaseRibbonView extends Painted {
    private static final int HEIGHT = 24;

    private final transient LanesView lanes;

    PhaseRibbonView(LanesView lanes) {
        super(AccessibleRole.PANEL);
        this.lanes = lanes;
        setName("phases");
        setToolTipText("");
        getAccessibleContext().setAccessibleName(Words.get("phases.name"));
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(100, lanes.look().px(HEIGHT));
    }

    private Rectangle area() {
        Rectangle axis = lanes.layoutNow().timeAxis();
        Point left = SwingUtilities.convertPoint(lanes, axis.x, 0, this);
        return new Rectangle(left.x, 0, axis.width, getHeight());
    }

    private static double x(Rectangle area, TimeSpan window, long nanos) {
        return area.x + (nanos - window.fromNanos()) * (double) area.width / Math.max(1, window.lengthNanos());
    }

    private static long end(PhaseMark mark, ChartFrame frame) {
        return mark.open() && frame.live()
                ? Math.max(mark.span().toNanos(), frame.headNanos())
                : mark.span().toNanos();
    }

    @Override
    public @Nullable String getToolTipText(MouseEvent e) {
        ChartFrame frame = lanes.frame();
        Rectangle area = area();
        for (PhaseMark mark : frame.happenings().phases()) {
            if (e.getX() >= x(area, frame.window(), mark.span().fromNanos())
                    && e.getX() < x(area, frame.window(), end(mark, frame))) {
                return mark.word();
            }
        }
        return null;
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        ChartFrame frame = lanes.frame();
        if (frame.lanes().isEmpty()) {
            return;
        }
        Graphics2D g = Look.smooth((Graphics2D) graphics);
        Look look = lanes.look();
        Rectangle area = area();
        g.setFont(look.font(13));
        g.setColor(look.ink(Tone.QUIET));
        int base = (getHeight()
                        + g.getFontMetrics().getAscent()
                        - g.getFontMetrics().getDescent())
                / 2;
        Point header = SwingUtilities.convertPoint(lanes, look.px(14), 0, this);
        if (frame.happenings().telling()) {
            g.drawString(Words.get("phases.title"), header.x, base);
        }
        g.clip(area);
        for (PhaseMark mark : frame.happenings().phases()) {
            double from = x(area, frame.window(), mark.span().fromNanos());
            double to = x(area, frame.window(), end(mark, frame));
            if (to >= area.x && from <= area.x + area.width) {
                part(g, look, mark, new Rectangle2D.Double(from, 0, to - from, getHeight()), area, base);
            }
        }
        g.dispose();
    }

    private static void part(Graphics2D g, Look look, PhaseMark mark, Rectangle2D at, Rectangle area, int base) {
        Rectangle2D inside = new Rectangle2D.Double(
                at.getX(), look.px(3), Math.max(1, at.getWidth() - look.scale()), at.getHeight() - look.px(5));
        g.setColor(Look.color(look.palette().lane()));
        g.fill(inside);
        boolean quiet = mark.tone() == Tone.QUIET;
        g.setColor(quiet ? Look.color(look.palette().contactOpen()) : look.ink(mark.tone()));
        g.setStroke(look.stroke(quiet ? 1 : 3));
        double foot = inside.getMaxY() - (quiet ? 0.5 : 1.5);
        g.draw(new Line2D.Double(inside.getX(), foot, inside.getMaxX(), foot));
        g.setStroke(look.stroke(1.4));
        g.draw(new Line2D.Double(inside.getX(), inside.getY(), inside.getX(), inside.getMaxY()));
        double left = Math.max(inside.getX(), area.x) + look.px(5);
        double room = Math.min(inside.getMaxX(), area.getMaxX()) - left - look.px(3);
        g.setFont(quiet ? look.font(12.5) : look.bold(12.5));
        FontMetrics metrics = g.getFontMetrics();
        String word = metrics.stringWidth(mark.word()) <= room ? mark.word() : mark.shortWord();
        if (metrics.stringWidth(word) <= room) {
            g.setColor(look.ink(mark.tone()));
            g.drawString(word, (float) left, base - look.px(1));
        }
    }
}
