package draftwitness.recording;

import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Gathers everything good of a damaged recording: first through the database, as far as it can be read, then from its
 * raw pages. Only what its checksum vouches for is taken. One owner thread.
 */
final class Salvage {
    /** Good rows, by first cell; of rows for the same cell the one that reaches farthest. */
    final SortedMap<Long, StretchRow> rows = new TreeMap<>();

    final SortedMap<Long, EventLog.Entry> events = new TreeMap<>();
    /** Good rows of the finest overview, needed where readings were thinned. */
    final Map<Long, OverviewRow> overview = new HashMap<>();

    /** Good rows of the table of notes. */
    final SortedMap<Long, NoteLog.Change> notes = new TreeMap<>();

    private final Map<String, String> texts = new HashMap<>();
    private final SortedMap<Long, Channel> channels = new TreeMap<>();
    private final SortedMap<Long, SourceInfo> sources = new TreeMap<>();
    private @Nullable Header header;

    /** The header, and whether its checksum vouches for it; empty when nothing usable was found. */
    Optional<Header> header() {
        return Optional.ofNullable(header);
    }

    /** Gathers from a file. */
    static Salvage of(Path file) throws RecordingException {
        Salvage salvage = new Salvage();
        try (Database database = Database.forReading(file)) {
            salvage.header = Header.read(database);
            salvage.fromDatabase(database);
        } catch (RecordingException e) {
            if (e.kind() != RecordingException.Kind.DAMAGED && e.kind() != RecordingException.Kind.FOREIGN) {
                throw e;
            }
        }
        try {
            PageScan.scan(file, salvage::found);
        } catch (IOException e) {
            throw new RecordingException(
                    RecordingException.Kind.UNREADABLE, file, "cannot be read (" + e.getMessage() + ")", e);
        }
        Header fromPages = salvage.headerFromPages();
        boolean better = fromPages != null && fromPages.intact();
        if (salvage.header == null || (!salvage.header.intact() && better)) {
            salvage.header = fromPages;
        }
        return salvage;
    }

    private void fromDatabase(Database database) throws RecordingException {
        try (PreparedStatement query = database.prepare(RowScan.sql())) {
            RowScan scan = new RowScan(query);
            for (StretchRow row = scan.next(Long.MIN_VALUE); row != null; row = scan.next(row.firstCell() + 1)) {
                add(row);
            }
        } catch (SQLException e) {
            return; // the pages may still have more
        }
    }

    private void add(StretchRow row) {
        if (row.cells() > 0 && row.intact() && StretchCodec.knows(row.codec())) {
            StretchRow other = rows.get(row.firstCell());
            if (other == null || other.cells() < row.cells()) {
                rows.put(row.firstCell(), row);
            }
        }
    }

    private void found(long key, List<@Nullable Object> v) {
        try {
            switch (v.size()) {
                case 2 -> texts.putIfAbsent(text(v, 0), text(v, 1));
                case 4 -> addOverview(key, v);
                case 5 -> addChannelOrSource(key, v);
                case 7 -> addEvent(key, v);
                case 9 -> addStretchOrNote(key, v);
                default -> {}
            }
        } catch (ClassCastException | IllegalArgumentException | NullPointerException | DateTimeException e) {
            return; // some other record
        }
    }

    private void addStretchOrNote(long key, List<@Nullable Object> v) {
        if (v.get(4) instanceof String text) {
            Note note = new Note(number(v, 1), number(v, 2), number(v, 3), text, Instant.parse(text(v, 5)));
            add(NoteLog.change(key, note, number(v, 6), number(v, 7), number(v, 8)));
        } else {
            add(new StretchRow(key, v));
        }
    }

    private void add(NoteLog.Change change) {
        if (change.intact()) {
            notes.put(change.number(), change);
        }
    }

    static String text(List<@Nullable Object> values, int column) {
        if (values.get(column) instanceof String text) {
            return text;
        }
        throw new IllegalArgumentException("no text");
    }

    static long number(List<@Nullable Object> values, int column) {
        if (values.get(column) instanceof Long number) {
            return number;
        }
        throw new IllegalArgumentException("no number");
    }

    static byte[] bytes(List<@Nullable Object> values, int column) {
        if (values.get(column) instanceof byte[] bytes) {
            return bytes;
        }
        throw new IllegalArgumentException("no bytes");
    }

    private void addOverview(long key, List<@Nullable Object> v) {
        OverviewRow row = new OverviewRow(0, key, (int) number(v, 1), bytes(v, 3));
        if (row.crc() == number(v, 2)) {
            overview.put(key, row);
        }
    }

    private void addChannelOrSource(long key, List<@Nullable Object> v) {
        Optional<Tap> tap = Tap.ofRole(text(v, 1));
        Optional<Unit> unit = Unit.ofSymbol(text(v, 4));
        if (tap.isPresent()
                && unit.isPresent()
                && tap.get().quantity() == unit.get().quantity()) {
            channels.putIfAbsent(key, new Channel(tap.get(), text(v, 2), text(v, 3), unit.get()));
        } else {
            sources.putIfAbsent(key, new SourceInfo(text(v, 1), text(v, 2), text(v, 3), text(v, 4)));
        }
    }

    private void addEvent(long key, List<@Nullable Object> v) {
        SourceEvent event = new SourceEvent(text(v, 3), number(v, 2), SourceState.valueOf(text(v, 4)), text(v, 5));
        if (Checksum.of(key, number(v, 1), event) == number(v, 6)) {
            events.put(key, new EventLog.Entry(key, number(v, 1), event, true));
        }
    }

    /** The header put together from single records, or null when it cannot be. */
    private @Nullable Header headerFromPages() {
        try {
            String start = texts.get(Schema.START);
            String software = texts.getOrDefault(Schema.SOFTWARE, "");
            SessionHeader session = new SessionHeader(
                    start == null ? null : Instant.parse(start),
                    texts.getOrDefault(Schema.TITLE, ""),
                    Long.parseLong(texts.getOrDefault(Schema.TIME_STEP, "")),
                    new ArrayList<>(channels.values()),
                    new ArrayList<>(sources.values()),
                    texts.getOrDefault(Schema.SETUP, ""));
            boolean intact = Long.toString(Checksum.of(session, software)).equals(texts.get(Schema.CHECKSUM));
            return new Header(session, software, intact);
        } catch (IllegalArgumentException | DateTimeException e) {
            return null;
        }
    }

    /** The cell at which a finished recording ended, as far as it can still be told. */
    Optional<Long> endCell() {
        String mark = texts.get(Schema.FINISHED);
        return mark == null || !mark.matches("-?\\d{1,18} .*")
                ? Optional.empty()
                : Optional.of(Long.parseLong(mark.substring(0, mark.indexOf(' '))));
    }
}
