package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.Words;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;

/** The lanes as a picture, painted by the window's own painters; needs no display. Any one thread. */
public final class ChartPicture {
    private final Theme theme;
    private final double scale;

    /**
     * Pictures in a theme.
     *
     * @param scale size of text and lines, 1 for screens of 96 dots an inch
     */
    public ChartPicture(Theme theme, double scale) {
        this.theme = theme;
        this.scale = scale;
    }

    /** Pixel columns of a strip in a picture of that width; what to ask a frame for. */
    public int stripColumns(int width) {
        Look look = look();
        Rectangle area = area(width, look.px(400), look);
        return LanesLayout.withAxis(List.of(), area, look).plotWidth();
    }

    /**
     * Paints a frame.
     *
     * @param title written above the lanes
     * @param width in pixels, at least 600
     * @param height in pixels; enlarged when the lanes need more
     */
    public BufferedImage render(String title, ChartFrame frame, int width, int height) {
        if (width < 600) {
            throw new IllegalArgumentException("a picture " + width + " pixels wide is too narrow to read");
        }
        Look look = look();
        int least = LanesLayout.leastHeight(frame.lanes(), look) + look.px(50) + LanesLayout.axisHeight(look);
        BufferedImage image = new BufferedImage(width, Math.max(height, least), BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.setColor(Look.color(look.palette().ground()));
        g.fillRect(0, 0, image.getWidth(), image.getHeight());
        title(g, title, look);
        LanesLayout layout = LanesLayout.withAxis(frame.lanes(), area(width, image.getHeight(), look), look);
        LanesPainter painter = new LanesPainter(look);
        painter.paint(g, layout, frame);
        painter.timeAxis(g, layout.timeAxis(), frame);
        HeaderPainter headers = new HeaderPainter(look);
        for (int i = 0; i < frame.lanes().size(); i++) {
            headers.paint(g, layout.places().get(i).header(), frame.lanes().get(i));
        }
        g.dispose();
        return image;
    }

    /**
     * Paints a frame into a PNG file.
     *
     * @throws IOException if it cannot be written
     */
    public void write(String title, ChartFrame frame, int width, int height, Path file) throws IOException {
        if (!ImageIO.write(render(title, frame, width, height), "png", file.toFile())) {
            throw new IOException(Words.get("error.picture", file.toString()));
        }
    }

    private Look look() {
        return new Look(theme.palette(), Font.SANS_SERIF, scale);
    }

    private static Rectangle area(int width, int height, Look look) {
        int side = look.px(10);
        int top = look.px(44);
        return new Rectangle(side, top, width - 2 * side, height - top - look.px(6));
    }

    private static void title(Graphics2D graphics, String title, Look look) {
        Graphics2D g = Look.smooth(graphics);
        g.setFont(look.bold(18));
        g.setColor(Look.color(look.palette().ink()));
        g.drawString(title, look.px(24), look.px(29));
        g.dispose();
    }
}
