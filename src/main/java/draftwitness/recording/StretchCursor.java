package draftwitness.recording;

import draftwitness.reading.Slice;
import draftwitness.recording.RecordingException.Kind;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.IntPredicate;
import org.jspecify.annotations.Nullable;

/**
 * Goes through the stretches of a file in order, a handful at a time, so that memory stays bounded and no lock is held
 * in between. While recording goes on, rows that were read already may come back joined with later ones: a stretch may
 * begin before the cell that is due, and its part before that is to be ignored. One owner thread.
 */
final class StretchCursor {
    private static final int BATCH = 16;

    private final FileAccess access;
    private final StretchCodec codec;
    private final IntPredicate wanted;
    private final Deque<StretchRow> rows = new ArrayDeque<>();
    private long due;
    private long end;

    /**
     * Starts at the stretch that holds a cell, or the first one after it.
     *
     * @param onlyChannel position of the one channel to decode, or -1 for all
     * @param end the first cell that is no longer wanted
     */
    StretchCursor(FileAccess access, StretchCodec codec, int onlyChannel, long first, long end) {
        this(access, codec, StretchCodec.channels(onlyChannel), first, end);
    }

    /**
     * The same for some of the channels.
     *
     * @param wanted tells by its position if a channel is to be decoded
     */
    StretchCursor(FileAccess access, StretchCodec codec, IntPredicate wanted, long first, long end) {
        this.access = access;
        this.codec = codec;
        this.wanted = wanted;
        this.due = first;
        this.end = end;
    }

    /**
     * The next stretch that holds wanted cells, or null when there is none in the file yet.
     *
     * @throws RecordingException if the file cannot be read or the stretch is damaged
     */
    @Nullable
    Stretch next() throws RecordingException {
        if (due >= end) {
            return null;
        }
        if (rows.isEmpty()) {
            access.with(database -> {
                load(database);
                return rows.size();
            });
        }
        StretchRow row = rows.poll();
        if (row == null) {
            return null;
        }
        due = row.endCell();
        return decode(row);
    }

    private void load(Database database) throws RecordingException {
        try (PreparedStatement query = database.prepare("SELECT " + StretchRow.COLUMNS + " FROM stretch"
                + " WHERE first_cell >= coalesce((SELECT max(first_cell) FROM stretch WHERE first_cell <= ?1), ?1)"
                + " AND first_cell < ?2 ORDER BY first_cell LIMIT " + BATCH)) {
            query.setLong(1, due);
            query.setLong(2, end);
            try (ResultSet result = query.executeQuery()) {
                while (result.next()) {
                    StretchRow row = StretchRow.of(result);
                    if (row.endCell() > due) {
                        rows.add(row);
                    }
                }
            }
        } catch (SQLException e) {
            throw Database.reading(database.file(), e);
        }
    }

    private Stretch decode(StretchRow row) throws RecordingException {
        if (!StretchCodec.knows(row.codec()) && row.intact()) {
            throw new RecordingException(
                    Kind.NEWER,
                    access.file(),
                    "holds rows of codec " + row.codec() + ", which this program does not know; use a newer version");
        }
        if (!row.intact()) {
            throw damaged(row, null);
        }
        try {
            return codec.decode(row, wanted);
        } catch (IndexOutOfBoundsException e) {
            throw damaged(row, e);
        }
    }

    private RecordingException damaged(StretchRow row, @Nullable Throwable cause) {
        return new RecordingException(
                Kind.DAMAGED,
                access.file(),
                "is damaged from " + seconds(row.firstCell()) + " s to " + seconds(row.endCell())
                        + " s; 'verify' tells what can be recovered",
                cause);
    }

    private static double seconds(long cell) {
        return cell * (Slice.CELL_NANOS / 1e9);
    }
}
