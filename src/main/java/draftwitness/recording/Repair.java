package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.recording.RecordingException.Kind;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Makes a good recording of what can be saved of a damaged one. Nothing is guessed: a row is taken if its checksum
 * vouches for it; where one is lost, the new file says so, and replay passes the place as empty slices.
 *
 * @param target the new file
 * @param rows rows saved
 * @param readings readings in them
 * @param events sources' events saved
 * @param notes changes of notes saved
 * @param headerIntact false if the header's checksum is wrong, so that its texts may be too
 * @param lost the spans that were lost between rows saved
 */
public record Repair(
        Path target, long rows, long readings, long events, long notes, boolean headerIntact, List<Damage> lost) {
    public Repair {
        lost = List.copyOf(lost);
    }

    /**
     * Saves what can be saved.
     *
     * @param damaged is not changed
     * @param target must not exist; appears only when it is complete
     * @throws RecordingException if nothing usable is left of the header, the file is newer than this program, or the
     *     target cannot be written
     */
    public static Repair run(Path damaged, Path target) throws RecordingException {
        RecordingWriter.checkTarget(target);
        Salvage salvage = Salvage.of(damaged);
        Header header = salvage.header()
                .orElseThrow(() -> new RecordingException(
                        Kind.DAMAGED,
                        damaged,
                        "nothing is left of its header, so that its channels are unknown; it cannot be repaired"));
        try (AtomicOutput output = AtomicOutput.beside(target)) {
            Repair result;
            try (RecordingWriter writer = RecordingWriter.bulk(output.passing(), target, header.session())) {
                result = new Work(salvage, header, writer, target).copy();
            }
            output.finish();
            return result;
        }
    }

    /** One repair under way. */
    private static final class Work {
        private final Salvage salvage;
        private final Header header;
        private final RecordingWriter writer;
        private final Path target;
        private final StretchCodec codec;
        private final OverviewCodec overviewCodec;
        private final List<Damage> lost = new ArrayList<>();
        private long rows;
        private long readings;
        private long events;
        private long endCell = Long.MIN_VALUE;

        Work(Salvage salvage, Header header, RecordingWriter writer, Path target) {
            this.salvage = salvage;
            this.header = header;
            this.writer = writer;
            this.target = target;
            SessionHeader session = header.session();
            codec = StretchCodec.whole(
                    session.timeStepNanos(), session.channels().size());
            overviewCodec = new OverviewCodec(
                    session.timeStepNanos(), session.channels().size());
        }

        Repair copy() throws RecordingException {
            for (StretchRow row : salvage.rows.values()) {
                if (row.firstCell() >= endCell) { // else an older row whose cells are there already
                    copy(row);
                }
            }
            long end = salvage.endCell().orElse(endCell);
            if (endCell != Long.MIN_VALUE && end > endCell) {
                gap(end);
            }
            long notes = 0;
            for (NoteLog.Change change : salvage.notes.values()) {
                NoteLog.insert(writer.database(), change);
                notes++;
            }
            return new Repair(target, rows, readings, events, notes, header.intact(), lost);
        }

        private void copy(StretchRow row) throws RecordingException {
            Stretch stretch;
            List<Buckets> left;
            try {
                stretch = codec.decode(row, -1);
                OverviewRow sums = salvage.overview.get(row.firstCell());
                left = stretch.thinned == 0 || sums == null || sums.cells() != row.cells()
                        ? Pyramid.empty(header.session().channels().size())
                        : overviewCodec.decode(sums, -1);
            } catch (IndexOutOfBoundsException e) {
                return; // a good checksum over nonsense: not ours; the hole is told with the next row
            }
            if (endCell != Long.MIN_VALUE && row.firstCell() > endCell) {
                gap(row.firstCell());
            }
            List<EventLog.Entry> its = new ArrayList<>(salvage.events
                    .subMap(row.firstEvent(), row.firstEvent() + row.events())
                    .values());
            if (row.codec() == StretchCodec.THINNED || row.codec() == StretchCodec.LOST) {
                writer.appendEmpty(row, its, left);
            } else {
                writer.append(stretch, its);
            }
            rows++;
            readings += row.readings();
            events += its.size();
            endCell = row.endCell();
        }

        private void gap(long nextCell) throws RecordingException {
            long from = endCell;
            writer.appendEmpty(
                    StretchRow.lost(from, (int) (nextCell - from)),
                    List.of(),
                    Pyramid.empty(header.session().channels().size()));
            lost.add(new Damage(
                    Damage.Part.MISSING, from, from * Slice.CELL_NANOS, nextCell * Slice.CELL_NANOS, "lost"));
            endCell = nextCell;
        }
    }
}
