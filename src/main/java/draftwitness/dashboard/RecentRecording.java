package draftwitness.dashboard;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * A recording made or opened lately.
 *
 * @param file where it is
 * @param title what was recorded
 * @param about when and how long, in words
 * @param thumbnail its worst moment, or null when that is not known
 */
public record RecentRecording(
        Path file, String title, String about, @Nullable Columns thumbnail) {}
