package draftwitness.dashboard;

import java.util.List;

/**
 * Keeps the notes of what is being looked at; the program behind the window fills this in. Called on the user-interface
 * thread; returns at once, and what comes of it shows in {@link #notes()}. Trouble is told to the model.
 */
public interface NoteStore {

    /** The notes as known now, by time; cheap. */
    List<NoteMark> notes();

    void add(long nanos, String text);

    /** Changes the note of the same id. */
    void change(NoteMark note);

    void remove(NoteMark note);

    /** Takes the last change made here back; the one before it the next time. */
    void undo();

    /** True when there is a change to take back. */
    boolean canUndo();

    /** Keeps nothing: there is nothing to look at. */
    static NoteStore none() {
        return new NoteStore() {
            @Override
            public List<NoteMark> notes() {
                return List.of();
            }

            @Override
            public void add(long nanos, String text) {
                throw new IllegalStateException("nothing to put a note on");
            }

            @Override
            public void change(NoteMark note) {
                throw new IllegalStateException("there are no notes");
            }

            @Override
            public void remove(NoteMark note) {
                throw new IllegalStateException("there are no notes");
            }

            @Override
            public void undo() {}

            @Override
            public boolean canUndo() {
                return false;
            }
        };
    }
}
