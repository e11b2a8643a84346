package draftwitness.dashboard.view;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.EpisodeMark;
import draftwitness.dashboard.TimeSpan;
import java.awt.Cursor;
import java.awt.Rectangle;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;
import javax.swing.JComponent;

/**
 * What pointer and keys do over the strips. Moving shows the readings under the pointer; dragging moves the part shown;
 * with shift, or while measuring is on, it measures; with control it zooms to what was dragged over; the wheel zooms at
 * the pointer; a press without dragging puts the playhead of a recording there. Event dispatch thread.
 */
final class LanesHand extends MouseAdapter {
    private static final double WHEEL_FACTOR = 1.2;

    /** A pointer that moved less than this was pressed, not dragged. */
    private static final int STILL = 4;

    private enum Drag {
        NONE,
        MOVE,
        MEASURE,
        ZOOM
    }

    private final LanesView view;
    private final DashboardModel model;
    private Drag drag = Drag.NONE;
    private int pressedX;
    private int lastX;
    private boolean moved;
    private long anchorNanos;

    LanesHand(LanesView view, DashboardModel model) {
        this.view = view;
        this.model = model;
    }

    @Override
    public void mouseMoved(MouseEvent e) {
        Rectangle axis = view.layoutNow().timeAxis();
        boolean inside = e.getX() >= axis.x && e.getX() < axis.x + axis.width;
        model.point(inside ? (Long) view.timeAt(e.getX()) : null);
    }

    @Override
    public void mouseExited(MouseEvent e) {
        if (drag == Drag.NONE) {
            model.point(null);
        }
    }

    @Override
    public void mousePressed(MouseEvent e) {
        view.requestFocusInWindow();
        pressedX = e.getX();
        lastX = pressedX;
        moved = false;
        anchorNanos = view.timeAt(pressedX);
        if (model.isMeasuring() || e.isShiftDown()) {
            drag = Drag.MEASURE;
        } else {
            drag = e.isControlDown() ? Drag.ZOOM : Drag.MOVE;
        }
    }

    @Override
    public void mouseDragged(MouseEvent e) {
        moved |= Math.abs(e.getX() - pressedX) >= STILL;
        if (!moved) {
            return;
        }
        if (drag == Drag.MOVE) {
            view.setCursor(Cursor.getPredefinedCursor(Cursor.MOVE_CURSOR));
            model.pan((lastX - e.getX()) / (double) Math.max(1, view.layoutNow().plotWidth()));
        } else if (drag != Drag.NONE) {
            model.measure(anchorNanos, view.timeAt(e.getX()));
        }
        lastX = e.getX();
    }

    @Override
    public void mouseReleased(MouseEvent e) {
        view.setCursor(Cursor.getDefaultCursor());
        TimeSpan measured = model.pointing().measured();
        if (drag == Drag.ZOOM && moved && measured != null) {
            model.clearMeasure();
            model.showPart(measured);
        } else if (drag == Drag.MOVE && !moved) {
            EpisodeMark mark = view.episodeAt(e.getPoint());
            if (mark != null && mark.calls()) {
                model.showEpisode(mark);
            } else {
                model.playheadAt(anchorNanos);
            }
        }
        drag = Drag.NONE;
    }

    @Override
    public void mouseWheelMoved(MouseWheelEvent e) {
        model.zoom(Math.pow(WHEEL_FACTOR, e.getPreciseWheelRotation()), view.timeAt(e.getX()));
    }

    /** The cursor by keys, while the strips have the focus. */
    static void bindKeys(JComponent view, DashboardModel model) {
        bind(view, "LEFT", () -> model.moveCursor(-5));
        bind(view, "RIGHT", () -> model.moveCursor(5));
        bind(view, "shift LEFT", () -> model.moveCursor(-1));
        bind(view, "shift RIGHT", () -> model.moveCursor(1));
        bind(view, "M", model::mark);
        bind(view, "SPACE", model::togglePlay);
        bind(view, "HOME", () -> model.goToEnd(false));
        bind(view, "END", () -> model.goToEnd(true));
        bind(view, "PAGE_UP", () -> model.pan(-0.75));
        bind(view, "PAGE_DOWN", () -> model.pan(0.75));
    }

    private static void bind(JComponent view, String stroke, Runnable action) {
        Bars.key(view, JComponent.WHEN_FOCUSED, stroke, action);
    }
}
