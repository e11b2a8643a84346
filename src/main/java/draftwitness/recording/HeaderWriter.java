package draftwitness.recording;

import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceInfo;
import java.sql.PreparedStatement;
import java.sql.SQLException;

/** Writes a session's header into a new file; {@link Header} reads it. Stateless. */
final class HeaderWriter {
    private HeaderWriter() {}

    static void write(Database database, SessionHeader header) throws RecordingException {
        String software = Software.version();
        try (PreparedStatement put = database.prepare("INSERT INTO session(key, value) VALUES (?, ?)")) {
            if (header.start() != null) {
                put(put, Schema.START, header.start().toString());
            }
            put(put, Schema.TITLE, header.title());
            put(put, Schema.TIME_STEP, Long.toString(header.timeStepNanos()));
            put(put, Schema.CELL, Long.toString(Slice.CELL_NANOS));
            put(put, Schema.SETUP, header.setupToml());
            put(put, Schema.SOFTWARE, software);
            put(put, Schema.CHECKSUM, Long.toString(Checksum.of(header, software)));
        } catch (SQLException e) {
            throw Database.writing(database.file(), e);
        }
        writeChannels(database, header);
        writeSources(database, header);
    }

    private static void writeChannels(Database database, SessionHeader header) throws RecordingException {
        try (PreparedStatement put = database.prepare("INSERT INTO channel VALUES (?, ?, ?, ?, ?)")) {
            int position = 0;
            for (Channel c : header.channels()) {
                put(
                        put,
                        position++,
                        c.tap().role(),
                        c.sourceId(),
                        c.readingName(),
                        c.unit().symbol());
            }
        } catch (SQLException e) {
            throw Database.writing(database.file(), e);
        }
    }

    private static void writeSources(Database database, SessionHeader header) throws RecordingException {
        try (PreparedStatement put = database.prepare("INSERT INTO source VALUES (?, ?, ?, ?, ?)")) {
            int position = 0;
            for (SourceInfo s : header.sources()) {
                put(put, position++, s.id(), s.driver(), s.link(), s.description());
            }
        } catch (SQLException e) {
            throw Database.writing(database.file(), e);
        }
    }

    private static void put(PreparedStatement statement, Object... values) throws SQLException {
        for (int i = 0; i < values.length; i++) {
            statement.setObject(i + 1, values[i]);
        }
        statement.executeUpdate();
    }
}
