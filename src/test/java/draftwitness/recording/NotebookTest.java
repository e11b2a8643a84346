package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Notes on a recording, made and changed while its readings stay untouched. */
class NotebookTest {
    private static final SessionHeader HEADER = RandomSessions.header();
    private static final Instant NOW = Instant.parse("2026-01-18T08:00:00Z");

    @TempDir
    Path folder;

    @Test
    void givenAFinishedFile_whenNotesChange_thenTheyCanBeUndoneAndTheEvidenceIsUntouched() throws Exception {
        List<Slice> slices = RandomSessions.slow(HEADER, 5, 0, 1000);
        Path path = RoundTripTest.record(folder.resolve("a.dwrec"), HEADER, slices);
        Notebook book = Notebook.of(path);
        Note late = book.add(50_000_000_000L, 60_000_000_000L, "gurgling \u00e4", NOW);
        Note early = book.add(1_000_000_000L, 1_000_000_000L, "", NOW);
        assertThat(book.notes()).containsExactly(early, late);
        Note changed = new Note(late.id(), late.fromNanos(), late.toNanos(), "wind", NOW.plusSeconds(9));
        book.change(changed);
        assertThat(book.notes()).containsExactly(early, changed);
        book.undo(late.id(), NOW);
        assertThat(book.notes()).containsExactly(early, late);
        book.remove(early, NOW);
        assertThat(book.notes()).containsExactly(late);
        book.undo(early.id(), NOW);
        assertThat(book.notes()).containsExactly(early, late);
        Note added = book.add(2, 2, "a", NOW);
        book.undo(added.id(), NOW);
        assertThat(book.notes()).containsExactly(early, late);
        assertThat(Verifier.verify(path).damages()).isEmpty();
        try (RecordingFile file = RecordingFile.open(path)) {
            assertThat(RoundTripTest.replay(file)).isEqualTo(slices);
            assertThat(file.header()).isEqualTo(HEADER);
        }
        assertThat(RoundTripTest.filesIn(folder)).containsExactly(path);
    }

    @Test
    void givenARecordingGoingOn_whenANoteIsAdded_thenBothGoOn() throws Exception {
        List<Slice> slices = RandomSessions.slow(HEADER, 5, 0, 1500);
        Path path = folder.resolve("a.dwrec");
        Note note;
        try (RecordingWriter writer = RecordingWriter.create(path, HEADER)) {
            for (Slice slice : slices.subList(0, 705)) {
                writer.append(slice);
            }
            note = Notebook.of(path).add(5, 5, "now", NOW);
            for (Slice slice : slices.subList(705, 1500)) {
                writer.append(slice);
            }
        }
        assertThat(Notebook.of(path).notes()).containsExactly(note);
        try (RecordingFile file = RecordingFile.open(path)) {
            assertThat(RoundTripTest.replay(file)).isEqualTo(slices);
        }
        assertThat(RoundTripTest.filesIn(folder)).containsExactly(path);
    }

    @Test
    void givenAnotherFile_whenItsNotesAreAskedFor_thenItIsRefused() throws Exception {
        Path path = Files.writeString(folder.resolve("a.dwrec"), "x".repeat(3000));
        assertThatThrownBy(() -> Notebook.of(path)).isInstanceOf(RecordingException.class);
    }
}
