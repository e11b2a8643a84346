package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.CycleMark;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Figures;
import draftwitness.dashboard.LaneFrame;
import draftwitness.dashboard.RibbonParts;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.Words;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import javax.accessibility.AccessibleRole;
import org.jspecify.annotations.Nullable;

/**
 * The whole session in one strip: a row of cycles when they are known, else its readings; with the part shown framed
 * and the playhead to drag. Pressing a cycle fills the strips with it; pressing beside or dragging goes there. Event
 * dispatch thread.
 */
final class OverviewView extends Painted {
    private static final int SIDE = 24;
    private static final int LABELS = 18;

    /** So far beside a mark still means it. */
    private static final int NEAR = 6;

    private transient ChartFrame frame;
    private transient Look look;

    OverviewView(DashboardModel model, ChartFrame empty, Look look) {
        super(AccessibleRole.SLIDER);
        this.frame = empty;
        this.look = look;
        setName("overview");
        setFocusable(true);
        setToolTipText(Words.get("overview.help"));
        getAccessibleContext().setAccessibleName(Words.get("overview.name"));
        getAccessibleContext().setAccessibleDescription(Words.get("overview.help"));
        MouseAdapter scrub = new MouseAdapter() {
            private boolean dragged;

            @Override
            public void mousePressed(MouseEvent e) {
                requestFocusInWindow();
                dragged = false;
                if (cycleAt(e.getX()) == null) {
                    model.goTo(timeAt(e.getX()));
                }
            }

            @Override
            public void mouseDragged(MouseEvent e) {
                dragged = true;
                model.goTo(timeAt(e.getX()));
            }

            @Override
            public void mouseReleased(MouseEvent e) {
                CycleMark mark = cycleAt(e.getX());
                if (!dragged && mark != null) {
                    model.showCycle(mark);
                }
            }
        };
        addMouseListener(scrub);
        addMouseMotionListener(scrub);
    }

    void show(ChartFrame newFrame, Look newLook) {
        boolean same = newFrame.equals(frame) && newLook.equals(look);
        boolean grows = newFrame.happenings().telling() != frame.happenings().telling();
        frame = newFrame;
        look = newLook;
        if (grows) {
            revalidate();
        }
        if (!same) {
            repaint();
        }
    }

    /** Pixel columns of the strip; what to ask a frame for. */
    int columns() {
        return Math.max(1, strip().width);
    }

    /** The cycle under an x position, or the one beside it when a finger cannot be more exact; null when none. */
    @Nullable
    CycleMark cycleAt(int x) {
        CycleMark best = null;
        double least = look.px(NEAR);
        for (CycleMark c : frame.happenings().cycles()) {
            double from = xOf(c.span().fromNanos());
            double to = xOf(c.span().toNanos());
            double off = Math.max(0, Math.max(from - x, x - to));
            if (off < least) {
                best = c;
                least = off;
            }
        }
        return best;
    }

    @Override
    public String getToolTipText(MouseEvent e) {
        CycleMark mark = cycleAt(e.getX());
        return Tips.wrapped((mark == null ? "" : mark.text() + ".\n\n") + Words.get("overview.legend"));
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(look.px(400), look.px((frame.happenings().telling() ? 70 : 44) + LABELS));
    }

    @Override
    public Dimension getMinimumSize() {
        return getPreferredSize();
    }

    private Rectangle strip() {
        int side = look.px(SIDE);
        return new Rectangle(side, look.px(4), Math.max(1, getWidth() - 2 * side), getHeight() - look.px(LABELS + 4));
    }

    /** The session time under an x position, within the session. */
    long timeAt(int x) {
        Rectangle strip = strip();
        double share = Math.max(0, Math.min(1, (x - strip.x) / (double) strip.width));
        return frame.extent().fromNanos() + Math.round(share * frame.extent().lengthNanos());
    }

