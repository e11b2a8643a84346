package draftwitness.dashboard.view;

import draftwitness.dashboard.Columns;
import draftwitness.dashboard.CompareModel;
import draftwitness.dashboard.ComparedCycle;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.ValueRange;
import draftwitness.dashboard.Words;
import draftwitness.reading.Unit;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.geom.Line2D;
import javax.accessibility.AccessibleRole;

/** The curves of two cycles over each other, each marked with its letter; time 0 is the inducer's start. EDT. */
final class ComparePlot extends Painted {
    private final transient CompareModel model;
    private final transient Look look;
    private transient Unit unit = Unit.PASCAL;

    ComparePlot(CompareModel model, Look look) {
        super(AccessibleRole.PANEL);
        this.model = model;
        this.look = look;
        setName("compare.plot");
        getAccessibleContext().setAccessibleName(Words.get("compare.plot"));
        setPreferredSize(new Dimension(look.px(600), look.px(260)));
    }

    /** The colour of a curve and its letter. */
    static Color color(Look look, String letter) {
        return Look.color(
                letter.equals("A") ? look.palette().trace() : look.palette().playhead());
    }

    void show(Unit newUnit) {
        unit = newUnit;
        repaint();
    }

    /** Where the curves are. */
    Rectangle plot() {
        int left = look.px(64);
        return new Rectangle(left, look.px(8), Math.max(1, getWidth() - left - look.px(24)), getHeight() - look.px(44));
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        ComparedCycle a = model.a();
        ComparedCycle b = model.b();
        Graphics2D g = (Graphics2D) graphics.create();
        Rectangle plot = plot();
        g.setColor(Look.color(look.palette().lane()));
        g.fill(plot);
        if (a != null && b != null) {
            ValueRange range = range(a.draft(), b.draft());
            TimeSpan window = model.windowA();
            Axes axes = new Axes(look);
            axes.value(g, plot, unit, range);
            double before = CompareModel.BEFORE_NANOS / 1e9;
            axes.seconds(g, plot, -before, window.lengthNanos() / 1e9 - before);
            start(g, plot, window);
            curve(g, plot, "B", model.windowB(), b.draft(), range);
            curve(g, plot, "A", window, a.draft(), range);
        }
        g.dispose();
    }

    private ValueRange range(Columns a, Columns b) {
        double low = 0;
        double high = 0;
        for (Columns each : new Columns[] {a, b}) {
            double[] extremes = each.extremes();
            if (extremes != null) {
                low = Math.min(low, extremes[0]);
                high = Math.max(high, extremes[1]);
            }
        }
        return ValueRange.around(low, high, unit);
    }

    private void start(Graphics2D g, Rectangle plot, TimeSpan window) {
        double x = plot.x + (double) CompareModel.BEFORE_NANOS * plot.width / window.lengthNanos();
        g.setColor(Look.color(look.palette().quietInk()));
        g.setStroke(look.dashed(1.2));
        g.draw(new Line2D.Double(x, plot.y, x, plot.y + plot.height));
    }

    private void curve(Graphics2D g, Rectangle plot, String letter, TimeSpan window, Columns draft, ValueRange range) {
        Color color = color(look, letter);
        new Traces(look).paint(g, plot, window, draft, range, color);
        Traces.Scale scale = new Traces.Scale(plot, window, range);
        int share = letter.equals("A") ? 3 : 4; // letters stand apart where curves lie on each other
        int at = draft.grid().count() * share / 8;
        while (at < draft.grid().count() - 1 && draft.count(at) == 0) {
            at++;
        }
        if (draft.count(at) > 0) {
            Graphics2D text = Look.smooth(g);
            text.setFont(look.bold(18));
            int x = (int) scale.x(draft.grid().startOf(at));
            int y = Math.max(plot.y + look.px(16), (int) scale.y(draft.max(at)) - look.px(5));
            int width = text.getFontMetrics().stringWidth(letter);
            text.setColor(Look.color(look.palette().lane()));
            text.fillRect(x - 2, y - look.px(15), width + 4, look.px(17));
            text.setColor(color);
            text.drawString(letter, x, y);
            text.dispose();
        }
    }
}
