package draftwitness.recording;

import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.ZeroOffset;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;

/**
 * A part of a recording as a recording of its own: the same session, the same times and counts, the notes that lie in
 * it. It verifies like any other.
 */
public final class Excerpt {
    private Excerpt() {}

    /**
     * Copies all slices that touch a span.
     *
     * @param fromNanos begin, session time
     * @param toNanos end, session time
     * @param target must not exist; appears whole or not at all
     * @return notes copied
     * @throws RecordingException if the recording cannot be read or the target not be written
     * @throws CancellationException if {@code progress} says so; nothing is left behind
     */
    public static int copy(RecordingFile recording, long fromNanos, long toNanos, Path target, Progress progress)
            throws RecordingException {
        RecordingWriter.checkTarget(target);
        try (AtomicOutput output = AtomicOutput.beside(target)) {
            try (RecordingWriter writer = RecordingWriter.bulk(output.passing(), target, recording.header())) {
                boolean first = true;
                SliceCursor cursor = recording.slices(fromNanos, toNanos);
                for (Slice slice = cursor.next(); slice != null; slice = cursor.next()) {
                    writer.append(first ? withZeros(slice, recording) : slice);
                    first = false;
                    double done = (slice.endNanos() - fromNanos) / (double) Math.max(1, toNanos - fromNanos);
                    if (!progress.goOn(Math.max(0, Math.min(1, done)))) {
                        throw new CancellationException("stopped while copying a part of " + recording.file());
                    }
                }
            }
            int notes = notes(recording.file(), fromNanos, toNanos, output.passing());
            output.finish();
            return notes;
        }
    }

    /** The zeros in force from before come along, at their own times. */
    private static Slice withZeros(Slice slice, RecordingFile recording) throws RecordingException {
        long begin = slice.endNanos() - Slice.CELL_NANOS;
        List<SourceEvent> events = new ArrayList<>(recording.events().stream()
                .filter(e -> e.timeNanos() < begin
                        && ZeroOffset.in(e).isPresent()
                        && !slice.events().contains(e))
                .toList());
        events.addAll(slice.events());
        return new Slice(slice.index(), slice.blocks(), events);
    }

    private static int notes(Path from, long fromNanos, long toNanos, Path to) throws RecordingException {
        int copied = 0;
        for (Note note : Notebook.of(from).notes()) {
            if (note.toNanos() >= fromNanos && note.fromNanos() <= toNanos) {
                Note unused = Notebook.of(to).add(note.fromNanos(), note.toNanos(), note.text(), note.written());
                copied++;
            }
        }
        return copied;
    }
}
