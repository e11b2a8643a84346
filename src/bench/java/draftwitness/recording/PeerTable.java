package draftwitness.recording;

import draftwitness.reading.Block;
import draftwitness.reading.Slice;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.Locale;

/**
 * The same readings in other stores, in one run: plain SQLite rows, DuckDB's own file, Parquet with zstd; and a table
 * read by us and by DuckDB. Arguments: folder, hours (24). Prints one line a figure. With
 * {@code -Dbench.tables-only=true} only CSV and Parquet tables in and out.
 */
final class PeerTable {
    private static final long STEP = 1_000_000;
    private static final int ROUNDS = 5;

    private final Path folder;
    private final long cells;

    private PeerTable(Path folder, int hours) {
        this.folder = folder;
        this.cells = hours * 36_000L;
    }

    public static void main(String[] arguments) throws Exception {
        int hours = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 24;
        PeerTable table = new PeerTable(Path.of(arguments[0]), hours);
        System.out.println(hours + " h, 4 channels, 50 Hz, times at 1 ms");
        table.own();
        if (!Boolean.getBoolean("bench.tables-only")) {
            table.sqliteRows();
            table.duckdb();
        }
        table.tables();
    }

    private Path fresh(String name) throws Exception {
        Path file = folder.resolve(name);
        Files.deleteIfExists(file);
        return file;
    }

    private void print(String what, double value, String unit) {
        System.out.println(String.format(Locale.ROOT, "  %-55s %10.3f %s", what, value, unit));
    }

    private void size(String what, Path file) throws Exception {
        print(what + ", file", Files.size(file) / (cells * 20.0), "B/reading");
    }

    private static double since(long t) {
        return (Cpu.nanos() - t) / 1e9;
    }

    private FurnaceData data() {
        return new FurnaceData(1, STEP, 500_000);
    }

    private void own() throws Exception {
        FurnaceData data = data();
        print("entropy floor of the data", data.floorBytes(), "B/reading");
        Path file = Files.createFile(fresh("own.dwrec"));
        Slicer slicer = new Slicer(data.header().channels(), 0);
        double spent = 0;
        try (RecordingWriter writer = RecordingWriter.bulk(file, file, data.header())) {
            for (long i = 0; i < cells; i++) {
                Slice slice = data.next(slicer);
                long t = Cpu.nanos();
                writer.append(slice);
                spent += since(t);
            }
        }
        size("own", file);
        print("own, write in bulk", spent, "s");
        for (int round = 0; round < 12; round++) {
            try (RecordingFile r = RecordingFile.open(file)) {
                long[] n = {0};
                long t = Cpu.nanos();
                r.forEachRun(-1, Long.MIN_VALUE + 1, Long.MAX_VALUE, run -> n[0] += run.size);
                print("own, decode everything", n[0] / since(t) / 1e6, "M readings/s");
            }
        }
    }

