package draftwitness.dashboard.view;

import draftwitness.dashboard.CycleMark;
import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Arc2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;

/** The shapes that say how a cycle ended; each is told apart without colour, at 8 pixels and up. One thread. */
final class Signs {
    private Signs() {}

    /** Paints a sign about a centre in the colour set; as an outline when the cycle is still open. */
    static void paint(Graphics2D g, CycleMark.Sign sign, double cx, double cy, double size, boolean open) {
        double r = size / 2;
        g.setStroke(new BasicStroke((float) Math.max(1.2, size * 0.15), BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        switch (sign) {
            case HEATED -> body(g, new Ellipse2D.Double(cx - r * 0.8, cy - r * 0.8, 1.6 * r, 1.6 * r), open);
            case UNSURE -> g.draw(new Ellipse2D.Double(cx - r * 0.8, cy - r * 0.8, 1.6 * r, 1.6 * r));
            case FLAME_LOST -> {
                body(g, new Arc2D.Double(cx - r, cy - r, size, size, 180, 180, Arc2D.CHORD), open);
                g.draw(new Line2D.Double(cx - r, cy, cx + r, cy));
            }
            case DRAFT_LOST -> body(g, arrow(cx, cy, r), open);
            case NOT_PROVED -> {
                body(g, arrow(cx, cy - r * 0.3, r * 0.8), open);
                g.draw(new Line2D.Double(cx - r, cy + r * 0.9, cx + r, cy + r * 0.9));
            }
            case NOT_LIT -> {
                double d = r * 0.8;
                g.draw(new Line2D.Double(cx - d, cy - d, cx + d, cy + d));
                g.draw(new Line2D.Double(cx - d, cy + d, cx + d, cy - d));
            }
            case LOCKOUT -> lockout(g, cx, cy, r, open);
        }
    }

    private static void body(Graphics2D g, Shape shape, boolean open) {
        if (open) {
            g.draw(shape);
        } else {
            g.fill(shape);
        }
    }

    private static Path2D arrow(double cx, double cy, double r) {
        Path2D path = new Path2D.Double();
        path.moveTo(cx - r, cy - r * 0.8);
        path.lineTo(cx + r, cy - r * 0.8);
        path.lineTo(cx, cy + r);
        path.closePath();
        return path;
    }

    /** Two pillars with a bar between: shut. */
    private static void lockout(Graphics2D g, double cx, double cy, double r, boolean open) {
        double w = r * 0.5;
        body(g, new Rectangle2D.Double(cx - r, cy - r, w, 2 * r), open);
        body(g, new Rectangle2D.Double(cx + r - w, cy - r, w, 2 * r), open);
        body(g, new Rectangle2D.Double(cx - r, cy - w / 2, 2 * r, w), open);
    }
}
