package draftwitness.app;

import draftwitness.cycle.Cycle;
import draftwitness.dashboard.ColumnGrid;
import draftwitness.dashboard.CompareModel;
import draftwitness.dashboard.ComparedCycle;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Figures;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.Words;
import draftwitness.dashboard.Work;
import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Tap;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.Executor;

/** Finds the cycles of one or two recordings for laying them over each other; behind the window. */
final class Comparisons {
    private static final int COLUMNS = 1200;
    private static final long AFTER_NANOS = 10_000_000_000L;
    private static final long LONGEST_NANOS = 1_200_000_000_000L;

    private final Executor executor;
    private final Executor ui;
    private final DashboardModel model;

    Comparisons(Executor executor, Executor ui, DashboardModel model) {
        this.executor = executor;
        this.ui = ui;
        this.model = model;
    }

    /** Shows the cycles of recordings to compare; on trouble, or when called off, nothing changes. */
    void show(List<Path> files) {
        Work.Job job = model.work().begin(Words.get("work.compare"));
        executor.execute(() -> {
            try (job) {
                List<ComparedCycle> found = new ArrayList<>();
                for (int i = 0; i < files.size(); i++) {
                    found.addAll(cycles(files.get(i), job, i / (double) files.size(), 1.0 / files.size()));
                }
                if (found.isEmpty()) {
                    model.fail(Words.get("compare.none"));
                } else {
                    ui.execute(() -> model.compare().show(found));
                }
            } catch (CancellationException e) {
                model.work().tell(Words.get("compare.cancelled"));
            } catch (RecordingException e) {
                model.fail(String.valueOf(e.getMessage()));
            }
        });
    }

    /** All cycles of a recording with the draft around each. */
    static List<ComparedCycle> cycles(Path path, Work.Job job, double done, double part) throws RecordingException {
        try (RecordingFile file = RecordingFile.open(path)) {
            RecordingWindows windows = RecordingWindows.open(file);
            TimeSpan extent = windows.extent();
            Judged judged = Judged.of(file, KeptSetup.orDefaults(file), file.zeros(), nanos -> {
                job.share(done + part * (nanos - extent.fromNanos()) / Math.max(1, extent.lengthNanos()));
                return !job.isCancelled();
            });
            Tap tap = tap(file.header());
            List<ComparedCycle> found = new ArrayList<>();
            for (Cycle cycle : judged.cycles().cycles()) {
                long length = Math.min(cycle.endNanos() - cycle.startNanos() + AFTER_NANOS, LONGEST_NANOS);
                long from = cycle.startNanos() - CompareModel.BEFORE_NANOS;
                TimeSpan span = new TimeSpan(from, from + CompareModel.BEFORE_NANOS + length);
                found.add(new ComparedCycle(
                        String.valueOf(path.getFileName()),
                        Figures.timeOfDay(file.header().start(), cycle.startNanos(), ZoneId.systemDefault()),
                        cycle,
                        windows.columns(tap, ColumnGrid.covering(span, COLUMNS))));
            }
            return found;
        }
    }

    /** The draft at the switch; without it the first pressure, for the shape at least. */
    private static Tap tap(SessionHeader header) {
        return header.channels().stream()
                .map(Channel::tap)
                .filter(t -> t.quantity() == Quantity.PRESSURE)
                .min((a, b) -> Boolean.compare(b == Tap.DRAFT_SWITCH, a == Tap.DRAFT_SWITCH))
                .orElse(Tap.DRAFT_SWITCH);
    }
}
