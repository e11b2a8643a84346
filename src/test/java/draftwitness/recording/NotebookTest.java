package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
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
    void givenManyChanges_whenUndoneAndDoneAgain_thenEachStepIsThereAndTheEvidenceStaysTheSame() throws Exception {
        Path path = RoundTripTest.record(folder.resolve("a.dwrec"), HEADER, RandomSessions.slow(HEADER, 5, 0, 1000));
        String evidence = Verifier.verify(path).evidence();
        Notebook book = Notebook.of(path);
        List<List<Note>> states = new ArrayList<>();
        states.add(book.notes());
        Note a = book.add(10, 10, "a", NOW);
        states.add(book.notes());
        book.add(20, 30, "b", NOW);
        states.add(book.notes());
        book.change(new Note(a.id(), 5, 6, "a, seen again", NOW));
        states.add(book.notes());
        book.remove(a, NOW);
        states.add(book.notes());
        for (int round = 0; round < 2; round++) {
            for (int i = states.size() - 2; i >= 0; i--) {
                assertThat(book.undo(NOW)).isPresent();
                assertThat(book.notes()).isEqualTo(states.get(i));
            }
            assertThat(book.undo(NOW)).isEmpty();
            for (int i = 1; i < states.size(); i++) {
                assertThat(book.redo(NOW)).isPresent();
                assertThat(book.notes()).isEqualTo(states.get(i));
            }
            assertThat(book.redo(NOW)).isEmpty();
        }
        book.undo(NOW);
        book.add(1, 1, "instead", NOW);
        assertThat(book.redo(NOW)).isEmpty();
        assertThat(book.notes()).hasSize(3);
        assertThat(Verifier.verify(path).evidence()).isEqualTo(evidence).hasSize(64);
        assertThat(Verifier.verify(path).damages()).isEmpty();
        DamageTest.sql(path, "UPDATE event SET detail = 'x' WHERE number = 0");
        assertThat(Verifier.verify(path).evidence()).isNotEqualTo(evidence);
    }

    @Test
    void givenNotes_whenTheFileIsRepaired_thenTheyAreSavedWithTheirPastAndDamagedOnesAreNamed() throws Exception {
        Path path = RoundTripTest.record(folder.resolve("a.dwrec"), HEADER, RandomSessions.slow(HEADER, 5, 0, 1000));
        Notebook book = Notebook.of(path);
        book.add(10, 10, "a", NOW);
        Note b = book.add(20, 30, "b", NOW);
        book.remove(b, NOW);
        byte[] bytes = Files.readAllBytes(path);
        Arrays.fill(bytes, 0, Schema.PAGE_BYTES, (byte) 0x55);
        Path broken = Files.write(folder.resolve("broken.dwrec"), bytes);
        Path saved = folder.resolve("saved.dwrec");
        assertThat(Repair.run(broken, saved).notes()).isEqualTo(3);
        assertThat(Notebook.of(saved).notes()).isEqualTo(book.notes());
        Notebook.of(saved).undo(NOW);
        assertThat(Notebook.of(saved).notes()).hasSize(2);
        DamageTest.sql(path, "UPDATE note SET text = 'c' WHERE change = 1");
        assertThat(Verifier.verify(path).damages()).extracting(Damage::part).containsExactly(Damage.Part.NOTE);
        DamageTest.sql(path, "DELETE FROM note WHERE change = 1");
        assertThat(Verifier.verify(path).damages()).extracting(Damage::part).containsExactly(Damage.Part.NOTE);
    }

    @Test
    void givenAnotherFile_whenItsNotesAreAskedFor_thenItIsRefused() throws Exception {
        Path path = Files.writeString(folder.resolve("a.dwrec"), "x".repeat(3000));
        assertThatThrownBy(() -> Notebook.of(path)).isInstanceOf(RecordingException.class);
    }
}
