package draftwitness.dashboard.view;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Image;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.RoundRectangle2D;
import java.awt.image.BufferedImage;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The program's icon: a draft that falls to its set point line, sloshes below it, and is caught. Painted, so that it is
 * sharp at every size; the packaged program has it as a picture. Any one thread.
 */
final class AppIcon {
    private static final Color TILE = new Color(0x12303F);
    private static final Color TRACE = new Color(0xF3F6F7);
    private static final Color LINE = new Color(0xE6B45A);

    private AppIcon() {}

    /** The icon in the sizes that windows and task bars ask for. */
    static List<Image> images() {
        return IntStream.of(16, 24, 32, 48, 64, 128, 256)
                .<Image>mapToObj(AppIcon::image)
                .toList();
    }

    /**
     * The icon.
     *
     * @param size width and height in pixels
     */
    static BufferedImage image(int size) {
        BufferedImage image = new BufferedImage(size, size, BufferedImage.TYPE_INT_ARGB);
        Graphics2D g = Look.smooth(image.createGraphics());
        g.scale(size / 64.0, size / 64.0); // drawn on a field of 64 x 64
        g.setColor(TILE);
        g.fill(new RoundRectangle2D.Double(2, 2, 60, 60, 16, 16));
        g.setColor(LINE);
        g.setStroke(new BasicStroke(3f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 1f, new float[] {8, 4}, 0f));
        Path2D setPoint = new Path2D.Double();
        setPoint.moveTo(8, 40);
        setPoint.lineTo(56, 40);
        g.draw(setPoint);
        g.setColor(TRACE);
        g.setStroke(new BasicStroke(4.5f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.draw(draft());
        g.setColor(LINE);
        g.fill(new Ellipse2D.Double(34.5, 42.5, 9, 9));
        g.dispose();
        return image;
    }

    private static Path2D draft() {
        Path2D draft = new Path2D.Double();
        draft.moveTo(9, 16);
        draft.lineTo(17, 16);
        draft.curveTo(23, 16, 22, 33, 27, 33);
        draft.curveTo(32, 33, 33, 47, 39, 47);
        draft.curveTo(45, 47, 46, 26, 55, 26);
        return draft;
    }
}
