package draftwitness.dashboard.view;

import draftwitness.dashboard.Columns;
import draftwitness.dashboard.RecentRecording;
import draftwitness.dashboard.Tone;
import draftwitness.dashboard.ValueRange;
import draftwitness.reading.Unit;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import javax.swing.JButton;

/** A recording made or opened lately, with its worst moment in small. Event dispatch thread. */
final class RecentRow extends JButton {
    private final transient RecentRecording recording;
    private final transient Look look;

    RecentRow(RecentRecording recording, Look look, Runnable pressed) {
        this.recording = recording;
        this.look = look;
        setName("recent." + recording.file().getFileName());
        getAccessibleContext().setAccessibleName(recording.title() + ", " + recording.about());
        setToolTipText(recording.file().toString());
        addActionListener(e -> pressed.run());
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(look.px(280), look.px(72));
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        super.paintComponent(graphics);
        Graphics2D g = Look.smooth((Graphics2D) graphics);
        int pad = look.px(12);
        int picture = look.px(84);
        Columns columns = recording.thumbnail();
        int room = getWidth() - 2 * pad - (columns == null ? 0 : picture + pad);
        g.setColor(look.ink(Tone.NORMAL));
        g.setFont(look.bold(14));
        g.drawString(Look.fit(g.getFontMetrics(), recording.title(), room), pad, look.px(30));
        g.setFont(look.font(12));
        g.setColor(look.ink(Tone.QUIET));
        g.drawString(Look.fit(g.getFontMetrics(), recording.about(), room), pad, look.px(52));
        double[] extremes = columns == null ? null : columns.extremes();
        if (columns != null && extremes != null) {
            Rectangle area = new Rectangle(getWidth() - pad - picture, pad, picture, getHeight() - 2 * pad);
            g.setColor(Look.color(look.palette().ground()));
            g.fill(area);
            ValueRange range = ValueRange.around(Math.min(0, extremes[0]), Math.max(0, extremes[1]), Unit.PASCAL);
            new Traces(look).paint(g, area, columns.grid().span(), columns, range);
        }
        g.dispose();
    }
}
