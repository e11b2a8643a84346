package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Makes the overview anew from the readings and compares it with the file's. One owner thread. */
final class OverviewCheck {
    private final OverviewCodec codec;
    private final OverviewBuilder builder;
    private final int channels;
    /** Rows of the file not compared yet, for each level, by first cell. */
    private final List<Map<Long, OverviewRow>> stored = new ArrayList<>();

    private @Nullable String problem;

    OverviewCheck(Database database, SessionHeader session) throws RecordingException {
        channels = session.channels().size();
        codec = new OverviewCodec(session.timeStepNanos(), channels);
        builder = new OverviewBuilder(session, this::compare);
        for (int level = 0; level < Pyramid.LEVELS; level++) {
            Map<Long, OverviewRow> rows = new HashMap<>();
            stored.add(rows);
            try (PreparedStatement query =
                            database.prepare("SELECT " + OverviewRow.COLUMNS + " FROM " + Pyramid.table(level));
                    ResultSet result = query.executeQuery()) {
                while (result.next()) {
                    OverviewRow row = OverviewRow.of(level, result);
                    rows.put(row.firstCell(), row);
                }
            } catch (SQLException e) {
                throw Database.reading(database.file(), e);
            }
        }
    }

    /** Takes the next good stretch; those of a second are not in the overview yet. */
    void add(Stretch stretch) throws SQLException {
        OverviewRow row = stored.get(0).get(stretch.firstCell);
        if (row != null && row.endCell() == stretch.endCell()) {
            if (stretch.runs.isEmpty() && row.intact()) {
                builder.add(
                        codec.decode(row, -1), stretch.firstCell, stretch.endCell()); // thinned: it is all that is left
            } else {
                builder.add(stretch);
            }
        }
    }

    private void compare(OverviewRow made) {
        OverviewRow row = stored.get(made.level()).remove(made.firstCell());
        if (problem != null) {
            return;
        }
        String name = Pyramid.table(made.level()) + " row " + made.firstCell();
        if (row == null) {
            problem = name + " is missing";
        } else if (!row.intact()) {
            problem = name + ": the checksum is wrong";
        } else if (!agrees(made, row)) {
            problem = name + " does not agree with the readings";
        }
    }

    private boolean agrees(OverviewRow made, OverviewRow row) {
        try {
            List<Buckets> a = codec.decode(made, -1);
            List<Buckets> b = codec.decode(row, -1);
            boolean same = made.cells() == row.cells();
            for (int c = 0; c < channels && same; c++) {
                same = a.get(c).entries.size() == b.get(c).entries.size();
                for (int i = 0; same && i < a.get(c).entries.size(); i++) {
                    same = a.get(c).entries.get(i).same(b.get(c).entries.get(i));
                }
            }
            return same;
        } catch (IndexOutOfBoundsException e) {
            return false;
        }
    }

    /** What is wrong, or null. */
    @Nullable
    String finish(long endCell, boolean finished) throws SQLException {
        if (finished) {
            builder.finish(endCell);
        }
        if (problem == null) {
            for (int level = 0; level < Pyramid.LEVELS; level++) {
                if (!stored.get(level).isEmpty()) {
                    return Pyramid.table(level) + " has rows that belong to no readings";
                }
            }
        }
        return problem;
    }
}
