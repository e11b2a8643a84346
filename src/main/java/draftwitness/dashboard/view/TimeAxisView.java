package draftwitness.dashboard.view;

import draftwitness.dashboard.Words;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.Rectangle;
import javax.accessibility.AccessibleRole;
import javax.swing.SwingUtilities;

/** The time axis under all lanes; stays in place when lanes are scrolled. Event dispatch thread. */
final class TimeAxisView extends Painted {
    private final transient LanesView lanes;

    TimeAxisView(LanesView lanes) {
        super(AccessibleRole.PANEL);
        this.lanes = lanes;
        setName("time-axis");
        getAccessibleContext().setAccessibleName(Words.get("time-axis.name"));
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(100, LanesLayout.axisHeight(lanes.look()));
    }

    @Override
    protected void paintComponent(Graphics g) {
        if (!lanes.frame().lanes().isEmpty()) {
            Rectangle axis = lanes.layoutNow().timeAxis();
            Point left = SwingUtilities.convertPoint(lanes, axis.x, 0, this);
            Rectangle area = new Rectangle(left.x, 0, axis.width, getHeight());
            new LanesPainter(lanes.look()).timeAxis((Graphics2D) g, area, lanes.frame());
            new ProbePainter(lanes.look()).time((Graphics2D) g, area, lanes.frame());
        }
    }
}
