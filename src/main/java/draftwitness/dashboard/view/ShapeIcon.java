package draftwitness.dashboard.view;

import draftwitness.dashboard.Tone;
import java.awt.Color;
import java.awt.Component;
import java.awt.Graphics;
import java.awt.Graphics2D;
import javax.swing.Icon;

/**
 * A plain drawn icon. Event dispatch thread.
 *
 * @param shape what is drawn
 * @param size width and height in pixels
 * @param rgb its colour; paler when the component is disabled
 */
record ShapeIcon(Shape shape, int size, int rgb) implements Icon {

    /** What is drawn. */
    enum Shape {
        NONE,
        RECORD,
        STOP,
        ATTENTION,
        DANGER
    }

    @Override
    public void paintIcon(Component c, Graphics graphics, int x, int y) {
        Graphics2D g = Look.smooth((Graphics2D) graphics);
        Color color = Look.color(rgb);
        g.setColor(c.isEnabled() ? color : new Color(color.getRed(), color.getGreen(), color.getBlue(), 90));
        switch (shape) {
            case NONE -> {}
            case RECORD -> g.fillOval(x, y, size, size);
            case STOP -> g.fillRect(x, y, size, size);
            case ATTENTION -> Glyphs.paint(g, Tone.ATTENTION, x, y, size);
            case DANGER -> Glyphs.paint(g, Tone.DANGER, x, y, size);
        }
        g.dispose();
    }

    @Override
    public int getIconWidth() {
        return size;
    }

    @Override
    public int getIconHeight() {
        return size;
    }
}
