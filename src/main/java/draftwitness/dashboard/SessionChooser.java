package draftwitness.dashboard;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * What to look at; the program behind the window fills this in. Called on the user-interface thread; returns at once.
 * The outcome of a command is told to the {@link DashboardModel}: {@code showLive}, {@code showRecording} or
 * {@code fail}.
 */
public interface SessionChooser {

    /** Starts the built-in demo house. */
    void startDemo();

    /** Opens a recording. */
    void openRecording(Path file);

    /** Connects instruments and shows them live. */
    void watch(WatchRequest request);

    /** Instruments in reach, as known now; looking for them goes on in the background. */
    List<FoundSource> sources();

    /** Recordings made or opened lately, newest first. */
    List<RecentRecording> recent();

    /** Writes the readings of the recording that is looked at as a table, over a file that is there. */
    void exportTable(Path target);

    /**
     * Writes the strips as a picture (PNG), over a file that is there.
     *
     * @param title written above them
     */
    void savePicture(String title, ChartFrame frame, Theme theme, Path target);

    /**
     * Lays cycles of the recording that is looked at over each other.
     *
     * @param other another recording whose cycles are offered as well, or empty
     */
    void compare(Optional<Path> other);

    /** Lets the alarm sound once, so that a person knows it. */
    void testAlarm();

    /** The window is closing and recording has ended: stop everything. */
    void closed();
}
