package draftwitness.dashboard.view;

import draftwitness.dashboard.Tone;
import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;

/** Small marks that tell by shape what a colour alone must not tell. Event dispatch thread or any one thread. */
final class Glyphs {
    private Glyphs() {}

    /** Width that a mark takes beside a text of that height; 0 for tones without a mark. */
    static int width(Tone tone, int height) {
        return tone == Tone.ATTENTION || tone == Tone.DANGER ? Math.round(height * 1.35f) : 0;
    }

    /** Paints the mark of a tone in the colour set: a triangle for attention, a crossed diamond for danger. */
    static void paint(Graphics2D g, Tone tone, int x, int y, int size) {
        if (tone == Tone.ATTENTION) {
            triangle(g, x, y, size);
        } else if (tone == Tone.DANGER) {
            diamond(g, x, y, size);
        }
    }

    private static void triangle(Graphics2D g, double x, double y, double s) {
        Path2D path = new Path2D.Double();
        path.moveTo(x + s / 2, y);
        path.lineTo(x + s, y + s * 0.92);
        path.lineTo(x, y + s * 0.92);
        path.closePath();
        g.setStroke(new BasicStroke((float) (s * 0.1), BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.draw(path);
        g.draw(new Line2D.Double(x + s / 2, y + s * 0.36, x + s / 2, y + s * 0.60));
        g.fill(new Ellipse2D.Double(x + s * 0.44, y + s * 0.70, s * 0.12, s * 0.12));
    }

    private static void diamond(Graphics2D g, double x, double y, double s) {
        Path2D path = new Path2D.Double();
        path.moveTo(x + s / 2, y);
        path.lineTo(x + s, y + s / 2);
        path.lineTo(x + s / 2, y + s);
        path.lineTo(x, y + s / 2);
        path.closePath();
        g.setStroke(new BasicStroke((float) (s * 0.1), BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.draw(path);
        double a = s * 0.36;
        double b = s * 0.64;
        g.draw(new Line2D.Double(x + a, y + a, x + b, y + b));
        g.draw(new Line2D.Double(x + a, y + b, x + b, y + a));
    }
}
