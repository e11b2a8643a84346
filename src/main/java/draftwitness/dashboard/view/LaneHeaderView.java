package draftwitness.dashboard.view;

import draftwitness.dashboard.LaneFrame;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import javax.accessibility.AccessibleRole;

/** The figures beside a strip; speaks them to screen readers. Event dispatch thread. */
final class LaneHeaderView extends Painted {
    private transient LaneFrame lane;
    private transient Look look;

    LaneHeaderView(LaneFrame lane, Look look) {
        super(AccessibleRole.LABEL);
        this.lane = lane;
        this.look = look;
        setName("lane." + lane.header().tap().role());
        show(lane, look);
    }

    /** Shows a new moment of the same tap. */
    void show(LaneFrame newLane, Look newLook) {
        boolean same = lane.header().equals(newLane.header()) && look.equals(newLook);
        lane = newLane;
        look = newLook;
        if (!same || getAccessibleContext().getAccessibleName() == null) {
            getAccessibleContext().setAccessibleName(lane.header().spoken());
            setToolTipText(lane.header().spoken());
            repaint();
        }
    }

    LaneFrame lane() {
        return lane;
    }

    @Override
    protected void paintComponent(Graphics g) {
        new HeaderPainter(look).paint((Graphics2D) g, new Rectangle(0, 0, getWidth(), getHeight()), lane);
    }
}
