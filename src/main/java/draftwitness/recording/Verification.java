package draftwitness.recording;

import java.nio.file.Path;
import java.util.List;

/**
 * What a check of a recording found.
 *
 * @param file the file
 * @param finished whether it was closed in good order; false while recording goes on, and after a crash
 * @param rows rows with readings that are good
 * @param readings readings in them: what can be recovered
 * @param firstNanos session time of the first good row's beginning; 0 without rows
 * @param endNanos session time of the last good row's end; 0 without rows
 * @param damages everything that is wrong, in order of rows; empty when all is well
 */
public record Verification(
        Path file, boolean finished, long rows, long readings, long firstNanos, long endNanos, List<Damage> damages) {
    public Verification {
        damages = List.copyOf(damages);
    }

    /** True when nothing is wrong. An unfinished recording can be intact. */
    public boolean intact() {
        return damages.isEmpty();
    }
}
