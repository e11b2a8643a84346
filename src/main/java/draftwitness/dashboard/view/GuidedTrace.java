package draftwitness.dashboard.view;

import draftwitness.dashboard.Words;
import draftwitness.diagnosis.guided.GuidedNow;
import java.awt.Dimension;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.util.List;
import java.util.Locale;
import javax.accessibility.AccessibleRole;

/** The readings of a step as a small curve with its smallest and largest value. Event dispatch thread. */
final class GuidedTrace extends Painted {
    private final transient Look look;
    private transient GuidedNow.Trace trace = new GuidedNow.Trace(List.of());
    private String unit = "";

    GuidedTrace(Look look) {
        super(AccessibleRole.ICON);
        this.look = look;
        setName("guided.trace");
        getAccessibleContext().setAccessibleName(Words.get("guided.trace"));
    }

    void show(GuidedNow.Trace next, String nextUnit) {
        if (!next.equals(trace) || !nextUnit.equals(unit)) {
            trace = next;
            unit = nextUnit;
            repaint();
        }
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(look.px(400), look.px(96));
    }

    @Override
    public Dimension getMinimumSize() {
        return new Dimension(look.px(200), look.px(70));
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = Look.smooth((Graphics2D) graphics);
        g.setColor(Look.color(look.palette().lane()));
        g.fillRoundRect(0, 0, getWidth(), getHeight(), look.px(10), look.px(10));
        List<GuidedNow.Point> points = trace.points();
        if (points.size() >= 2) {
            curve(g, points);
        }
        g.dispose();
    }

    private void curve(Graphics2D g, List<GuidedNow.Point> points) {
        double low = points.stream().mapToDouble(GuidedNow.Point::value).min().orElse(0);
        double high = points.stream().mapToDouble(GuidedNow.Point::value).max().orElse(1);
        double from = points.get(0).seconds();
        double length = Math.max(1e-9, points.get(points.size() - 1).seconds() - from);
        double span = Math.max(high - low, 1e-9);
        int left = look.px(12);
        int top = look.px(10);
        double width = getWidth() - look.px(112);
        double height = getHeight() - 2.0 * top;
        Path2D path = new Path2D.Double();
        for (int i = 0; i < points.size(); i++) {
            double x = left + width * (points.get(i).seconds() - from) / length;
            double y = top + height * (high - points.get(i).value()) / span;
            if (i == 0) {
                path.moveTo(x, y);
            } else {
                path.lineTo(x, y);
            }
        }
        g.setColor(Look.color(look.palette().trace()));
        g.setStroke(look.stroke(2));
        g.draw(path);
        g.setFont(look.font(13));
        g.setColor(Look.color(look.palette().quietInk()));
        FontMetrics metrics = g.getFontMetrics();
        int x = getWidth() - look.px(92);
        g.drawString(text(high, span), x, top + metrics.getAscent() - look.px(2));
        g.drawString(text(low, span), x, getHeight() - look.px(8));
    }

    private String text(double value, double span) {
        int decimals = span >= 10 ? 0 : span >= 1 ? 1 : 2;
        return String.format(Locale.ROOT, "%." + decimals + "f %s", value, unit).replace("-", "\u2212");
    }
}
