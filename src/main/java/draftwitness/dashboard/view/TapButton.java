package draftwitness.dashboard.view;

import draftwitness.dashboard.FoundSource;
import draftwitness.dashboard.Words;
import draftwitness.reading.Tap;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import javax.swing.JButton;
import org.jspecify.annotations.Nullable;

/**
 * A place on the drawing to connect a hose or wire to: a ring, filled and ticked when something is connected. Event
 * dispatch thread.
 */
final class TapButton extends JButton {
    private static final int RING = 24;

    private final Tap tap;
    private final transient Look look;
    private transient @Nullable FoundSource connected;

    TapButton(Tap tap, Look look, Runnable pressed) {
        this.tap = tap;
        this.look = look;
        setName("tap." + tap.role());
        setContentAreaFilled(false);
        setBorder(null);
        setRolloverEnabled(true);
        addActionListener(e -> pressed.run());
        show(null, true);
    }

    /** Shows what is connected, and whether pressing would do something. */
    void show(@Nullable FoundSource source, boolean usable) {
        connected = source;
        setEnabled(usable);
        String title = Words.get("tap." + tap.role());
        String spoken = source == null ? Words.get("tap.free", title) : Words.get("tap.taken", title, source.title());
        getAccessibleContext().setAccessibleName(spoken);
        setToolTipText(spoken);
        repaint();
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(look.px(104), look.px(62));
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = Look.smooth((Graphics2D) graphics);
        int size = look.px(RING);
        double x = (getWidth() - size) / 2.0;
        double y = look.px(4);
        Ellipse2D ring = new Ellipse2D.Double(x, y, size, size);
        boolean taken = connected != null;
        Color accent = Look.color(look.palette().accent());
        g.setColor(taken ? accent : Look.color(look.palette().lane()));
        g.fill(ring);
        boolean lively = isEnabled() && !taken;
        g.setColor(taken || lively ? accent : Look.color(look.palette().contactOpen()));
        g.setStroke(new BasicStroke(look.px(getModel().isRollover() ? 4 : lively ? 3 : 2)));
        g.draw(ring);
        if (taken) {
            tick(g, x, y, size);
        }
        if (isFocusOwner()) {
            g.setColor(accent);
            g.setStroke(new BasicStroke(look.px(2)));
            double m = look.px(4);
            g.draw(new Ellipse2D.Double(x - m, y - m, size + 2 * m, size + 2 * m));
        }
        label(g, (int) (y + size));
        g.dispose();
    }

    private void tick(Graphics2D g, double x, double y, double s) {
        Path2D tick = new Path2D.Double();
        tick.moveTo(x + s * 0.28, y + s * 0.52);
        tick.lineTo(x + s * 0.44, y + s * 0.68);
        tick.lineTo(x + s * 0.72, y + s * 0.34);
        g.setColor(Look.color(look.palette().onAccent()));
        g.setStroke(new BasicStroke(look.px(3), BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.draw(tick);
    }

    private void label(Graphics2D g, int top) {
        g.setFont(connected == null ? look.font(12) : look.bold(12));
        g.setColor(Look.color(look.palette().ink()));
        FontMetrics metrics = g.getFontMetrics();
        String text = Words.get("tap.short." + tap.role());
        int cut = metrics.stringWidth(text) <= getWidth() ? -1 : text.indexOf(' ');
        int y = top + metrics.getAscent() + look.px(2);
        if (cut < 0) {
            centred(g, metrics, text, y);
        } else {
            centred(g, metrics, text.substring(0, cut), y);
            centred(g, metrics, text.substring(cut + 1), y + metrics.getAscent());
        }
    }

    private void centred(Graphics2D g, FontMetrics metrics, String text, int baseline) {
        String fitting = Look.fit(metrics, text, getWidth());
        g.drawString(fitting, (getWidth() - metrics.stringWidth(fitting)) / 2, baseline);
    }
}
