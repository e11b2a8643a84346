package draftwitness.dashboard.view;

import draftwitness.dashboard.ColumnGrid;
import draftwitness.dashboard.FoundSource;
import draftwitness.dashboard.FurnaceFeed;
import draftwitness.dashboard.RecentRecording;
import draftwitness.dashboard.SeriesWindows;
import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;

/** Invented instruments and recordings for the start screen. */
final class Sensors {
    private Sensors() {}

    static List<FoundSource> three() {
        return List.of(
                new FoundSource(
                        "ascii-line@serial:/dev/ttyUSB0?baud=9600",
                        "pressure",
                        "Serial port ttyUSB0",
                        Quantity.PRESSURE,
                        "\u22120.3 Pa",
                        ""),
                new FoundSource(
                        "ascii-line@serial:/dev/ttyUSB1?baud=9600",
                        "pressure",
                        "Serial port ttyUSB1",
                        Quantity.PRESSURE,
                        "0.1 Pa",
                        ""),
                new FoundSource(
                        "ascii-line@serial:/dev/ttyACM0",
                        "",
                        "Serial port ttyACM0",
                        null,
                        "",
                        "In use by another program. Close it there."));
    }

    static List<RecentRecording> recent() {
        SeriesWindows windows =
                Objects.requireNonNull(FurnaceFeed.usual().played(900).shown()).windows();
        ColumnGrid worst = new ColumnGrid(60_000_000_000L, 250_000_000L, 110);
        return List.of(
                new RecentRecording(
                        Path.of("back-hall-2026-01-16-2204.dwrec"),
                        "Back hall furnace",
                        "Fri 16 Jan, 22:04, 9 h 12 min",
                        windows.columns(Tap.DRAFT_SWITCH, worst)),
                new RecentRecording(
                        Path.of("garage-2026-01-12-1410.dwrec"), "Garage unit", "Mon 12 Jan, 14:10, 24 min", null));
    }
}