    /** The x position of a session time. */
    double xOf(long nanos) {
        Rectangle strip = strip();
        double share = (nanos - frame.extent().fromNanos())
                / (double) Math.max(1, frame.extent().lengthNanos());
        return strip.x + share * strip.width;
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        Rectangle strip = strip();
        g.setColor(Look.color(look.palette().lane()));
        g.fill(strip);
        LaneFrame lane = frame.overview();
        if (lane != null) {
            if (!frame.happenings().cycles().isEmpty()) {
                new CycleRowPainter(look).paint(g, strip, frame.happenings().cycles(), this::xOf);
            } else if (lane.ribbon()) {
                new RibbonPainter(look)
                        .paint(
                                g,
                                strip,
                                frame.extent(),
                                lane.header().tap(),
                                RibbonParts.of(lane.columns(), lane.holdUntilNanos()));
            } else {
                Rectangle inside =
                        new Rectangle(strip.x, strip.y + look.px(5), strip.width, strip.height - look.px(10));
                new Traces(look).paint(g, inside, frame.extent(), lane);
            }
            window(g, strip);
            ends(g, strip);
            head(g, strip);
        }
        if (isFocusOwner()) {
            g.setColor(Look.color(look.palette().accent()));
            g.setStroke(look.stroke(2));
            g.drawRect(1, 1, getWidth() - 3, getHeight() - 3);
        }
        g.dispose();
    }

    /** Dims what the strips do not show, and frames what they do. */
    private void window(Graphics2D graphics, Rectangle strip) {
        TimeSpan shown = frame.window();
        double from = Math.max(strip.x, xOf(shown.fromNanos()));
        double to = Math.min(strip.x + strip.width, xOf(shown.toNanos()));
        if (to < strip.x || from > strip.x + strip.width) {
            return;
        }
        Graphics2D g = Look.smooth(graphics);
        Color ground = Look.color(look.palette().ground());
        boolean cycles = !frame.happenings().cycles().isEmpty(); // marks stay plain; the frame says enough
        g.setColor(new Color(ground.getRed(), ground.getGreen(), ground.getBlue(), cycles ? 0 : 150));
        g.fill(new Rectangle2D.Double(strip.x, strip.y, from - strip.x, strip.height));
        g.fill(new Rectangle2D.Double(to, strip.y, strip.x + strip.width - to, strip.height));
        g.setColor(Look.color(look.palette().accent()));
        g.setStroke(look.stroke(2));
        g.draw(new Rectangle2D.Double(from, strip.y, Math.max(look.px(4), to - from), strip.height - 1));
        g.dispose();
    }

    private void ends(Graphics2D graphics, Rectangle strip) {
        Graphics2D g = Look.smooth(graphics);
        g.setFont(look.font(12));
        g.setColor(Look.color(look.palette().quietInk()));
        FontMetrics metrics = g.getFontMetrics();
        int baseline = strip.y + strip.height + metrics.getAscent() + look.px(2);
        g.drawString(time(frame.extent().fromNanos()), strip.x, baseline);
        String end = time(frame.extent().toNanos());
        g.drawString(end, strip.x + strip.width - metrics.stringWidth(end), baseline);
        g.dispose();
    }

    /** The playhead with a handle below, or the newest moment of a live session. */
    private void head(Graphics2D graphics, Rectangle strip) {
        Graphics2D g = Look.smooth(graphics);
        double x = xOf(frame.headNanos());
        g.setColor(Look.color(look.palette().playhead()));
        g.setStroke(look.stroke(2));
        g.draw(new Line2D.Double(x, strip.y, x, strip.y + strip.height));
        if (!frame.live()) {
            double s = look.px(9);
            Path2D handle = new Path2D.Double();
            handle.moveTo(x, strip.y + strip.height);
            handle.lineTo(x + s, strip.y + strip.height + 1.4 * s);
            handle.lineTo(x - s, strip.y + strip.height + 1.4 * s);
            handle.closePath();
            g.fill(handle);
        }
        g.dispose();
    }

    private String time(long nanos) {
        return Figures.timeOfDay(
                frame.start(), frame.start() == null ? nanos - frame.extent().fromNanos() : nanos, frame.zone());
    }
}
