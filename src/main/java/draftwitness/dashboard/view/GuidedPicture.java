package draftwitness.dashboard.view;

import draftwitness.dashboard.Words;
import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.awt.geom.RoundRectangle2D;
import java.util.List;
import java.util.stream.Collectors;
import javax.accessibility.AccessibleRole;

/**
 * The drawing of the furnace with the instrument's hoses on the taps of a step: numbered rings, the first the main one,
 * and a line from each to the instrument; a contact's wire is dashed. Event dispatch thread.
 */
final class GuidedPicture extends Painted {
    /** Where the instrument lies on the sheet: between flue and air. */
    private static final Point2D INSTRUMENT = new Point2D.Double(47, 40);

    private final transient Look look;
    private transient List<Tap> hoses = List.of();

    GuidedPicture(Look look) {
        super(AccessibleRole.ICON);
        this.look = look;
        setName("guided.picture");
        getAccessibleContext().setAccessibleName(Words.get("guided.picture", "-"));
    }

    void show(List<Tap> taps) {
        if (!taps.equals(hoses)) {
            hoses = taps;
            getAccessibleContext()
                    .setAccessibleName(Words.get(
                            "guided.picture",
                            taps.stream().map(t -> Words.get("tap." + t.role())).collect(Collectors.joining(", "))));
            repaint();
        }
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(look.px(420), look.px(300));
    }

    @Override
    public Dimension getMinimumSize() {
        return new Dimension(look.px(260), look.px(180));
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        graphics.setColor(Look.color(look.palette().lane()));
        graphics.fillRoundRect(0, 0, getWidth(), getHeight(), look.px(12), look.px(12));
        int m = look.px(10);
        Rectangle area = new Rectangle(m, m, getWidth() - 2 * m, getHeight() - 2 * m);
        new FurnaceDrawing(look).paint((Graphics2D) graphics, area);
        Graphics2D g = Look.smooth((Graphics2D) graphics);
        hoses.forEach(tap -> hose(g, tap, area));
        instrument(g, area);
        for (int i = hoses.size() - 1; i >= 0; i--) {
            ring(g, hoses.get(i), i + 1, area);
        }
        g.dispose();
    }

    private void hose(Graphics2D g, Tap tap, Rectangle area) {
        Point2D from = FurnaceDrawing.toPixels(INSTRUMENT, area);
        Point2D to = FurnaceDrawing.toPixels(FurnaceDrawing.place(tap), area);
        Path2D hose = new Path2D.Double();
        hose.moveTo(from.getX(), from.getY());
        double sag = look.px(26);
        hose.curveTo(from.getX(), from.getY() + sag, to.getX(), to.getY() + sag, to.getX(), to.getY());
        float width = look.px(4);
        boolean wire = tap.quantity() == Quantity.CONTACT;
        g.setStroke(wire ? look.dashed(2) : new BasicStroke(width, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.setColor(Look.color(look.palette().accent()));
        g.draw(hose);
    }

    private void instrument(Graphics2D g, Rectangle area) {
        Point2D at = FurnaceDrawing.toPixels(INSTRUMENT, area);
        double w = look.px(44);
        double h = look.px(22);
        RoundRectangle2D box =
                new RoundRectangle2D.Double(at.getX() - w / 2, at.getY() - h / 2, w, h, look.px(8), look.px(8));
        g.setColor(Look.color(look.palette().lane()));
        g.fill(box);
        g.setColor(Look.color(look.palette().accent()));
        g.setStroke(look.stroke(2));
        g.draw(box);
        centred(g, "dP", at, Look.color(look.palette().ink()));
    }

    private void ring(Graphics2D g, Tap tap, int number, Rectangle area) {
        Point2D at = FurnaceDrawing.toPixels(FurnaceDrawing.place(tap), area);
        double r = look.px(number == 1 ? 15 : 12);
        Ellipse2D ring = new Ellipse2D.Double(at.getX() - r, at.getY() - r, 2 * r, 2 * r);
        g.setColor(Look.color(look.palette().accent()));
        g.fill(ring);
        g.setColor(Look.color(look.palette().lane()));
        g.setStroke(look.stroke(2));
        g.draw(ring);
        centred(g, String.valueOf(number), at, Look.color(look.palette().onAccent()));
        label(g, tap, at, r);
    }

    /** The tap's name on its own ground, beside the ring; above it where a contact sits low. */
    private void label(Graphics2D g, Tap tap, Point2D at, double r) {
        g.setFont(look.bold(13));
        FontMetrics metrics = g.getFontMetrics();
        String text = Words.get("tap.short." + tap.role());
        int width = metrics.stringWidth(text) + look.px(10);
        int height = metrics.getHeight();
        int x = (int) Math.round(at.getX() + r + look.px(3));
        if (x + width > getWidth() - look.px(4)) {
            x = (int) Math.round(at.getX() - r - look.px(3)) - width;
        }
        int y = (int) Math.round(at.getY() - height / 2.0);
        g.setColor(Look.color(look.palette().lane()));
        g.fillRoundRect(x, y, width, height, look.px(6), look.px(6));
        g.setColor(Look.color(look.palette().ink()));
        g.drawString(text, x + look.px(5), y + metrics.getAscent());
    }

    private void centred(Graphics2D g, String text, Point2D at, Color ink) {
        g.setFont(look.bold(14));
        FontMetrics metrics = g.getFontMetrics();
        g.setColor(ink);
        g.drawString(text, (float) (at.getX() - metrics.stringWidth(text) / 2.0), (float)
                (at.getY() + (metrics.getAscent() - metrics.getDescent()) / 2.0));
    }
}
