package draftwitness.dashboard;

/**
 * Moving through a recording; the program behind the window fills this in. Called on the user-interface thread; returns
 * at once.
 */
public interface ReplayControl {

    /** Slowest and fastest speed. */
    double MIN_SPEED = 0.25;

    double MAX_SPEED = 60;

    /**
     * Where replay is.
     *
     * @param positionNanos session time of the playhead
     * @param playing true while it moves by itself
     * @param speed times real time
     */
    record Status(long positionNanos, boolean playing, double speed) {}

    void play();

    void pause();

    /** Moves the playhead; outside the recording it goes to the nearer end. */
    void seek(long nanos);

    /**
     * Sets the speed.
     *
     * @param times of real time, {@link #MIN_SPEED} to {@link #MAX_SPEED}
     */
    void speed(double times);

    /** The present status; cheap. */
    Status status();
}
