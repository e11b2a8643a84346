package draftwitness.recording;

import draftwitness.recording.RecordingException.Kind;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/**
 * One connection to a recording's database. Every failure comes out as a {@link RecordingException} that says what to
 * do. One owner thread.
 */
final class Database implements AutoCloseable {
    private final Path file;
    private final Connection connection;
    private final @Nullable Path temporaryFolder;

    private Database(Path file, Connection connection, @Nullable Path temporaryFolder) {
        this.file = file;
        this.connection = connection;
        this.temporaryFolder = temporaryFolder;
    }

    /**
     * Opens an existing or empty file for reading and writing.
     *
     * @param shown the file's name in messages
     */
    static Database forWriting(Path file, Path shown) throws RecordingException {
        try {
            return new Database(shown, connect(file, "mode=rw", false), null);
        } catch (SQLException e) {
            throw writing(shown, e);
        }
    }

    /**
     * Opens a recording for reading only, without changing it.
     *
     * <p>Which way depends on what lies beside the file. With a {@code -wal} file the recording is going on or was cut
     * off: the usual read-only way takes both. Without one, a file still marked as write-ahead is opened as immutable,
     * since the usual way would want to create files beside it. Where the folder cannot be written, or a change of
     * notes was cut off, a copy in the temporary folder is opened.
     */
    static Database forReading(Path file) throws RecordingException {
        checkReadable(file);
        try {
            if (!Files.exists(beside(file, "-wal")) && !Files.exists(beside(file, "-journal"))) {
                Database immutable = new Database(file, connect(file, "mode=ro&immutable=1", true), null);
                if (immutable.isWriteAhead()) {
                    return immutable;
                }
                immutable.close();
            }
            return plain(file);
        } catch (SQLException e) {
            throw reading(file, e);
        }
    }

    private static Database plain(Path file) throws SQLException, RecordingException {
        Connection connection = connect(file, "mode=ro", true);
        try (Statement s = connection.createStatement();
                ResultSet r = s.executeQuery("SELECT count(*) FROM sqlite_master")) {
            r.next();
            return new Database(file, connection, null);
        } catch (SQLException e) {
            connection.close();
            SQLiteErrorCode code = codeOf(e);
            if (base(code) == SQLiteErrorCode.SQLITE_CANTOPEN || base(code) == SQLiteErrorCode.SQLITE_READONLY) {
                return copied(file);
            }
            throw e;
        }
    }

    private static Database copied(Path file) throws SQLException, RecordingException {
        try {
            Path folder = Files.createTempDirectory("draftwitness");
            Path copy = folder.resolve("recording.dwrec");
            Files.copy(file, copy);
            for (String suffix : new String[] {"-wal", "-journal"}) {
                if (Files.exists(beside(file, suffix))) {
                    Files.copy(beside(file, suffix), beside(copy, suffix));
                }
            }
            return new Database(file, connect(copy, "mode=rw", false), folder);
        } catch (IOException e) {
            throw new RecordingException(
                    Kind.UNREADABLE,
                    file,
                    "cannot be opened where it is, nor copied to the temporary folder (" + e.getMessage()
                            + "); copy it to a folder that can be written, with its -wal file",
                    e);
        }
    }

    static Path beside(Path file, String suffix) {
        return file.resolveSibling(file.getFileName() + suffix);
    }

    private static void checkReadable(Path file) throws RecordingException {
        if (!Files.exists(file)) {
            throw new RecordingException(Kind.UNREADABLE, file, "no such file; check the name");
        }
        if (!Files.isRegularFile(file)) {
            throw new RecordingException(Kind.FOREIGN, file, "not a file; name a recording (.dwrec)");
        }
        if (!Files.isReadable(file)) {
            throw new RecordingException(Kind.UNREADABLE, file, "may not be read; change its permissions");
        }
        try {
            if (Files.size(file) == 0) {
                throw new RecordingException(Kind.FOREIGN, file, "is empty; nothing was recorded in it");
            }
        } catch (IOException e) {
            throw new RecordingException(
                    Kind.UNREADABLE, file, "cannot be read (" + e.getMessage() + "); check the disk", e);
        }
    }

    private static Connection connect(Path file, String options, boolean readOnly) throws SQLException {
        SQLiteConfig config = new SQLiteConfig();
        config.setReadOnly(readOnly);
        config.setBusyTimeout(3000);
        String uri = file.toAbsolutePath().toUri().toString();
        return config.createConnection("jdbc:sqlite:" + uri + "?" + options);
    }

