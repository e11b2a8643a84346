package draftwitness.recording;

import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.recording.RecordingException.Kind;
import java.nio.file.Path;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What stands at the head of a file.
 *
 * @param session the session's own header
 * @param software the program that wrote the file
 * @param intact false if the checksum over all of this is wrong
 */
record Header(SessionHeader session, String software, boolean intact) {

    /**
     * Reads and checks the head of a file.
     *
     * @throws RecordingException if the file is foreign, newer than this program, or its head makes no sense
     */
    static Header read(Database database) throws RecordingException {
        Path file = database.file();
        long application = database.number("PRAGMA application_id");
        if (application != Schema.APPLICATION_ID) {
            throw new RecordingException(Kind.FOREIGN, file, "a database, but not a recording; check the name");
        }
        long version = database.number("PRAGMA user_version");
        if (version > Schema.VERSION || version < 1) {
            throw new RecordingException(
                    Kind.NEWER,
                    file,
                    "has format version " + version + " and this program reads up to " + Schema.VERSION
                            + "; open it with a newer version");
        }
        try {
            return read(database, texts(database));
        } catch (SQLException e) {
            throw Database.reading(file, e);
        } catch (IllegalArgumentException | DateTimeException e) {
            throw new RecordingException(
                    Kind.DAMAGED,
                    file,
                    "the header is damaged (" + e.getMessage() + "); 'verify' tells what can be recovered",
                    e);
        }
    }

    private static Map<String, String> texts(Database database) throws RecordingException, SQLException {
        Map<String, String> texts = new HashMap<>();
        try (PreparedStatement query = database.prepare("SELECT key, value FROM session");
                ResultSet row = query.executeQuery()) {
            while (row.next()) {
                texts.put(row.getString(1), row.getString(2));
            }
        }
        return texts;
    }

    private static Header read(Database database, Map<String, String> texts) throws RecordingException, SQLException {
        if (!text(texts, Schema.CELL).equals(Long.toString(Slice.CELL_NANOS))) {
            throw new IllegalArgumentException("cells of " + text(texts, Schema.CELL) + " ns");
        }
        String start = texts.get(Schema.START);
        String software = text(texts, Schema.SOFTWARE);
        SessionHeader session = new SessionHeader(
                start == null ? null : Instant.parse(start),
                text(texts, Schema.TITLE),
                Long.parseLong(text(texts, Schema.TIME_STEP)),
                channels(database),
                sources(database),
                text(texts, Schema.SETUP));
        boolean intact = Long.toString(Checksum.of(session, software)).equals(texts.get(Schema.CHECKSUM));
        return new Header(session, software, intact);
    }

    private static String text(Map<String, String> texts, String key) {
        String text = texts.get(key);
        if (text == null) {
            throw new IllegalArgumentException(key + " is missing");
        }
        return text;
    }

    private static List<Channel> channels(Database database) throws RecordingException, SQLException {
        List<Channel> channels = new ArrayList<>();
        try (PreparedStatement query =
                        database.prepare("SELECT role, source, reading, unit FROM channel ORDER BY position");
                ResultSet row = query.executeQuery()) {
            while (row.next()) {
                String role = column(row, 1);
                String unit = column(row, 4);
                channels.add(new Channel(
                        Tap.ofRole(role).orElseThrow(() -> new IllegalArgumentException("unknown role " + role)),
                        column(row, 2),
                        column(row, 3),
                        Unit.ofSymbol(unit).orElseThrow(() -> new IllegalArgumentException("unknown unit " + unit))));
            }
        }
        return channels;
    }

    private static List<SourceInfo> sources(Database database) throws RecordingException, SQLException {
        List<SourceInfo> sources = new ArrayList<>();
        try (PreparedStatement query =
                        database.prepare("SELECT id, driver, link, description FROM source ORDER BY position");
                ResultSet row = query.executeQuery()) {
            while (row.next()) {
                sources.add(new SourceInfo(column(row, 1), column(row, 2), column(row, 3), column(row, 4)));
            }
        }
        return sources;
    }

    static String column(ResultSet row, int index) throws SQLException {
        @Nullable String text = row.getString(index);
        if (text == null) {
            throw new IllegalArgumentException("an entry is missing");
        }
        return text;
    }
}
