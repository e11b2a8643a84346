package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.Step;
import draftwitness.recording.RecordingException.Kind;
import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Writes one recording. Slices are committed to the disk once a second of session time, so that a power cut costs at
 * most the last second; {@link #close()} leaves one finished file.
 *
 * <p>When a method throws {@link RecordingException}, everything committed before stays readable, and nothing more can
 * be written than {@link #close()}. One owner thread.
 */
public final class RecordingWriter implements AutoCloseable {
    /** 0.8 s: with the 0.2 s that a slice takes to get here, a crash costs about a second. */
    static final int CELLS_A_COMMIT = 8;
    /** The log is folded in after so many pages: some 50 commits, so that little waits beside the main file. */
    private static final int LOG_PAGES = 256;

    private final Path file;
    private final Database database;
    private final boolean bulk;
    private final StretchBuilder builder;
    private final RowWriter rows;
    private final PreparedStatement insertEvent;
    private final List<PendingEvent> events = new ArrayList<>();
    private long eventNumber;
    private long committedNanos = Long.MIN_VALUE;
    private boolean failed;
    private boolean closed;

    private record PendingEvent(long cell, SourceEvent event) {}

    private RecordingWriter(
            Path file, Database database, SessionHeader header, boolean bulk, @Nullable KeepPolicy policy)
            throws RecordingException {
        this.file = file;
        this.bulk = bulk;
        this.database = database;
        this.builder = new StretchBuilder(header);
        this.rows = new RowWriter(database, header, bulk, policy);
        this.insertEvent = database.prepare(
                "INSERT INTO event(number, cell, time_ns, source, state, detail, crc32c) VALUES (?, ?, ?, ?, ?, ?, ?)");
    }

    /**
     * Says whether a recording could be created there, without leaving anything.
     *
     * @throws RecordingException if the file exists already or its folder cannot be written
     */
    public static void checkTarget(Path file) throws RecordingException {
        if (Files.exists(file)) {
            throw new RecordingException(Kind.TARGET, file, "is there already; choose another name, or move it away");
        }
        if (Files.exists(Database.beside(file, "-wal"))) {
            throw new RecordingException(
                    Kind.TARGET,
                    Database.beside(file, "-wal"),
                    "is left from another recording and may hold readings of it; choose another name, or move it away");
        }
        Path folder = file.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new RecordingException(Kind.TARGET, file, "the folder does not exist; create it first");
        }
        if (!Files.isWritable(folder)) {
            throw new RecordingException(Kind.TARGET, file, "the folder may not be written; choose another one");
        }
    }

    /**
     * Creates a new file and writes the header to the disk.
     *
     * @param file must not exist
     * @throws RecordingException if it exists, or cannot be created or written; then no file is left
     */
    public static RecordingWriter create(Path file, SessionHeader header) throws RecordingException {
        return create(file, header, null);
    }

    /**
     * The same with a policy for what stays at full rate.
     *
     * @param policy null for everything
     */
    public static RecordingWriter create(Path file, SessionHeader header, @Nullable KeepPolicy policy)
            throws RecordingException {
        checkTarget(file);
        try {
            Files.createFile(file);
        } catch (FileAlreadyExistsException e) {
            throw new RecordingException(
                    Kind.TARGET, file, "is there already; choose another name, or move it away", e);
        } catch (IOException e) {
            throw new RecordingException(
                    Kind.TARGET, file, "cannot be created (" + e.getMessage() + "); choose another folder", e);
        }
        Database database = null;
        try {
            database = Database.forWriting(file, file);
            begin(database, header);
            logAhead(database);
            return new RecordingWriter(file, database, header, false, policy);
        } catch (RecordingException e) {
            discard(database, file);
            throw e;
        }
    }

    private static void discard(@Nullable Database database, Path file) {
        try {
            if (database != null) {
                database.close();
            }
        } catch (RecordingException e) {
            // The reason is on its way to the caller already.
        }
        for (String suffix : new String[] {"", "-journal", "-wal", "-shm"}) {
            try {
                Files.deleteIfExists(Database.beside(file, suffix));
            } catch (IOException e) {
                // An empty file stays; it holds nothing.
            }
        }
    }

    /** The header goes in first, in one file, so that even a bare copy of the main file is a recording. */
    private static void begin(Database database, SessionHeader header) throws RecordingException {
        database.execute("PRAGMA page_size=" + Schema.PAGE_BYTES);
        database.execute("PRAGMA synchronous=FULL");
        database.manualCommits();
        database.execute("PRAGMA application_id=" + Schema.APPLICATION_ID);
        database.execute("PRAGMA user_version=" + Schema.VERSION);
        for (String table : Schema.TABLES) {
            database.execute(table);
        }
        HeaderWriter.write(database, header);
        database.commit();
    }

    private static void logAhead(Database database) throws RecordingException {
        database.automaticCommits();
        database.execute("PRAGMA journal_mode=WAL");
        database.execute("PRAGMA wal_autocheckpoint=" + LOG_PAGES);
        database.execute("PRAGMA synchronous=FULL");
        database.manualCommits();
    }

    /**
     * Fills an empty file that nobody else sees until it is complete: in one go, without a log, and in rows of a
     * minute. The caller forces it to the disk.
     *
     * @param file exists and is empty
     * @param shown the file's name in messages
     */
    static RecordingWriter bulk(Path file, Path shown, SessionHeader header) throws RecordingException {
        Database database = Database.forWriting(file, shown);
        try {
            database.execute("PRAGMA journal_mode=OFF");
            begin(database, header);
            database.automaticCommits();
            database.execute("PRAGMA synchronous=OFF");
            database.manualCommits();
            return new RecordingWriter(shown, database, header, true, null);
        } catch (RecordingException e) {
            database.close();
            throw e;
        }
    }

    private static void put(PreparedStatement statement, Object... values) throws SQLException {
        for (int i = 0; i < values.length; i++) {
            statement.setObject(i + 1, values[i]);
        }
        statement.executeUpdate();
    }

    /**
     * Takes the next slice, and commits when a second's worth has come together.
     *
     * @throws RecordingException if it cannot be written, or a policy's budget is used up; the recording ends then
     * @throws IllegalArgumentException if the slice does not follow the one before, a time is not a whole number of
     *     time steps or not above the channel's time before, or a channel is not the session's
     */
    public void append(Slice slice) throws RecordingException {
        requireOpen();
        builder.check(slice);
        builder.add(slice);
        for (SourceEvent event : slice.events()) {
            events.add(new PendingEvent(slice.index(), event));
        }
        flushWhenFull();
    }

    /** In bulk: goes on until this cell is the open one; cells in between stay empty. Never goes back. */
    void open(long cell) throws RecordingException {
        if (builder.untouched()) {
            builder.begin(cell);
        }
        while (builder.nextCell() <= cell) {
            flushWhenFull();
            builder.begin(builder.nextCell());
        }
    }

    /** In bulk: adds a reading to the open cell; the caller sees to its order and that its time fits the time step. */
    void add(int channel, Step step, long timeNanos, long count) {
        builder.add(channel, step, timeNanos, count);
    }

    private void flushWhenFull() throws RecordingException {
        long next = builder.nextCell();
        boolean full =
                bulk ? RowWriter.packedRowEnds(next, builder.readings()) : Math.floorMod(next, CELLS_A_COMMIT) == 0;
        if (full) {
            flush();
            endAtBudget();
        }
    }

    private void endAtBudget() throws RecordingException {
        if (rows.overBudget()) {
            close();
            throw new RecordingException(
                    Kind.DISK_FULL,
                    file,
                    "the budget is used up, and nothing is left to be thinned; recording ended in good order");
        }
    }

    /**
     * Commits everything taken so far to the disk.
     *
     * @throws RecordingException if it cannot be written; the recording ends then
     */
    public void flush() throws RecordingException {
        requireOpen();
        if (builder.cells() == 0) {
            return;
        }
        try {
            Stretch stretch = builder.take();
            stretch.firstEvent = eventNumber;
            stretch.events = events.size();
            rows.write(stretch);
            for (PendingEvent pending : events) {
                insert(pending);
            }
            events.clear();
            if (!bulk) {
                database.commit();
            }
            committedNanos = stretch.endCell() * Slice.CELL_NANOS;
        } catch (SQLException e) {
            fail();
            throw Database.writing(file, e);
        } catch (RecordingException | RuntimeException e) {
            fail();
            throw e;
        }
    }

    private void insert(PendingEvent pending) throws SQLException {
        SourceEvent e = pending.event();
        long number = eventNumber++;
        put(
                insertEvent,
                number,
                pending.cell(),
                e.timeNanos(),
                e.sourceId(),
                e.state().name(),
                e.detail(),
                Checksum.of(number, pending.cell(), e));
    }

    /** Takes a stretch of another file with its events; not to be mixed with slices. */
    void append(Stretch stretch, List<EventLog.Entry> its) throws RecordingException {
        try {
            stretch.firstEvent = eventNumber;
            stretch.events = its.size();
            rows.write(stretch);
            insertAll(its);
        } catch (SQLException e) {
            fail();
            throw Database.writing(file, e);
        }
    }

    /** Takes a row without readings of another file; not to be mixed with slices. */
    void appendEmpty(StretchRow row, List<EventLog.Entry> its, List<Buckets> left) throws RecordingException {
        try {
            rows.writeEmpty(row.withEvents(eventNumber, its.size()), left);
            insertAll(its);
        } catch (SQLException e) {
            fail();
            throw Database.writing(file, e);
        }
    }

    private void insertAll(List<EventLog.Entry> its) throws SQLException {
        for (EventLog.Entry entry : its) {
            insert(new PendingEvent(entry.cell(), entry.event()));
        }
    }

    /**
     * Keeps a span, with the policy's margins, at full rate, as far as it was not thinned yet. Without a policy
     * everything is kept anyway.
     */
    public void claim(long fromNanos, long toNanos) {
        rows.claim(fromNanos, toNanos);
    }

    /** Session time up to which everything is safe on the disk; {@link Long#MIN_VALUE} before the first commit. */
    public long committedNanos() {
        return committedNanos;
    }

    /** For what stands beside the readings, and for tests that make the disk misbehave. */
    Database database() {
        return database;
    }

    private void fail() {
        failed = true;
        database.rollback();
    }

    private void requireOpen() {
        if (closed || failed) {
            throw new IllegalStateException("the recording " + file + " is " + (closed ? "closed" : "broken off"));
        }
    }

    /**
     * Finishes the recording: commits the rest and leaves one file. After a failure it only lets go of the file; what
     * was committed is read together with the {@code -wal} file beside it. Closing twice does nothing.
     */
    @Override
    public void close() throws RecordingException {
        if (closed) {
            return;
        }
        try {
            if (!failed) {
                flush();
                finish();
            }
        } finally {
            closed = true;
            release();
        }
    }

    private void finish() throws RecordingException {
        try {
            rows.finish();
        } catch (SQLException e) {
            fail();
            throw Database.writing(file, e);
        }
        database.execute("INSERT INTO session(key, value) VALUES ('" + Schema.FINISHED + "', '"
                + EndMark.text(rows.endCell(), rows.readings(), eventNumber) + "')");
        database.commit();
        closeStatements();
        database.automaticCommits();
        if (bulk) {
            return;
        }
        database.execute("PRAGMA wal_checkpoint(TRUNCATE)");
        try {
            database.execute("PRAGMA journal_mode=DELETE");
        } catch (RecordingException e) {
            // Somebody is reading at this moment: the file is complete, its empty -wal file stays beside it.
            if (e.kind() == Kind.DISK_FULL) {
                throw e;
            }
        }
    }

    private void closeStatements() {
        try {
            rows.close();
            insertEvent.close();
        } catch (SQLException e) {
            // Closing a statement repeats the failure of its last step, which was reported then.
        }
    }

    private void release() throws RecordingException {
        closeStatements();
        database.close();
    }
}
