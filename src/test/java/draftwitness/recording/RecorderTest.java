package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Recording on a thread of its own. */
class RecorderTest {
    @TempDir
    Path folder;

    private final List<Exception> failures = Collections.synchronizedList(new ArrayList<>());
    private final List<Thread> threads = Collections.synchronizedList(new ArrayList<>());

    private Thread thread(Runnable work) {
        Thread thread = new Thread(work);
        threads.add(thread);
        return thread;
    }

    @Test
    void givenASession_whenItEnds_thenTheFileHoldsAllOfIt() throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slices(header, 4, 0, 2 * Recorder.CAPACITY);
        Path path = folder.resolve("a.dwrec");
        Recorder recorder = new Recorder(path, this::thread, failures::add);
        recorder.begin(header);
        slices.forEach(recorder::slice);
        recorder.end();
        recorder.close();
        assertThat(failures).isEmpty();
        assertThat(threads).hasSize(1);
        assertThat(threads.get(0).getName()).isEqualTo("recorder");
        assertThat(threads.get(0).isAlive()).isFalse();
        assertThat(recorder.committedNanos()).isEqualTo(2L * Recorder.CAPACITY * Slice.CELL_NANOS);
        try (RecordingFile file = RecordingFile.open(path)) {
            assertThat(RoundTripTest.replay(file)).isEqualTo(slices);
        }
        recorder.slice(slices.get(0)); // too late, and harmless
        assertThat(RoundTripTest.filesIn(folder)).containsExactly(path);
    }

    @Test
    void givenABusyDisk_whenTheQueueIsFull_thenTheSessionWaitsAndNothingIsDropped() throws Exception {
        SessionHeader header = RandomSessions.header();
        int number = Recorder.CAPACITY + 50;
        List<Slice> slices = RandomSessions.slices(header, 4, 0, number);
        CountDownLatch diskIsFree = new CountDownLatch(1);
        Path path = folder.resolve("a.dwrec");
        Recorder recorder = new Recorder(
                path,
                work -> thread(() -> {
                    awaitQuietly(diskIsFree);
                    work.run();
                }),
                failures::add);
        recorder.begin(header);
        for (int i = 0; i < Recorder.CAPACITY; i++) {
            recorder.slice(slices.get(i));
        }
        assertThat(recorder.waits()).isZero();
        Thread session =
                new Thread(() -> slices.subList(Recorder.CAPACITY, number).forEach(recorder::slice));
        session.start();
        session.interrupt(); // an interrupt must not cost a slice either
        while (recorder.waits() == 0) {
            Thread.onSpinWait();
        }
        diskIsFree.countDown();
        session.join(30_000);
        recorder.close();
        assertThat(failures).isEmpty();
        try (RecordingFile file = RecordingFile.open(path)) {
            assertThat(RoundTripTest.replay(file)).isEqualTo(slices);
        }
    }

    private static void awaitQuietly(CountDownLatch latch) {
        try {
            assertThat(latch.await(30, TimeUnit.SECONDS)).isTrue();
        } catch (InterruptedException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    void givenAnExistingFile_whenTheSessionBegins_thenItIsReportedOnceAndTheFileStays() throws Exception {
        Path path = folder.resolve("a.dwrec");
        Files.writeString(path, "mine");
        SessionHeader header = RandomSessions.header();
        Recorder recorder = new Recorder(path, this::thread, failures::add);
        recorder.begin(header);
        RandomSessions.slices(header, 1, 0, 20).forEach(recorder::slice);
        recorder.end();
        recorder.close();
        assertThat(failures).hasSize(1);
        assertThat(failures.get(0)).isInstanceOf(RecordingException.class).hasMessageContaining("is there already");
        assertThat(Files.readString(path)).isEqualTo("mine");
        assertThat(threads).isEmpty();
    }

    @Test
    void givenASliceThatDoesNotFollow_whenRecorded_thenItIsReportedOnceAndWhatWasBeforeIsKept() throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slices(header, 4, 0, 100);
        Path path = folder.resolve("a.dwrec");
        Recorder recorder = new Recorder(path, this::thread, failures::add);
        recorder.begin(header);
        slices.subList(0, 57).forEach(recorder::slice);
        slices.subList(60, 100).forEach(recorder::slice);
        recorder.close();
        assertThat(failures).hasSize(1);
        try (RecordingFile file = RecordingFile.open(path)) {
            assertThat(RoundTripTest.replay(file)).isEqualTo(slices.subList(0, 57));
        }
    }
}
