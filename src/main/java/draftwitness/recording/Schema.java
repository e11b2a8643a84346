package draftwitness.recording;

/** Names and numbers of the file format, described in docs/recording-format.md. */
final class Schema {
    /** "DWRC": marks the database as a recording. */
    static final int APPLICATION_ID = 0x44575243;
    /** Version of the format that this program writes, and the newest that it reads. */
    static final int VERSION = 1;

    static final int PAGE_BYTES = 1024;

    /** Keys of the table {@code session}. */
    static final String START = "start";

    static final String TITLE = "title";
    static final String TIME_STEP = "time_step_ns";
    static final String CELL = "cell_ns";
    static final String SETUP = "setup";
    static final String SOFTWARE = "software";
    static final String CHECKSUM = "crc32c";
    static final String FINISHED = "finished";

    static final String[] TABLES = {
        "CREATE TABLE session(key TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID",
        "CREATE TABLE channel(position INTEGER PRIMARY KEY, role TEXT NOT NULL, source TEXT NOT NULL,"
                + " reading TEXT NOT NULL, unit TEXT NOT NULL)",
        "CREATE TABLE source(position INTEGER PRIMARY KEY, id TEXT NOT NULL, driver TEXT NOT NULL,"
                + " link TEXT NOT NULL, description TEXT NOT NULL)",
        "CREATE TABLE event(number INTEGER PRIMARY KEY, cell INTEGER NOT NULL, time_ns INTEGER NOT NULL,"
                + " source TEXT NOT NULL, state TEXT NOT NULL, detail TEXT NOT NULL, crc32c INTEGER NOT NULL)",
        "CREATE TABLE stretch(first_cell INTEGER PRIMARY KEY, cells INTEGER NOT NULL, readings INTEGER NOT NULL,"
                + " late_cells INTEGER NOT NULL, first_event INTEGER NOT NULL, events INTEGER NOT NULL,"
                + " codec INTEGER NOT NULL, crc32c INTEGER NOT NULL, payload BLOB NOT NULL)",
        "CREATE TABLE note(change INTEGER PRIMARY KEY, note INTEGER NOT NULL, from_ns INTEGER NOT NULL,"
                + " to_ns INTEGER NOT NULL, text TEXT NOT NULL, written TEXT NOT NULL, removed INTEGER NOT NULL,"
                + " takes_back INTEGER NOT NULL, crc32c INTEGER NOT NULL)",
        overview(0),
        overview(1),
        overview(2),
        overview(3),
        "CREATE INDEX stretch_late ON stretch(first_cell, late_cells) WHERE late_cells > 0"
    };

    private Schema() {}

    private static String overview(int level) {
        return "CREATE TABLE " + Pyramid.table(level) + "(first_cell INTEGER PRIMARY KEY, cells INTEGER NOT NULL,"
                + " crc32c INTEGER NOT NULL, payload BLOB NOT NULL)";
    }
}
