package draftwitness.dashboard.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;

/** The icon of the window and that of the packaged program are one. */
class AppIconTest {
    private static final Path PACKAGED = Path.of("src/dist/draftwitness.png");

    /** Writes the packaged program's icon anew: {@code AppIconTest} as a program. */
    public static void main(String[] args) throws IOException {
        ImageIO.write(AppIcon.image(256), "png", PACKAGED.toFile());
    }

    @Test
    void givenThePackagedProgramsIcon_whenComparedWithTheWindows_thenItIsTheSame() throws IOException {
        BufferedImage packaged = ImageIO.read(PACKAGED.toFile());
        BufferedImage painted = AppIcon.image(256);
        assertThat(packaged.getWidth()).isEqualTo(256);
        int different = 0;
        for (int y = 0; y < 256; y++) {
            for (int x = 0; x < 256; x++) {
                Color a = new Color(packaged.getRGB(x, y), true);
                Color b = new Color(painted.getRGB(x, y), true);
                different += Math.abs(a.getRed() - b.getRed()) + Math.abs(a.getAlpha() - b.getAlpha()) > 60 ? 1 : 0;
            }
        }
        assertThat(different).isLessThan(256); // smoothing at edges may differ from one Java to the next
    }

    @Test
    void givenTheIcon_whenAsSmallAsInATaskBar_thenLineAndTraceAreStillThere() {
        BufferedImage small = AppIcon.image(16);
        int bright = 0;
        for (int x = 0; x < 16; x++) {
            for (int y = 0; y < 16; y++) {
                Color c = new Color(small.getRGB(x, y), true);
                bright += c.getAlpha() > 200 && c.getRed() > 180 ? 1 : 0;
            }
        }
        assertThat(bright).isGreaterThan(10);
    }
}
