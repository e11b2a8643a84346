package draftwitness.app;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.Words;
import draftwitness.dashboard.Work;
import draftwitness.dashboard.view.ChartPicture;
import draftwitness.input.InputException;
import draftwitness.recording.ExportOptions;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.TableExport;
import draftwitness.recording.TableFormat;
import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.CancellationException;
import java.util.concurrent.Executor;

/** Writes tables and pictures behind the window, one after the other, with progress and a way to call it off. */
final class Exports {
    private static final int WIDTH = 1600;
    private static final int HEIGHT = 1000;

    private final Executor executor;
    private final DashboardModel model;

    Exports(Executor executor, DashboardModel model) {
        this.executor = executor;
        this.model = model;
    }

    /** Writes a recording as a table; opens it anew, so that it may be left meanwhile. */
    void table(Path recording, Path target) {
        run(target, job -> {
            try (RecordingFile file = RecordingFile.open(recording)) {
                TableExport.toFile(file, target, TableFormat.CSV, ExportOptions.ALL, share -> {
                    job.share(share);
                    return !job.isCancelled();
                });
            }
        });
    }

    /** Writes strips as a picture. */
    void picture(String title, ChartFrame frame, Theme theme, Path target) {
        run(target, job -> new ChartPicture(theme, 1).write(title, frame, WIDTH, HEIGHT, target));
    }

    private interface Writing {
        void write(Work.Job job) throws RecordingException, InputException, IOException;
    }

    private void run(Path target, Writing writing) {
        String name = String.valueOf(target.getFileName());
        Work.Job job = model.work().begin(Words.get("work.export", name));
        executor.execute(() -> {
            String outcome;
            try (job) {
                writing.write(job);
                outcome = Words.get("work.exported", target.toString());
            } catch (CancellationException e) {
                outcome = Words.get("work.cancelled", name);
            } catch (RecordingException | InputException e) {
                outcome = Words.get("work.cancelled", name);
                model.fail(String.valueOf(e.getMessage()));
            } catch (IOException e) {
                outcome = Words.get("work.cancelled", name);
                model.fail(target + ": cannot be written (" + e.getMessage() + "). Choose another folder.");
            }
            model.work().tell(outcome);
        });
    }
}
