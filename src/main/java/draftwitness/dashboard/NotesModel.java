package draftwitness.dashboard;

import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Notes at moments: the list, the one in hand, what is typed. A note is kept when it is added, not when something else
 * is closed; a text that was typed and not added stays while the notes are hidden. User-interface thread.
 */
public final class NotesModel {
    private final ZoneId zone;
    private NoteStore store = NoteStore.none();
    private boolean open;
    private @Nullable Long chosen;
    private String typed = "";

    NotesModel(ZoneId zone) {
        this.zone = zone;
    }

    /** Notes of something else from now on. */
    public void follow(NoteStore next) {
        store = next;
        chosen = null;
    }

    public List<NoteMark> notes() {
        return store.notes();
    }

    /** Whether the list is shown beside the strips. */
    public boolean isOpen() {
        return open;
    }

    public void toggle() {
        open = !open;
    }

    /** What stands in the line for a new text. */
    public String typed() {
        return typed;
    }

    public void type(String text) {
        typed = text;
    }

    /** The note in hand, or null. */
    public @Nullable NoteMark chosen() {
        Long id = chosen;
        return id == null
                ? null
                : notes().stream().filter(n -> n.id() == id).findFirst().orElse(null);
    }

    /** Takes a note into the hand; its text may then be changed. */
    public void choose(@Nullable NoteMark note) {
        Long id = note == null ? null : (Long) note.id();
        if (note != null && !note.equals(chosen())) {
            typed = note.text();
        }
        chosen = id;
    }

    /** Puts what was typed at a moment; nothing happens when nothing was typed. */
    public void add(long nanos) {
        if (!typed.isBlank()) {
            store.add(nanos, typed.strip());
            typed = "";
            chosen = null;
        }
    }

    /** Gives the note in hand the text that was typed. */
    public void change() {
        NoteMark note = chosen();
        if (note != null && !typed.isBlank()) {
            store.change(new NoteMark(note.id(), note.fromNanos(), note.toNanos(), typed.strip()));
            typed = "";
            chosen = null;
        }
    }

    /** Removes the note in hand; undo brings it back. */
    public void remove() {
        NoteMark note = chosen();
        if (note != null) {
            store.remove(note);
            typed = "";
            chosen = null;
        }
    }

    public void undo() {
        store.undo();
    }

    public boolean canUndo() {
        return store.canUndo();
    }

    /** The moment of a note, in words; by the session's start, or from it when that is unknown. */
    public String time(NoteMark note, ChartFrame frame) {
        long at = frame.start() == null ? note.fromNanos() - frame.extent().fromNanos() : note.fromNanos();
        return Figures.timeOfDay(frame.start(), at, zone);
    }
}
