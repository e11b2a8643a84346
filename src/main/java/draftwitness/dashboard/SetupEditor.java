package draftwitness.dashboard;

import draftwitness.input.InputException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Edits the setups of appliances: open, change, undo, save, copy. What was changed and not saved is kept until it is
 * saved or discarded on purpose. User-interface thread.
 */
public final class SetupEditor {

    /** Where setups are kept, one a name; the program behind the window fills this in. */
    public interface Store {
        /** Names of the setups kept, in the order to show. */
        List<String> names();

        /**
         * The text of a setup.
         *
         * @throws InputException if it cannot be read
         */
        String read(String name) throws InputException;

        /**
         * Keeps a setup, over the one of that name if there is one.
         *
         * @throws InputException if it cannot be written
         */
        void save(String name, String toml) throws InputException;
    }

    private static final int MOST_UNDO = 200;

    private final Store store;
    private final Deque<SetupDraft> undo = new ArrayDeque<>();
    private final Deque<SetupDraft> redo = new ArrayDeque<>();
    private SetupDraft draft = SetupDraft.empty();
    private SetupDraft saved = draft;
    private @Nullable SetupField lastChanged;
    private String name = "";

    public SetupEditor(Store store) {
        this.store = store;
    }

    /** Names of the setups kept. */
    public List<String> names() {
        return store.names();
    }

    /** The name of the setup being edited; empty for one that was never saved. */
    public String name() {
        return name;
    }

    public SetupDraft draft() {
        return draft;
    }

    /** True when there are changes that are not saved. */
    public boolean isChanged() {
        return !draft.equals(saved);
    }

    /**
     * Opens a setup; what is unsaved in the present one can be had back by {@link #undo}.
     *
     * @throws InputException if it cannot be read; the present one stays
     */
    public void open(String newName) throws InputException {
        SetupDraft opened = SetupDraft.of(newName, store.read(newName));
        change(opened, null);
        name = newName;
        saved = opened;
    }

    /** Begins a new setup with nothing in it. */
    public void begin() {
        change(SetupDraft.empty(), null);
        name = "";
        saved = draft;
    }

    /** Types into a line; typing on in the same line is one step to undo. */
    public void type(SetupField field, String text) {
        SetupDraft next = draft.with(field, text);
        if (next.equals(draft)) {
            return;
        }
        if (field.equals(lastChanged) && !undo.isEmpty()) {
            draft = next;
            redo.clear();
        } else {
            change(next, field);
        }
    }

    private void change(SetupDraft next, @Nullable SetupField field) {
        if (!next.equals(draft)) {
            undo.push(draft);
            if (undo.size() > MOST_UNDO) {
                undo.removeLast();
            }
            redo.clear();
            draft = next;
        }
        lastChanged = field;
    }

    public boolean canUndo() {
        return !undo.isEmpty();
    }

    public boolean canRedo() {
        return !redo.isEmpty();
    }

    /** Takes the last change back. */
    public void undo() {
        if (canUndo()) {
            redo.push(draft);
            draft = undo.pop();
            lastChanged = null;
        }
    }

    /** Makes the change taken back last again. */
    public void redo() {
        if (canRedo()) {
            undo.push(draft);
            draft = redo.pop();
            lastChanged = null;
        }
    }

    /**
     * Saves under a name; under another than before it is a copy, and the old one stays.
     *
     * @throws InputException if the name is empty, the draft is not valid, or it cannot be written; nothing is lost
     *     then
     */
    public void save(String newName) throws InputException {
        if (newName.isBlank()) {
            throw new InputException(Words.get("setup.error.name"));
        }
        String problem = draft.problem();
        if (problem != null) {
            throw new InputException(problem);
        }
        store.save(newName.strip(), draft.toToml());
        name = newName.strip();
        saved = draft;
    }
}
