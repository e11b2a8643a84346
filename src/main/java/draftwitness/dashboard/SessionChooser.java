package draftwitness.dashboard;

import java.nio.file.Path;

/**
 * What to look at; the program behind the window fills this in. Called on the user-interface thread; returns at once.
 * The outcome is told to the {@link DashboardModel}: {@code showLive}, {@code showRecording} or {@code fail}.
 */
public interface SessionChooser {

    /** Starts the built-in demo house. */
    void startDemo();

    /** Opens a recording. */
    void openRecording(Path file);

    /** The window is closing and recording has ended: stop everything. */
    void closed();
}
