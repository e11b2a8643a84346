package draftwitness.dashboard;

import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The commands that reach beyond the screen: recording, opening, closing. Whatever would end a running recording asks
 * first, finishes the file, and goes on only when it is complete. User-interface thread.
 */
public final class Desk {
    private static final int PICTURE_COLUMNS = 1300;

    private final DashboardModel model;
    private final SessionChooser chooser;
    private final Questions questions;
    private @Nullable Runnable afterRecording;

    public Desk(DashboardModel model, SessionChooser chooser, Questions questions) {
        this.model = model;
        this.chooser = chooser;
        this.questions = questions;
    }

    /** Starts recording into a new file. */
    public void record() {
        RecordControl record = model.record();
        if (record != null && !record.status().state().busy()) {
            record.start(record.suggestedFile());
        }
    }

    /** Finishes the recording. */
    public void stop() {
        RecordControl record = model.record();
        if (record != null && record.status().state() == RecordControl.State.RECORDING) {
            record.stop();
        }
    }

    /** Starts recording, or finishes it. */
    public void toggleRecord() {
        if (model.controls().canStop()) {
            stop();
        } else {
            record();
        }
    }

    /** Asks for a recording and opens it. */
    public void open() {
        questions.recordingToOpen().ifPresent(this::open);
    }

    /** Opens a recording. */
    public void open(Path file) {
        leave(() -> chooser.openRecording(file));
    }

    /** Goes to the demo house. */
    public void demo() {
        leave(chooser::startDemo);
    }

    /** Lays two cycles of the recording that is looked at over each other. */
    public void compare() {
        if (model.controls().replay()) {
            chooser.compare(Optional.empty());
        }
    }

    /** Asks for another recording, before or after a repair, and compares with it. */
    public void compareWith() {
        if (model.controls().replay()) {
            questions.recordingToOpen().ifPresent(other -> chooser.compare(Optional.of(other)));
        }
    }

    /** Lets the alarm sound once. */
    public void testAlarm() {
        chooser.testAlarm();
    }

    /** Asks where, and writes the recording that is looked at as a table. */
    public void exportTable() {
        if (model.controls().replay()) {
            questions.fileToWrite(base() + ".csv").ifPresent(chooser::exportTable);
        }
    }

    /** Asks where, and writes what the strips show as a picture. */
    public void savePicture() {
        if (!model.isAtStart()) {
            String title = model.controls().title();
            ChartFrame frame = model.frame(PICTURE_COLUMNS, PICTURE_COLUMNS);
            questions
                    .fileToWrite(base() + ".png")
                    .ifPresent(f ->
                            chooser.savePicture(title, frame, model.settings().theme(), f));
        }
    }

    private String base() {
        String name = model.name();
        return name.endsWith(".dwrec") ? name.substring(0, name.length() - ".dwrec".length()) : name;
    }

    /** Ends the program behind the window, then calls {@code gone}. */
    public void close(Runnable gone) {
        leave(() -> {
            chooser.closed();
            gone.run();
        });
    }

    /** To be called regularly: goes on with what waits for a recording to be finished. */
    public void tick() {
        Runnable next = afterRecording;
        RecordControl record = model.record();
        if (next != null && (record == null || !record.status().state().busy())) {
            afterRecording = null;
            if (record != null && record.status().state() == RecordControl.State.FAILED) {
                return; // stay, so that the trouble can be read
            }
            next.run();
        }
    }

    private void leave(Runnable next) {
        RecordControl record = model.record();
        if (record == null || !record.status().state().busy()) {
            next.run();
        } else if (questions.finishRecording()) {
            afterRecording = next;
            record.stop();
            tick();
        }
    }
}