    private boolean isWriteAhead() throws RecordingException {
        return text("PRAGMA journal_mode").equalsIgnoreCase("wal");
    }

    void execute(String sql) throws RecordingException {
        try (Statement s = connection.createStatement()) {
            s.execute(sql);
        } catch (SQLException e) {
            throw writing(file, e);
        }
    }

    /** The first column of the first row, or an empty text. */
    String text(String sql) throws RecordingException {
        try (Statement s = connection.createStatement();
                ResultSet r = s.executeQuery(sql)) {
            String text = r.next() ? r.getString(1) : null;
            return text == null ? "" : text;
        } catch (SQLException e) {
            throw reading(file, e);
        }
    }

    long number(String sql) throws RecordingException {
        try (Statement s = connection.createStatement();
                ResultSet r = s.executeQuery(sql)) {
            return r.next() ? r.getLong(1) : 0;
        } catch (SQLException e) {
            throw reading(file, e);
        }
    }

    /** Begins a transaction that lasts until {@link #commit()}, and so on. */
    void manualCommits() throws RecordingException {
        try {
            connection.setAutoCommit(false);
        } catch (SQLException e) {
            throw writing(file, e);
        }
    }

    void automaticCommits() throws RecordingException {
        try {
            connection.setAutoCommit(true);
        } catch (SQLException e) {
            throw writing(file, e);
        }
    }

    void commit() throws RecordingException {
        try {
            connection.commit();
        } catch (SQLException e) {
            throw writing(file, e);
        }
    }

    /** Takes back what was not committed; never fails, since nothing better can be done then. */
    void rollback() {
        try {
            connection.rollback();
        } catch (SQLException e) {
            // The database rolls back by itself when it is opened next.
        }
    }

    PreparedStatement prepare(String sql) throws RecordingException {
        try {
            return connection.prepareStatement(sql);
        } catch (SQLException e) {
            throw reading(file, e);
        }
    }

    Path file() {
        return file;
    }

    @Override
    public void close() throws RecordingException {
        try {
            connection.close();
        } catch (SQLException e) {
            throw writing(file, e);
        } finally {
            deleteTemporary();
        }
    }

    private void deleteTemporary() {
        if (temporaryFolder == null) {
            return;
        }
        try (var files = Files.list(temporaryFolder)) {
            for (Path copy : files.toList()) {
                Files.deleteIfExists(copy);
            }
            Files.deleteIfExists(temporaryFolder);
        } catch (IOException e) {
            temporaryFolder.toFile().deleteOnExit();
        }
    }

    private static SQLiteErrorCode codeOf(SQLException e) {
        return e instanceof SQLiteException s ? s.getResultCode() : SQLiteErrorCode.UNKNOWN_ERROR;
    }

    private static SQLiteErrorCode base(SQLiteErrorCode code) {
        return SQLiteErrorCode.getErrorCode(code.code & 0xFF);
    }

    /** What a failure while writing means. */
    static RecordingException writing(Path file, SQLException e) {
        return switch (base(codeOf(e))) {
            case SQLITE_FULL ->
                new RecordingException(
                        Kind.DISK_FULL,
                        file,
                        "the disk is full; everything up to the last second is kept, free some room before the next recording",
                        e);
            case SQLITE_CORRUPT, SQLITE_NOTADB -> damaged(file, e);
            default ->
                new RecordingException(
                        Kind.UNWRITABLE,
                        file,
                        "cannot be written (" + oneLine(e) + "); check the disk and the folder's permissions",
                        e);
        };
    }

    /** What a failure while reading means. */
    static RecordingException reading(Path file, SQLException e) {
        return switch (base(codeOf(e))) {
            case SQLITE_NOTADB ->
                new RecordingException(
                        Kind.FOREIGN, file, "not a recording, or its first bytes are damaged; check the name", e);
            case SQLITE_CORRUPT, SQLITE_ERROR -> damaged(file, e);
            default ->
                new RecordingException(
                        Kind.UNREADABLE,
                        file,
                        "cannot be read (" + oneLine(e) + "); check the disk and permissions",
                        e);
        };
    }

    private static RecordingException damaged(Path file, SQLException e) {
        return new RecordingException(
                Kind.DAMAGED, file, "is damaged (" + oneLine(e) + "); 'verify' tells what can be recovered", e);
    }

    private static String oneLine(SQLException e) {
        String message = e.getMessage();
        return message == null ? "no reason given" : message.lines().findFirst().orElse("no reason given");
    }
}
