package draftwitness.recording;

import java.util.ArrayList;
import java.util.List;

/**
 * Some successive cells with the readings of all channels: what one row of the file holds. Runs are ordered by channel,
 * then time. One owner thread.
 */
final class Stretch {
    final long firstCell;
    int cells;
    final List<Run> runs;
    /** Number of the first event that travelled in it, or would have, and how many did. */
    long firstEvent;

    int events;
    /** Readings that it had before it was thinned; 0 if it was not. */
    long thinned;

    Stretch(long firstCell, int cells, List<Run> runs) {
        this.firstCell = firstCell;
        this.cells = cells;
        this.runs = runs;
    }

    long endCell() {
        return firstCell + cells;
    }

    int readings() {
        int readings = 0;
        for (Run run : runs) {
            readings += run.size;
        }
        return readings;
    }

    long maxLate() {
        long max = 0;
        for (Run run : runs) {
            max = Math.max(max, run.maxLate());
        }
        return max;
    }

    /** Joins successive stretches into one, runs of the same step joined too. */
    static Stretch join(List<Stretch> parts, int channels) {
        if (parts.size() == 1) {
            return parts.get(0);
        }
        int cells = 0;
        List<Run> runs = new ArrayList<>();
        for (Stretch part : parts) {
            cells += part.cells;
        }
        for (int channel = 0; channel < channels; channel++) {
            Run open = null;
            for (Stretch part : parts) {
                for (Run run : part.runs) {
                    if (run.channel != channel) {
                        continue;
                    }
                    boolean hasArrivals = run.arrivals != null;
                    if (open == null || !open.continuedBy(run.step, hasArrivals)) {
                        open = new Run(channel, run.step, run.size * parts.size());
                        open = hasArrivals ? open.withArrivals() : open;
                        runs.add(open);
                    }
                    open.addAll(run);
                }
            }
        }
        Stretch all = new Stretch(parts.get(0).firstCell, cells, runs);
        all.firstEvent = parts.get(0).firstEvent;
        for (Stretch part : parts) {
            all.events += part.events;
        }
        return all;
    }
}
