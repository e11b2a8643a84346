package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.NoteMark;
import draftwitness.dashboard.Words;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.geom.Path2D;
import java.util.List;
import javax.accessibility.AccessibleRole;
import javax.swing.SwingUtilities;
import javax.swing.ToolTipManager;
import org.jspecify.annotations.Nullable;

/** The time axis under all lanes, with a flag for each note; stays in place when lanes are scrolled. EDT. */
final class TimeAxisView extends Painted {
    private static final int FLAG = 12;

    private final transient LanesView lanes;
    private final transient DashboardModel model;
    private transient List<NoteMark> shown = List.of();

    TimeAxisView(LanesView lanes, DashboardModel model) {
        super(AccessibleRole.PANEL);
        this.lanes = lanes;
        this.model = model;
        setName("time-axis");
        getAccessibleContext().setAccessibleName(Words.get("time-axis.name"));
        ToolTipManager.sharedInstance().registerComponent(this);
        addMouseListener(new MouseAdapter() {
            @Override
            public void mousePressed(MouseEvent e) {
                NoteMark note = noteAt(e.getX());
                if (note != null) {
                    model.notes().choose(note);
                    model.goTo(note.fromNanos());
                }
            }
        });
    }

    /** Paints anew when notes were added or taken away. */
    void showNotes() {
        List<NoteMark> now = model.notes().notes();
        if (!now.equals(shown)) {
            shown = now;
            repaint();
        }
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(100, LanesLayout.axisHeight(lanes.look()));
    }

    private Rectangle area() {
        Rectangle axis = lanes.layoutNow().timeAxis();
        Point left = SwingUtilities.convertPoint(lanes, axis.x, 0, this);
        return new Rectangle(left.x, 0, axis.width, getHeight());
    }

    /** The x position of a note's flag. */
    double xOf(NoteMark note) {
        Rectangle area = area();
        ChartFrame frame = lanes.frame();
        double share = (note.fromNanos() - frame.window().fromNanos())
                / (double) Math.max(1, frame.window().lengthNanos());
        return area.x + share * area.width;
    }

    private @Nullable NoteMark noteAt(int x) {
        NoteMark nearest = null;
        double reach = lanes.look().px(FLAG + 4);
        for (NoteMark note : shown) {
            double away = Math.abs(xOf(note) - x);
            if (away < reach) {
                nearest = note;
                reach = away;
            }
        }
        return nearest;
    }

    @Override
    public @Nullable String getToolTipText(MouseEvent e) {
        NoteMark note = noteAt(e.getX());
        return note == null ? null : Words.get("notes.mark", model.notes().time(note, lanes.frame()), note.text());
    }

    @Override
    protected void paintComponent(Graphics g) {
        if (!lanes.frame().lanes().isEmpty()) {
            Rectangle area = area();
            new LanesPainter(lanes.look()).timeAxis((Graphics2D) g, area, lanes.frame());
            new ProbePainter(lanes.look()).time((Graphics2D) g, area, lanes.frame());
            flags((Graphics2D) g, area);
        }
    }

    private void flags(Graphics2D graphics, Rectangle area) {
        Graphics2D g = Look.smooth(graphics);
        g.setColor(Look.color(lanes.look().palette().accent()));
        double s = lanes.look().px(FLAG);
        for (NoteMark note : shown) {
            double x = xOf(note);
            if (x >= area.x && x <= area.x + area.width) {
                Path2D flag = new Path2D.Double();
                flag.moveTo(x, 0);
                flag.lineTo(x + s, s * 0.4);
                flag.lineTo(x, s * 0.8);
                flag.closePath();
                g.fill(flag);
                g.setStroke(lanes.look().stroke(2));
                g.drawLine((int) Math.round(x), 0, (int) Math.round(x), (int) Math.round(s * 1.4));
            }
        }
        g.dispose();
    }
}