    /** One table, one row a reading: channel, time in ms, count; committed each second, but not forced. */
    private void sqliteRows() throws Exception {
        Path file = fresh("rows.sqlite");
        FurnaceData data = data();
        Slicer slicer = new Slicer(data.header().channels(), 0);
        double spent = 0;
        try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file);
                Statement s = c.createStatement()) {
            s.execute("PRAGMA journal_mode=WAL");
            s.execute("PRAGMA synchronous=OFF");
            s.execute("CREATE TABLE r(channel INTEGER, time INTEGER, count INTEGER,"
                    + " PRIMARY KEY(channel, time)) WITHOUT ROWID");
            c.setAutoCommit(false);
            try (PreparedStatement insert = c.prepareStatement("INSERT INTO r VALUES (?, ?, ?)")) {
                for (long i = 0; i < cells; i++) {
                    Slice slice = data.next(slicer);
                    long t = Cpu.nanos();
                    insert(slice, insert);
                    if (i % 10 == 9) {
                        c.commit();
                    }
                    spent += since(t);
                }
            }
            c.commit();
        }
        size("SQLite, one row a reading", file);
        print("SQLite, one row a reading, write", spent, "s");
    }

    private static void insert(Slice slice, PreparedStatement insert) throws Exception {
        int channel = 0;
        for (Block block : slice.blocks()) {
            for (int k = 0; k < block.size(); k++) {
                insert.setInt(1, channel);
                insert.setLong(2, block.timeNanos(k) / STEP);
                insert.setLong(3, block.count(k));
                insert.executeUpdate();
            }
            channel++;
        }
    }

    private void duckdb() throws Exception {
        Path file = fresh("duck.db");
        Path parquet = fresh("duck.parquet");
        try (Connection c = DriverManager.getConnection("jdbc:duckdb:" + file);
                Statement s = c.createStatement()) {
            s.execute("ATTACH ':memory:' AS m");
            s.execute("CREATE TABLE r(channel UTINYINT, time INTEGER, count SMALLINT)");
            org.duckdb.DuckDBConnection duck = c.unwrap(org.duckdb.DuckDBConnection.class);
            FurnaceData data = data();
            Slicer slicer = new Slicer(data.header().channels(), 0);
            try (org.duckdb.DuckDBAppender out = duck.createAppender("main", "r")) {
                for (long i = 0; i < cells; i++) {
                    int channel = 0;
                    for (Block block : data.next(slicer).blocks()) {
                        for (int k = 0; k < block.size(); k++) {
                            out.beginRow();
                            out.append((byte) channel);
                            out.append((int) (block.timeNanos(k) / STEP));
                            out.append((short) block.count(k));
                            out.endRow();
                        }
                        channel++;
                    }
                }
            }
            s.execute("CREATE TABLE sorted AS SELECT * FROM r ORDER BY channel, time");
            s.execute("DROP TABLE r");
            s.execute("CHECKPOINT");
            long t = Cpu.nanos();
            s.execute("COPY sorted TO '" + parquet + "' (FORMAT parquet, COMPRESSION zstd, PARQUET_VERSION v2)");
            print("Parquet, zstd, version 2, write", since(t), "s");
            Path again = fresh("again.db");
            s.execute("ATTACH '" + again + "' AS again");
            s.execute("CREATE TABLE again.r AS SELECT * FROM sorted");
            s.execute("CHECKPOINT again");
            s.execute("DETACH again");
            size("DuckDB's own file, integers, sorted", again);
            for (int round = 0; round < 2; round++) {
                t = Cpu.nanos();
                try (ResultSet r = s.executeQuery("SELECT sum(count), max(time) FROM '" + parquet + "'")) {
                    r.next();
                }
                print("Parquet, read everything for a sum", cells * 20 / since(t) / 1e6, "M readings/s");
            }
        }
        size("Parquet, zstd, version 2, sorted", parquet);
    }

    /** Something to be timed. */
    private interface Work {
        void run() throws Exception;
    }

    /** By the clock, and the processor time of all threads. */
    private void timed(String what, Work work) throws Exception {
        long clock = System.nanoTime();
        long cpu = Cpu.ofProcess();
        work.run();
        print(what + ", by the clock", (System.nanoTime() - clock) / 1e9, "s");
        print(what + ", processor", (Cpu.ofProcess() - cpu) / 1e9, "s");
    }

    private void tables() throws Exception {
        Path csv = fresh("own.csv");
        Path parquet = fresh("own.parquet");
        try (RecordingFile r = RecordingFile.open(folder.resolve("own.dwrec"))) {
            timed("CSV, own export", () -> TableExport.toFile(
                    r, csv, TableFormat.CSV, ExportOptions.ALL, Progress.NONE));
            timed("Parquet, own export", () -> TableExport.toFile(
                    r, parquet, TableFormat.PARQUET, ExportOptions.ALL, Progress.NONE));
        }
        print("CSV, size", Files.size(csv) / 1e6, "MB");
        size("Parquet, own", parquet);
        for (int round = 0; round < ROUNDS; round++) {
            Path imported = fresh("imported.dwrec");
            timed("CSV, own import into a recording", () -> TableImport.run(
                    csv, imported, ImportOptions.NONE, Progress.NONE));
            Path file = fresh("csv.db");
            timed("CSV, DuckDB's reader into its own file", () -> duckdbReads(csv, file));
        }
        Path imported = fresh("imported.dwrec");
        timed("Parquet, own import into a recording", () -> TableImport.run(
                parquet, imported, ImportOptions.NONE, Progress.NONE));
    }

    private static void duckdbReads(Path csv, Path file) throws Exception {
        try (Connection c = DriverManager.getConnection("jdbc:duckdb:" + file);
                Statement s = c.createStatement()) {
            s.execute("CREATE TABLE r AS SELECT * FROM read_csv('" + csv + "', header = true)");
            s.execute("CHECKPOINT");
        }
    }
}
