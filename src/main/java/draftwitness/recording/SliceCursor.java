package draftwitness.recording;

import draftwitness.reading.Block;
import draftwitness.reading.Slice;
import draftwitness.recording.RecordingException.Kind;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Gives the slices of a recording in order, just as they were recorded, empty ones included. While recording goes on,
 * it can be asked again for what was added meanwhile. Memory stays bounded by a few rows of the file. One owner thread.
 */
public final class SliceCursor {
    private final FileAccess access;
    private final StretchCursor stretches;
    private final long timeStepNanos;
    private final Slicer slicer;
    private final long endCell;
    private final Deque<EventLog.Entry> dueEvents = new ArrayDeque<>();
    private @Nullable Stretch stretch;
    private long[][] cells = new long[0][];
    private int[] position = new int[0];

    SliceCursor(FileAccess access, Header header, long firstCell, long endCell) {
        this.access = access;
        this.timeStepNanos = header.session().timeStepNanos();
        int channels = header.session().channels().size();
        this.stretches = new StretchCursor(access, StretchCodec.whole(timeStepNanos, channels), -1, firstCell, endCell);
        this.slicer = new Slicer(header.session().channels(), firstCell);
        this.endCell = endCell;
    }

    /**
     * The next slice, or null when there is none, or none yet.
     *
     * @throws RecordingException if the file cannot be read, is damaged here, or a part is missing
     */
    public @Nullable Slice next() throws RecordingException {
        if (slicer.openCell() >= endCell) {
            return null;
        }
        Stretch current = stretch;
        if (current == null || slicer.openCell() >= current.endCell()) {
            current = load();
            if (current == null) {
                return null;
            }
        }
        long cell = slicer.openCell();
        try {
            fill(current, cell);
            for (EventLog.Entry e = dueEvents.peek(); e != null && e.cell() <= cell; e = dueEvents.peek()) {
                slicer.add(dueEvents.remove().event());
            }
            return slicer.next();
        } catch (IllegalArgumentException e) {
            throw new RecordingException(
                    Kind.DAMAGED,
                    access.file(),
                    "makes no sense at cell " + cell + " (" + e.getMessage()
                            + "); 'verify' tells what can be recovered",
                    e);
        }
    }

    private @Nullable Stretch load() throws RecordingException {
        Stretch next = stretches.next();
        if (next == null) {
            return null;
        }
        long cell = slicer.openCell();
        if (next.firstCell > cell) {
            throw new RecordingException(
                    Kind.DAMAGED,
                    access.file(),
                    "a part is missing before " + next.firstCell * (Slice.CELL_NANOS / 1e9)
                            + " s; 'verify' tells what can be recovered");
        }
        stretch = next;
        List<Run> runs = next.runs;
        cells = new long[runs.size()][];
        position = new int[runs.size()];
        for (int r = 0; r < cells.length; r++) {
            cells[r] = runs.get(r).cells(timeStepNanos);
            while (position[r] < runs.get(r).size && cells[r][position[r]] < cell) {
                position[r]++;
            }
        }
        for (EventLog.Entry entry : EventLog.complete(access, next.firstEvent, next.events)) {
            if (entry.cell() >= cell) {
                dueEvents.add(entry);
            }
        }
        return next;
    }

    private void fill(Stretch current, long cell) {
        for (int r = 0; r < cells.length; r++) {
            Run run = current.runs.get(r);
            int p = position[r];
            while (p < run.size && cells[r][p] <= cell) {
                add(run, p++);
            }
            position[r] = p;
        }
    }

    private void add(Run run, int i) {
        slicer.add(
                run.channel,
                run.step,
                run.times[i] * timeStepNanos,
                run.counts[i],
                run.arrivals == null ? Slicer.NO_ARRIVAL : run.arrivals[i] * timeStepNanos,
                run.counters == null ? Block.NO_COUNTER : run.counters[i]);
    }
}
