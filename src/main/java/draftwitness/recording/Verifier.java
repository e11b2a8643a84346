package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.recording.Damage.Part;
import draftwitness.recording.RecordingException.Kind;
import java.nio.file.Path;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Checks a recording as far as it can be read: the database, the header's and every row's checksum, that rows follow
 * one another without holes, that they decode to as many readings as they say, in order of time, and that a finished
 * recording ends where it says. Changes nothing. One owner thread.
 */
public final class Verifier {
    private static final int MOST_MESSAGES = 20;

    private final Path file;
    private final List<Damage> damages = new ArrayList<>();
    private final Fingerprint fingerprint = new Fingerprint();
    private final Checksum evidence = Checksum.into(fingerprint);
    private long rows;
    private long readings;
    private long thinned;
    private List<Thinned> thinnedSpans = List.of();
    private List<Thinned> lostSpans = List.of();
    private long events;
    private long eventsAnnounced;
    private long firstCell;
    private long endCell;
    private boolean any;

    private Verifier(Path file) {
        this.file = file;
    }

    /**
     * Checks a file.
     *
     * @throws RecordingException if there is no such file, it is foreign or newer than this program, or cannot be read
     *     at all; damage is not an exception but the result
     */
    public static Verification verify(Path file) throws RecordingException {
        return new Verifier(file).check();
    }

    private Verification check() throws RecordingException {
        boolean finished = false;
        try (Database database = Database.forReading(file)) {
            Header header = header(database);
            checkDatabase(database);
            if (header != null) {
                evidence.add(header.session(), header.software());
                checkRows(database, header.session());
                thinnedSpans = Thinned.read(database, StretchCodec.THINNED);
                lostSpans = Thinned.read(database, StretchCodec.LOST);
                checkEvents(database);
                checkNotes(database);
                finished = checkEnd(database);
                checkOverview(database, header.session(), finished);
            }
        } catch (RecordingException e) {
            if (e.kind() != Kind.DAMAGED) {
                throw e;
            }
            damages.add(whole(Part.DATABASE, String.valueOf(e.getMessage())));
        }
        return new Verification(
                file,
                finished,
                rows,
                readings,
                thinnedSpans,
                lostSpans,
                firstCell * Slice.CELL_NANOS,
                endCell * Slice.CELL_NANOS,
                fingerprint.hex(),
                damages);
    }

    private static Damage whole(Part part, String text) {
        return new Damage(part, -1, 0, 0, text);
    }

    private @Nullable Header header(Database database) throws RecordingException {
        try {
            Header header = Header.read(database);
            if (!header.intact()) {
                damages.add(whole(Part.HEADER, "the header's checksum is wrong"));
            }
            return header;
        } catch (RecordingException e) {
            if (e.kind() != Kind.DAMAGED) {
                throw e;
            }
            damages.add(whole(Part.HEADER, String.valueOf(e.getMessage())));
            return null;
        }
    }

    private void checkDatabase(Database database) {
        try (PreparedStatement query = database.prepare("PRAGMA integrity_check(" + MOST_MESSAGES + ")");
                ResultSet row = query.executeQuery()) {
            while (row.next()) {
                String text = row.getString(1);
                if (!"ok".equals(text)) {
                    damages.add(whole(Part.DATABASE, String.valueOf(text).replace('\n', ' ')));
                }
            }
        } catch (SQLException | RecordingException e) {
            damages.add(whole(Part.DATABASE, String.valueOf(e.getMessage()).replace('\n', ' ')));
        }
    }

    private void checkRows(Database database, SessionHeader session) throws RecordingException {
        int channels = session.channels().size();
        StretchCodec codec = StretchCodec.whole(session.timeStepNanos(), channels);
        RowCheck check = new RowCheck(codec, session, channels);
        try (PreparedStatement query = database.prepare(RowScan.sql())) {
            RowScan scan = new RowScan(query);
            StretchRow row = scan.next(Long.MIN_VALUE);
            while (row != null) {
                place(row, scan);
                evidence.add(row);
                String problem = check.problem(row);
                if (problem == null) {
                    rows++;
                    readings += row.readings();
                    thinned += check.thinned;
                } else {
                    damages.add(span(Part.STRETCH, row.firstCell(), row.firstCell(), row.endCell(), problem));
                }
                row = row.firstCell() == Long.MAX_VALUE ? null : scan.next(row.firstCell() + 1);
            }
            if (scan.steppedOver()) {
                damages.add(
                        span(Part.MISSING, -1, endCell, endCell, "rows to the end cannot be read: " + scan.reason()));
            }
        } catch (SQLException e) {
            throw Database.reading(file, e);
        }
    }

    /** Checks that a row follows the one before. */
    private void place(StretchRow row, RowScan scan) {
        if ((any && row.firstCell() != endCell) || scan.steppedOver()) {
            String why = scan.steppedOver()
                    ? "rows cannot be read: " + scan.reason()
                    : row.firstCell() < endCell ? "the row overlaps the one before" : "rows are missing";
            long from = any ? Math.min(endCell, row.firstCell()) : row.firstCell();
            damages.add(span(Part.MISSING, row.firstCell(), from, row.firstCell(), why));
        }
        firstCell = any ? firstCell : row.firstCell();
        endCell = row.endCell();
        eventsAnnounced = row.firstEvent() + row.events();
        any = true;
    }

