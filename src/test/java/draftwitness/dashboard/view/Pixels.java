package draftwitness.dashboard.view;

import java.awt.Rectangle;
import java.awt.image.BufferedImage;

/** Looks at pictures in tests. */
final class Pixels {
    private Pixels() {}

    /** How many pixels of an area have exactly a colour. */
    static int count(BufferedImage image, Rectangle area, int rgb) {
        int n = 0;
        Rectangle inside = area.intersection(new Rectangle(0, 0, image.getWidth(), image.getHeight()));
        for (int y = inside.y; y < inside.y + inside.height; y++) {
            for (int x = inside.x; x < inside.x + inside.width; x++) {
                n += (image.getRGB(x, y) & 0xFFFFFF) == rgb ? 1 : 0;
            }
        }
        return n;
    }

    static Rectangle all(BufferedImage image) {
        return new Rectangle(0, 0, image.getWidth(), image.getHeight());
    }
}
