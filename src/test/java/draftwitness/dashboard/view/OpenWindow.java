package draftwitness.dashboard.view;

import draftwitness.dashboard.FurnaceFeed;
import draftwitness.dashboard.Settings;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;

/** Tests in a real window of the size of a small laptop's screen, opened before each and closed after it. */
abstract class OpenWindow {
    Bench bench;

    @BeforeEach
    final void openWindow() {
        Bench.needDisplay();
        bench = new Bench(Settings.defaults(), FurnaceFeed.usual());
        bench.size(1366, 768);
    }

    @AfterEach
    final void closeWindow() {
        if (bench != null) {
            bench.close();
        }
    }
}
