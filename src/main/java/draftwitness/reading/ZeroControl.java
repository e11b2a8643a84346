package draftwitness.reading;

import java.util.List;

/**
 * Guided zeros of a live session: for 5 s both ports of an instrument are open to air, and its readings are judged. If
 * they were steady, their median is taken off from then on, and kept with the recording; if not, the status says why.
 * Methods may be called from any thread and return at once; what was asked happens with the session's next slice, 0.1 s
 * later, so a status may still be the old one for that long.
 */
public interface ZeroControl {

    /** How far it has come. */
    enum State {
        /** Nothing was asked, or it was given up. */
        NONE,
        /** Readings are being taken; both ports must stay open to air. */
        TAKING,
        /** They were steady, and the offset holds. */
        TAKEN,
        /** They were not steady, or something was missing; nothing has changed. */
        REFUSED,
        /** The newest offset was taken back. */
        UNDONE
    }

    /**
     * How a tap's zero stands.
     *
     * @param state how far
     * @param fraction of the time that is over, 0 to 1
     * @param words what to tell: what was taken or why not; empty before anything was asked
     * @param pascals the offset in force, taken off this tap's readings; 0 for none
     */
    record Status(State state, double fraction, String words, double pascals) {}

    /** The session's pressure taps, in its order: those that have a zero. */
    List<Tap> taps();

    /** Begins to take a tap's zero, or begins anew; several taps may be taken at once. */
    void start(Tap tap);

    /** Gives up taking a tap's zero; without effect if it is not being taken. */
    void cancel(Tap tap);

    /** Takes the newest offset of a tap back; the one before it holds again. Without effect if there is none. */
    void undo(Tap tap);

    /** How a tap's zero stands. */
    Status status(Tap tap);
}
