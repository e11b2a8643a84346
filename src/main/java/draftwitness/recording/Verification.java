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
 * @param thinned spans whose readings were thinned away by the recording's policy, oldest first: only their overview is
 *     left
 * @param lost spans that were lost in damage before the file was repaired, oldest first
 * @param firstNanos session time of the first good row's beginning; 0 without rows
 * @param endNanos session time of the last good row's end; 0 without rows
 * @param evidence SHA-256 over header, rows and events as they stand, 64 hexadecimal digits: notes do not change it,
 *     anything else does
 * @param damages everything that is wrong, in order of rows; empty when all is well
 */
public record Verification(
        Path file,
        boolean finished,
        long rows,
        long readings,
        List<Thinned> thinned,
        List<Thinned> lost,
        long firstNanos,
        long endNanos,
        String evidence,
        List<Damage> damages) {
    public Verification {
        thinned = List.copyOf(thinned);
        lost = List.copyOf(lost);
        damages = List.copyOf(damages);
    }

    /** True when nothing is wrong. An unfinished recording can be intact. */
    public boolean intact() {
        return damages.isEmpty();
    }
}
