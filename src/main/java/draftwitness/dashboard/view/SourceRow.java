package draftwitness.dashboard.view;

import draftwitness.dashboard.FoundSource;
import draftwitness.dashboard.LaneTitles;
import draftwitness.dashboard.Tone;
import draftwitness.dashboard.Words;
import draftwitness.reading.Tap;
import java.awt.Dimension;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import javax.swing.JToggleButton;
import org.jspecify.annotations.Nullable;

/** An instrument in reach, to be taken into the hand. Event dispatch thread. */
final class SourceRow extends JToggleButton {
    private final transient FoundSource source;
    private final transient @Nullable Tap tap;
    private final transient Look look;

    SourceRow(FoundSource source, @Nullable Tap tap, boolean inHand, Look look, Runnable pressed) {
        this.source = source;
        this.tap = tap;
        this.look = look;
        setName("source." + source.spec() + "." + source.reading());
        setSelected(inHand);
        getAccessibleContext().setAccessibleName(source.title() + ", " + source.live() + ", " + where());
        setToolTipText(source.spec());
        addActionListener(e -> pressed.run());
    }

    private String where() {
        if (!source.trouble().isEmpty()) {
            return source.trouble();
        }
        return tap == null ? Words.get("source.free") : LaneTitles.of(tap);
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(look.px(320), look.px(58));
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        super.paintComponent(graphics);
        Graphics2D g = Look.smooth((Graphics2D) graphics);
        int pad = look.px(12);
        boolean bad = !source.trouble().isEmpty();
        g.setColor(isSelected() ? Look.color(look.palette().onAccent()) : look.ink(Tone.NORMAL));
        g.setFont(look.bold(15));
        FontMetrics metrics = g.getFontMetrics();
        int valueWidth = metrics.stringWidth(source.live());
        g.drawString(source.live(), getWidth() - pad - valueWidth, look.px(24));
        g.drawString(Look.fit(metrics, source.title(), getWidth() - 3 * pad - valueWidth), pad, look.px(24));
        g.setFont(look.font(13));
        if (!isSelected()) {
            g.setColor(look.ink(bad ? Tone.ATTENTION : tap == null ? Tone.QUIET : Tone.NORMAL));
        }
        int x = pad;
        if (bad) {
            Glyphs.paint(g, Tone.ATTENTION, x, look.px(33), look.px(13));
            x += Glyphs.width(Tone.ATTENTION, look.px(13));
        }
        g.drawString(Look.fit(g.getFontMetrics(), where(), getWidth() - pad - x), x, look.px(45));
        g.dispose();
    }
}
