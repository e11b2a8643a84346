package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.EpisodeMark;
import draftwitness.dashboard.LaneFrame;
import draftwitness.dashboard.Words;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.event.MouseEvent;
import java.util.ArrayList;
import java.util.List;
import javax.accessibility.AccessibleRole;
import javax.swing.Scrollable;
import org.jspecify.annotations.Nullable;

/**
 * All lanes: figures and strips. Shows the frame given last; what hands do to it is in {@link LanesHand}. Event
 * dispatch thread.
 */
final class LanesView extends Painted implements Scrollable {
    private final transient List<LaneHeaderView> headers = new ArrayList<>();
    private transient ChartFrame frame;
    private transient Look look;

    LanesView(DashboardModel model, ChartFrame empty, Look look) {
        super(AccessibleRole.PANEL);
        this.frame = empty;
        this.look = look;
        setName("lanes");
        setFocusable(true);
        getAccessibleContext().setAccessibleName(Words.get("lanes.name"));
        getAccessibleContext().setAccessibleDescription(Words.get("lanes.help"));
        setToolTipText("");
        LanesHand hand = new LanesHand(this, model);
        addMouseListener(hand);
        addMouseMotionListener(hand);
        addMouseWheelListener(hand);
        LanesHand.bindKeys(this, model);
    }

    /** Pixel columns of a strip on the screen this is on; what to ask a frame for. */
    int stripColumns() {
        double device = getGraphicsConfiguration() == null
                ? 1
                : getGraphicsConfiguration().getDefaultTransform().getScaleX();
        return (int) Math.max(1, Math.round(layoutNow().plotWidth() * device));
    }

    /** Shows a frame; false when it was shown already and there is nothing to paint. */
    boolean show(ChartFrame newFrame, Look newLook) {
        if (newFrame.equals(frame) && newLook.equals(look)) {
            return false; // a paused recording
        }
        boolean sameTaps = taps(newFrame).equals(taps(frame));
        frame = newFrame;
        look = newLook;
        if (!sameTaps) {
            removeAll();
            headers.clear();
            for (LaneFrame lane : frame.lanes()) {
                LaneHeaderView header = new LaneHeaderView(lane, look);
                headers.add(header);
                add(header);
            }
            revalidate();
        }
        for (int i = 0; i < headers.size(); i++) {
            headers.get(i).show(frame.lanes().get(i), look);
        }
        placeHeaders();
        repaint();
        return true;
    }

    private static List<?> taps(ChartFrame frame) {
        return frame.lanes().stream().map(LaneFrame::channel).toList();
    }

    Look look() {
        return look;
    }

    ChartFrame frame() {
        return frame;
    }

    LanesLayout layoutNow() {
        return new LanesLayout(frame.lanes(), new Rectangle(0, 0, getWidth(), getHeight()), look);
    }

    @Override
    public void doLayout() {
        placeHeaders();
    }

    private void placeHeaders() {
        LanesLayout layout = layoutNow();
        for (int i = 0; i < headers.size(); i++) {
            headers.get(i).setBounds(layout.places().get(i).header());
        }
    }

    @Override
    protected void paintComponent(Graphics g) {
        g.setColor(Look.color(look.palette().ground()));
        g.fillRect(0, 0, getWidth(), getHeight());
        if (!frame.lanes().isEmpty()) {
            LanesLayout layout = layoutNow();
            new LanesPainter(look).paint((Graphics2D) g, layout, frame);
            new ProbePainter(look).paint((Graphics2D) g, layout, frame);
        }
    }

    /** The episode marked at a point, or null. */
    @Nullable
    EpisodeMark episodeAt(Point point) {
        Graphics2D g = (Graphics2D) getGraphics();
        if (g == null) {
            return null;
        }
        EpisodeMark found = new EpisodePainter(look).at(g, layoutNow(), frame, point);
        g.dispose();
        return found;
    }

    @Override
    public @Nullable String getToolTipText(MouseEvent e) {
        EpisodeMark mark = episodeAt(e.getPoint());
        return mark == null ? null : Tips.wrapped(mark.word() + ": " + mark.text());
    }

    /** The session time under an x position. */
    long timeAt(int x) {
        Rectangle axis = layoutNow().timeAxis();
        double share = (x - axis.x) / (double) Math.max(1, axis.width);
        return frame.window().fromNanos() + Math.round(share * frame.window().lengthNanos());
    }

    // ---- scrolling: as wide as the window, and as high as the lanes need

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(look.px(900), LanesLayout.leastHeight(frame.lanes(), look));
    }

    @Override
    public Dimension getPreferredScrollableViewportSize() {
        return getPreferredSize();
    }

    @Override
    public int getScrollableUnitIncrement(Rectangle visible, int orientation, int direction) {
        return look.px(30);
    }

    @Override
    public int getScrollableBlockIncrement(Rectangle visible, int orientation, int direction) {
        return visible.height;
    }

    @Override
    public boolean getScrollableTracksViewportWidth() {
        return true;
    }

    @Override
    public boolean getScrollableTracksViewportHeight() {
        return getParent() == null || getParent().getHeight() > getPreferredSize().height;
    }
}
