package draftwitness.dashboard.view;

import draftwitness.dashboard.Words;
import draftwitness.reading.Tap;
import java.awt.BasicStroke;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.util.EnumMap;
import java.util.Map;

/**
 * A furnace as three flows, drawn for choosing taps and for saying where a hose goes: gas and flue on top, air in the
 * middle, control outputs below. No make and no model; a principle. Coordinates are of a sheet 120 wide and 92 high.
 * One thread.
 */
final class FurnaceDrawing {
    static final double SHEET_WIDTH = 120;
    static final double SHEET_HEIGHT = 92;

    private static final Map<Tap, Point2D> PLACES = places();

    private final Look look;

    FurnaceDrawing(Look look) {
        this.look = look;
    }

    /** Where a tap is on the sheet. */
    static Point2D place(Tap tap) {
        Point2D at = PLACES.get(tap);
        if (at == null) {
            throw new IllegalArgumentException(tap.role() + " has no place on the drawing");
        }
        return at;
    }

    private static Map<Tap, Point2D> places() {
        Map<Tap, Point2D> p = new EnumMap<>(Tap.class);
        p.put(Tap.GAS_INLET, at(9.3, 28));
        p.put(Tap.GAS_MANIFOLD, at(22.5, 28));
        p.put(Tap.FLAME_CURRENT, at(32, 35));
        p.put(Tap.DRAFT_BURNER_BOX, at(32, 9.5));
        p.put(Tap.DRAFT_COLLECTOR, at(63, 36));
        p.put(Tap.DRAFT_SWITCH, at(78, 9));
        p.put(Tap.DRAFT_INDUCER, at(94, 30));
        p.put(Tap.DRAFT_VENT, at(104, 8));
        p.put(Tap.STATIC_RETURN, at(7, 55));
        p.put(Tap.STATIC_AFTER_FILTER, at(24, 55));
        p.put(Tap.STATIC_SUPPLY, at(70, 55));
        p.put(Tap.STATIC_BEFORE_COIL, at(86, 55));
        p.put(Tap.STATIC_AFTER_COIL, at(109, 55));
        p.put(Tap.CONTACT_CALL, at(12, 79));
        p.put(Tap.CONTACT_INDUCER, at(36, 79));
        p.put(Tap.CONTACT_SWITCH, at(60, 79));
        p.put(Tap.CONTACT_GAS_VALVE, at(84, 79));
        p.put(Tap.CONTACT_BLOWER, at(108, 79));
        return p;
    }

    private static Point2D at(double x, double y) {
        return new Point2D.Double(x, y);
    }

    /** Pixels a unit of the sheet in an area. */
    static double unit(Rectangle area) {
        return Math.min(area.width / SHEET_WIDTH, area.height / SHEET_HEIGHT);
    }

    /** Where a point of the sheet is in an area, in pixels; the sheet is centred. */
    static Point2D toPixels(Point2D sheet, Rectangle area) {
        double unit = unit(area);
        double left = area.x + (area.width - SHEET_WIDTH * unit) / 2;
        double top = area.y + (area.height - SHEET_HEIGHT * unit) / 2;
        return new Point2D.Double(left + sheet.getX() * unit, top + sheet.getY() * unit);
    }

    void paint(Graphics2D graphics, Rectangle area) {
        Graphics2D g = Look.smooth(graphics);
        Point2D origin = toPixels(at(0, 0), area);
        double unit = unit(area);
        g.transform(new AffineTransform(unit, 0, 0, unit, origin.getX(), origin.getY()));
        g.setStroke(new BasicStroke(0.35f));
        g.setColor(Look.color(look.palette().contactOpen()));
        gas(g);
        flue(g);
        air(g);
        control(g);
        g.dispose();
        words(graphics, area);
    }

    /** Gas pipe, valve and burner box with its flame. */
    private static void gas(Graphics2D g) {
        g.draw(new Line2D.Double(0, 21, 10, 21));
        g.draw(new Line2D.Double(0, 23, 10, 23));
        stub(g, 9.3, 23, 9.3, 26);
        stub(g, 22.5, 23, 22.5, 26);
        stub(g, 32, 30, 32, 33);
        stub(g, 32, 16, 32, 12);
        Path2D valve = new Path2D.Double();
        valve.moveTo(10, 18);
        valve.lineTo(18, 26);
        valve.lineTo(18, 18);
        valve.lineTo(10, 26);
        valve.closePath();
        g.draw(valve);
        g.draw(new Line2D.Double(18, 21, 27, 21));
        g.draw(new Line2D.Double(18, 23, 27, 23));
        g.draw(new Rectangle2D.Double(27, 16, 10, 14));
        Path2D flame = new Path2D.Double();
        flame.moveTo(29, 22);
        flame.quadTo(33, 18.5, 36.4, 22);
        flame.quadTo(33, 25.5, 29, 22);
        g.draw(flame);
    }

