package draftwitness.dashboard.view;

import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import javax.accessibility.AccessibleRole;

/** A share as the filled part of a bar; the words beside it say the same. Event dispatch thread. */
final class ShareBar extends Painted {
    private final double share;
    private final transient Look look;

    ShareBar(double share, Look look) {
        super(AccessibleRole.PROGRESS_BAR);
        this.share = share;
        this.look = look;
        getAccessibleContext().setAccessibleName(Math.round(share * 100) + " %");
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(look.px(60), look.px(10));
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics;
        g.setColor(Look.color(look.palette().contactOpen()));
        g.drawRect(0, 0, getWidth() - 1, getHeight() - 1);
        g.setColor(Look.color(look.palette().contactClosed()));
        g.fillRect(0, 0, (int) Math.round(share * getWidth()), getHeight());
    }
}
