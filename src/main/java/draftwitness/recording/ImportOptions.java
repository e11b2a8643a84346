package draftwitness.recording;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What a table does not tell.
 *
 * @param start wall-clock instant of second 0, or null when unknown or given by the table's own instants
 * @param title what the session is called; may be empty
 * @param setupToml the setup file's text; may be empty
 */
public record ImportOptions(@Nullable Instant start, String title, String setupToml) {
    /** Nothing is known. */
    public static final ImportOptions NONE = new ImportOptions(null, "", "");
}