    /** Where a tap's hose leaves the part. */
    private static void stub(Graphics2D g, double x1, double y1, double x2, double y2) {
        g.draw(new Line2D.Double(x1, y1, x2, y2));
    }

    /** Primary exchanger, collector box, secondary exchanger, inducer, vent; the switch and its hose. */
    private static void flue(Graphics2D g) {
        Path2D serpent = new Path2D.Double();
        serpent.moveTo(37, 18);
        for (int i = 0; i < 3; i++) {
            double x = 37 + 7 * i;
            serpent.curveTo(x + 4, 18, x + 1.5, 30, x + 3.5, 30);
            serpent.curveTo(x + 5.5, 30, x + 3, 18, x + 7, 18);
        }
        g.draw(serpent);
        g.draw(new Rectangle2D.Double(58, 15, 10, 16));
        stub(g, 63, 31, 63, 34);
        stub(g, 106, 8, 108, 8);
        for (int i = 0; i < 4; i++) {
            g.draw(new Line2D.Double(68, 18 + 3 * i, 84, 18 + 3 * i));
        }
        g.draw(new Rectangle2D.Double(84, 15, 4, 16));
        g.draw(new Ellipse2D.Double(88, 16.5, 13, 13));
        g.draw(new Ellipse2D.Double(92.5, 21, 4, 4));
        Path2D vent = new Path2D.Double();
        vent.moveTo(101, 20);
        vent.lineTo(108, 20);
        vent.lineTo(108, 1);
        vent.moveTo(101, 26);
        vent.lineTo(114, 26);
        vent.lineTo(114, 1);
        g.draw(vent);
        Path2D hose = new Path2D.Double();
        hose.moveTo(86, 15);
        hose.curveTo(86, 8, 84, 9, 72, 9);
        g.draw(hose);
        g.draw(new Ellipse2D.Double(64, 5, 8, 8));
        g.draw(new Line2D.Double(68, 5, 68, 13));
    }

    /** Duct with filter, blower, exchanger and coil. */
    private static void air(Graphics2D g) {
        g.draw(new Line2D.Double(0, 46, 120, 46));
        g.draw(new Line2D.Double(0, 64, 120, 64));
        g.draw(new Rectangle2D.Double(14, 46, 3, 18));
        for (int i = 0; i < 6; i++) {
            g.draw(new Line2D.Double(14, 49 + 3 * i, 17, 46 + 3 * i));
        }
        g.draw(new Ellipse2D.Double(33, 49, 12, 12));
        g.draw(new Ellipse2D.Double(37, 53, 4, 4));
        Path2D exchanger = new Path2D.Double();
        exchanger.moveTo(50, 48);
        for (int i = 0; i < 3; i++) {
            exchanger.lineTo(52 + 4 * i, 62);
            exchanger.lineTo(54 + 4 * i, 48);
        }
        g.draw(exchanger);
        Path2D coil = new Path2D.Double();
        coil.moveTo(93, 63);
        coil.lineTo(97.5, 47);
        coil.lineTo(102, 63);
        g.draw(coil);
        for (double x : new double[] {2, 27, 77, 114}) {
            g.draw(new Line2D.Double(x, 49, x + 4, 49));
            g.draw(new Line2D.Double(x + 4, 49, x + 2.8, 48));
            g.draw(new Line2D.Double(x + 4, 49, x + 2.8, 50));
        }
    }

    private static void control(Graphics2D g) {
        g.draw(new Rectangle2D.Double(1, 72, 118, 19));
    }

    /** Names of the parts, small, where no tap is. */
    private void words(Graphics2D graphics, Rectangle area) {
        Graphics2D g = Look.smooth(graphics);
        g.setFont(look.font(11));
        g.setColor(Look.color(look.palette().quietInk()));
        word(g, area, "drawing.valve", 14, 15.5);
        word(g, area, "drawing.exchanger", 47.5, 15.5);
        word(g, area, "drawing.secondary", 77, 34.5);
        word(g, area, "drawing.inducer", 94, 14.5);
        word(g, area, "drawing.switch", 61, 3.5);
        word(g, area, "drawing.filter", 15.5, 45);
        word(g, area, "drawing.blower", 39, 48);
        word(g, area, "drawing.coil", 97.5, 45);
        word(g, area, "drawing.control", 13, 71);
        word(g, area, "drawing.air", 56, 45);
        g.dispose();
    }

    private static void word(Graphics2D g, Rectangle area, String key, double x, double y) {
        Point2D p = toPixels(at(x, y), area);
        FontMetrics metrics = g.getFontMetrics();
        String text = Words.get(key);
        g.drawString(text, (float) (p.getX() - metrics.stringWidth(text) / 2.0), (float) p.getY());
    }
}