    private static Damage span(Part part, long row, long from, long to, String text) {
        return new Damage(part, row, from * Slice.CELL_NANOS, to * Slice.CELL_NANOS, text);
    }

    /** Only where the readings are good, since it is compared with them. */
    private void checkOverview(Database database, SessionHeader session, boolean finished) throws RecordingException {
        if (!damages.isEmpty()) {
            return;
        }
        StretchCodec codec =
                new StretchCodec(session.timeStepNanos(), session.channels().size());
        try (PreparedStatement query = database.prepare(RowScan.sql())) {
            OverviewCheck check = new OverviewCheck(database, session);
            RowScan scan = new RowScan(query);
            for (StretchRow row = scan.next(Long.MIN_VALUE); row != null; row = scan.next(row.endCell())) {
                check.add(codec.decode(row, -1));
            }
            String problem = check.finish(endCell, finished);
            if (problem != null) {
                damages.add(whole(Part.OVERVIEW, problem));
            }
        } catch (SQLException e) {
            throw Database.reading(file, e);
        }
    }

    private void checkEvents(Database database) {
        try {
            for (EventLog.Entry entry : EventLog.read(database, Long.MIN_VALUE, Long.MAX_VALUE)) {
                evidence.add(entry.number(), entry.cell(), entry.event());
                long time = entry.event().timeNanos();
                if (entry.number() != events) {
                    damages.add(new Damage(Part.EVENT, entry.number(), time, time, "an event before it is missing"));
                }
                if (!entry.intact()) {
                    damages.add(new Damage(Part.EVENT, entry.number(), time, time, "the event's checksum is wrong"));
                }
                events = entry.number() + 1;
            }
            if (any && events != eventsAnnounced) {
                damages.add(whole(
                        Part.EVENT, "the rows tell of " + eventsAnnounced + " events in all, and there are " + events));
            }
        } catch (RecordingException e) {
            damages.add(whole(Part.EVENT, String.valueOf(e.getMessage())));
        }
    }

    private void checkNotes(Database database) {
        try {
            long number = 0;
            for (NoteLog.Change change : NoteLog.read(database)) {
                Note note = change.note();
                if (change.number() != ++number || !change.intact()) {
                    String problem = change.intact() ? "a note before it is missing" : "the note's checksum is wrong";
                    damages.add(new Damage(Part.NOTE, change.number(), note.fromNanos(), note.toNanos(), problem));
                }
                number = change.number();
            }
        } catch (RecordingException e) {
            damages.add(whole(Part.NOTE, String.valueOf(e.getMessage())));
        }
    }

    /** A finished recording says how much it holds. */
    private boolean checkEnd(Database database) throws RecordingException {
        String said = database.text("SELECT value FROM session WHERE key = '" + Schema.FINISHED + "'");
        if (said.isEmpty()) {
            return false;
        }
        String found = EndMark.text(any ? endCell : 0, readings + thinned, events);
        if (!said.equals(found) && damages.isEmpty()) {
            damages.add(span(
                    Part.END,
                    -1,
                    endCell,
                    endCell,
                    "the recording says it ends with (cell, readings, events) " + said + ", found " + found));
        }
        return true;
    }

    /** Checks single rows, and that each channel's times go on from row to row. */
    private static final class RowCheck {
        private final StretchCodec codec;
        private final SessionHeader session;
        private final long[] lastTimes;
        /** Readings that the row checked last had before it was thinned. */
        private long thinned;

        RowCheck(StretchCodec codec, SessionHeader session, int channels) {
            this.codec = codec;
            this.session = session;
            this.lastTimes = new long[channels];
            Arrays.fill(lastTimes, Long.MIN_VALUE);
        }

        /** What is wrong with the row, or null. */
        @Nullable
        String problem(StretchRow row) {
            if (!row.intact()) {
                return "the row's checksum is wrong";
            }
            if (!StretchCodec.knows(row.codec())) {
                return "codec " + row.codec() + " needs a newer version of this program";
            }
            try {
                Stretch stretch = codec.decode(row, -1);
                thinned = stretch.thinned;
                return stretch.maxLate() == row.lateCells() ? order(stretch) : "late_cells is wrong";
            } catch (IndexOutOfBoundsException e) {
                return "the row does not decode (" + e.getMessage() + ")";
            }
        }

        private @Nullable String order(Stretch stretch) {
            for (Run run : stretch.runs) {
                if (run.step.unit().quantity()
                        != session.channels().get(run.channel).tap().quantity()) {
                    return "a unit does not fit its channel";
                }
                long[] cells = run.cells(session.timeStepNanos());
                for (int i = 0; i < run.size; i++) {
                    if (run.times[i] <= lastTimes[run.channel]) {
                        return "times do not increase";
                    }
                    lastTimes[run.channel] = run.times[i];
                    if (cells[i] < stretch.firstCell || cells[i] >= stretch.endCell()) {
                        return "a reading lies outside its row";
                    }
                }
            }
            return null;
        }
    }
}
