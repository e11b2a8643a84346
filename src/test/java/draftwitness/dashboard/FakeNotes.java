package draftwitness.dashboard;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

/** Notes in memory. */
public final class FakeNotes implements NoteStore {
    private final Deque<List<NoteMark>> before = new ArrayDeque<>();
    private List<NoteMark> notes = List.of();

    @Override
    public List<NoteMark> notes() {
        return notes;
    }

    private void become(List<NoteMark> next) {
        before.push(notes);
        notes = List.copyOf(next);
    }

    @Override
    public void add(long nanos, String text) {
        List<NoteMark> next = new ArrayList<>(notes);
        next.add(new NoteMark(before.size() + 1, nanos, nanos, text));
        become(next);
    }

    @Override
    public void change(NoteMark note) {
        become(notes.stream().map(n -> n.id() == note.id() ? note : n).toList());
    }

    @Override
    public void remove(NoteMark note) {
        become(notes.stream().filter(n -> n.id() != note.id()).toList());
    }

    @Override
    public void undo() {
        notes = before.pop();
    }

    @Override
    public boolean canUndo() {
        return !before.isEmpty();
    }
}
