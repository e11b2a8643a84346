package draftwitness.dashboard.view;

import draftwitness.dashboard.SequenceLine;
import draftwitness.dashboard.Tone;
import draftwitness.dashboard.Words;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import javax.accessibility.AccessibleRole;

/**
 * The phase in letters that can be read across the room, how long it has lasted, and beside it which attempt and what
 * comes next. Event dispatch thread.
 */
final class SequenceView extends Painted {
    private static final double LARGEST = 46;
    private static final double NEXT = 18;
    private static final int HEIGHT = 58;

    /** Share of the width that phase and time may take. */
    private static final double PHASE_SHARE = 0.6;

    private final transient Look look;
    private transient SequenceLine line = SequenceLine.NONE;

    SequenceView(Look look) {
        super(AccessibleRole.LABEL);
        this.look = look;
        setName("sequence");
        show(SequenceLine.NONE);
    }

    void show(SequenceLine next) {
        if (!next.equals(line) || getAccessibleContext().getAccessibleName() == null) {
            line = next;
            String spoken = next.phase().isEmpty() ? Words.get("sequence.none") : next.spoken();
            getAccessibleContext().setAccessibleName(spoken);
            setToolTipText(next.why().isEmpty() ? spoken : spoken + ". " + next.why());
            repaint();
        }
    }

    SequenceLine line() {
        return line;
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(look.px(400), look.px(HEIGHT));
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = Look.smooth((Graphics2D) graphics);
        if (line.phase().isEmpty()) {
            g.setFont(look.font(NEXT));
            g.setColor(look.ink(Tone.QUIET));
            g.drawString(Words.get("sequence.none"), 0, getHeight() / 2 + look.px(6));
        } else {
            int x = phase(g);
            beside(g, x + look.px(24));
        }
        g.dispose();
    }

    private int phase(Graphics2D g) {
        int x = Glyphs.width(line.tone(), look.px(30));
        Glyphs.paint(g, line.tone(), 0, (getHeight() - look.px(30)) / 2, look.px(30));
        String gap = line.lasted().isEmpty() ? "" : "  ";
        String text = line.phase() + gap + line.lasted();
        Font bold = look.boldFitting(g, text, LARGEST, (int) (getWidth() * PHASE_SHARE) - x);
        g.setFont(bold);
        FontMetrics metrics = g.getFontMetrics();
        int base = (getHeight() + metrics.getAscent() - metrics.getDescent()) / 2;
        g.setColor(look.ink(line.tone()));
        g.drawString(line.phase(), x, base);
        x += metrics.stringWidth(line.phase() + gap);
        g.setFont(bold.deriveFont(Font.PLAIN));
        g.setColor(look.ink(Tone.NORMAL));
        g.drawString(line.lasted(), x, base);
        return x + g.getFontMetrics().stringWidth(line.lasted());
    }

    private void beside(Graphics2D g, int x) {
        boolean two = !line.attempt().isEmpty();
        int middle = getHeight() / 2;
        int width = getWidth() - x;
        int first = two ? middle - look.px(5) : middle + look.px(6);
        boolean calls = line.nextTone() == Tone.ATTENTION || line.nextTone() == Tone.DANGER;
        int mark = Glyphs.width(line.nextTone(), look.px(16));
        Glyphs.paint(g, line.nextTone(), x, first - look.px(15), look.px(16));
        g.setFont(calls ? look.bold(NEXT) : look.font(NEXT));
        g.setColor(look.ink(line.nextTone()));
        g.drawString(Look.fit(g.getFontMetrics(), line.next(), width - mark), x + mark, first);
        if (two) {
            g.setFont(look.font(16));
            g.setColor(look.ink(Tone.QUIET));
            g.drawString(Look.fit(g.getFontMetrics(), line.attempt(), width), x, middle + look.px(19));
        }
    }
}
