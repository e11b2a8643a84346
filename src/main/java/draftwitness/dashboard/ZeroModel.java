package draftwitness.dashboard;

import draftwitness.reading.Tap;
import draftwitness.reading.ZeroControl;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Taking zeros with both ports open to air, as the screen shows it: one row a tap, with what to press and what came of
 * it. Owned by the event dispatch thread.
 */
public final class ZeroModel {
    private @Nullable ZeroControl control;

    ZeroModel() {}

    /**
     * One tap.
     *
     * @param tap whose zero it is
     * @param title what it is called
     * @param words what was taken, or why not; what to do before that
     * @param percent of the time that is over while it is being taken, else 0
     * @param taking whether readings are being taken now
     * @param refused whether the last attempt was refused
     * @param undoable whether an offset is in force that can be taken back
     */
    public record Row(
            Tap tap, String title, String words, int percent, boolean taking, boolean refused, boolean undoable) {}

    /** Takes zeros of a live session from now on; null when there is none. */
    public void follow(@Nullable ZeroControl next) {
        control = next;
    }

    /** Whether there is a live session with pressure taps. */
    public boolean isPossible() {
        return control != null && !control.taps().isEmpty();
    }

    /** The rows as they stand now, in the session's order. */
    public List<Row> rows() {
        List<Row> rows = new ArrayList<>();
        ZeroControl known = control;
        if (known != null) {
            for (Tap tap : known.taps()) {
                rows.add(row(tap, known.status(tap)));
            }
        }
        return rows;
    }

    private static Row row(Tap tap, ZeroControl.Status status) {
        boolean taking = status.state() == ZeroControl.State.TAKING;
        String words = status.words().isEmpty() ? Words.get("zero.ready") : status.words();
        return new Row(
                tap,
                tap.role(),
                status.pascals() == 0 || taking
                        ? words
                        : words + String.format(Locale.ROOT, " (%.1f Pa)", status.pascals()),
                taking ? (int) Math.round(100 * status.fraction()) : 0,
                taking,
                status.state() == ZeroControl.State.REFUSED,
                status.pascals() != 0);
    }

    /** Begins, or gives up when it is being taken. */
    public void press(Tap tap) {
        ZeroControl known = control;
        if (known == null) {
            return;
        }
        if (known.status(tap).state() == ZeroControl.State.TAKING) {
            known.cancel(tap);
        } else {
            known.start(tap);
        }
    }

    /** Takes the newest offset of a tap back. */
    public void undo(Tap tap) {
        if (control != null) {
            control.undo(tap);
        }
    }
}
