package draftwitness.app;

import draftwitness.capture.CaptureSession;
import draftwitness.capture.SourceHealth;
import draftwitness.capture.SourcePlan;
import draftwitness.cycle.LiveReport;
import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.FoundSource;
import draftwitness.dashboard.GuidedFeed;
import draftwitness.dashboard.NoteStore;
import draftwitness.dashboard.Playhead;
import draftwitness.dashboard.RecentRecording;
import draftwitness.dashboard.Recording;
import draftwitness.dashboard.ReplayControl;
import draftwitness.dashboard.SessionChooser;
import draftwitness.dashboard.SessionModel;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.WatchRequest;
import draftwitness.dashboard.Words;
import draftwitness.dashboard.Work;
import draftwitness.dashboard.view.DashboardWindow;
import draftwitness.diagnosis.guided.GuidedResult;
import draftwitness.diagnosis.guided.GuidedText;
import draftwitness.driver.DriverCatalog;
import draftwitness.furnace.Scenario;
import draftwitness.input.InputException;
import draftwitness.link.LinkException;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.RecordingWriter;
import draftwitness.setup.Setup;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.ThreadFactory;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/**
 * The window and what runs behind it: at most one live session or opened recording at a time. Commands come on the
 * user-interface thread; opening and stopping happens on one background thread, in order.
 */
public final class DashboardProgram implements SessionChooser {
    private final Path folder = Path.of(System.getProperty("user.home"), "Draftwitness");
    private final ExecutorService background = worker("dashboard-work");
    private final ExecutorService reading = worker("dashboard-reading");
    private final ExecutorService finishing = worker("dashboard-finishing");
    private final ExecutorService telling = worker("dashboard-telling");
    private final ScheduledExecutorService alarms =
            Executors.newSingleThreadScheduledExecutor(threads("dashboard-alarm"));
    private final CountDownLatch closed = new CountDownLatch(1);
    private final AtomicReference<@Nullable DashboardWindow> window = new AtomicReference<>();
    private final ExecutorService loading = worker("dashboard-loading");
    private final ExecutorService exporting = worker("dashboard-exporting");
    private final ExecutorService looking = worker("dashboard-looking");
    private final InReach inReach = new InReach(looking, DriverCatalog.shipped());
    private final RecentRecordings recent = new RecentRecordings(folder, looking);
    private final SetupFolder setups;
    private final StopSignal stop;
    private final DashboardModel model;
    private final Exports exports;
    private final Comparisons comparisons;
    private final AlarmTone tone;
    // Owned by the background thread:
    private @Nullable CaptureSession session;
    private @Nullable LiveRecordControl recording;
    private @Nullable RecordingFile opened;
    private Work.@Nullable Job loadingJob;
    private @Nullable ScheduledFuture<?> alarm;
    private @Nullable LiveNotes liveNotes;
    private volatile @Nullable Path shownFile;
    private @Nullable RecordingStory story;

    private DashboardProgram(StopSignal stop) {
        this.stop = stop;
        SettingsFile settings = SettingsFile.usual();
        this.setups = new SetupFolder(settings.folder().resolve("setups"));
        this.model = new DashboardModel(
                ZoneId.systemDefault(), reading, SwingUtilities::invokeLater, settings.read(), settings);
        this.exports = new Exports(exporting, model);
        this.comparisons = new Comparisons(loading, SwingUtilities::invokeLater, model);
        this.tone = new AlarmTone(exporting, model::fail);
    }

    private static ExecutorService worker(String name) {
        return Executors.newSingleThreadExecutor(threads(name));
    }

    private static ThreadFactory threads(String name) {
        return work -> {
            Thread thread = new Thread(work, name);
            thread.setDaemon(true);
            return thread;
        };
    }

    /** What the window begins with. */
    private interface Beginning {
        void begin(DashboardProgram program);
    }

    /** Opens the window on the demo house; returns when it was closed. */
    public static void onDemo(StopSignal stop) throws InterruptedException {
        run(stop, DashboardProgram::startDemo);
    }

    /** Opens the window on a recording; returns when it was closed. */
    public static void onRecording(Path file, double speed, StopSignal stop) throws InterruptedException {
        run(stop, p -> p.open(file, speed, true));
    }

    /**
     * Opens the window on live sources; returns when it was closed.
     *
     * @param out a recording to start at once, or null
     */
    public static void onSources(List<SourcePlan> plans, Setup setup, String name, @Nullable Path out, StopSignal stop)
            throws InterruptedException {
        run(stop, p -> p.background.execute(() -> p.openLive(plans, setup, name, out)));
    }

    private static void run(StopSignal stop, Beginning beginning) throws InterruptedException {
        DashboardProgram program = new DashboardProgram(stop);
        stop.attend();
        SwingUtilities.invokeLater(() -> {
            program.window.set(DashboardWindow.open(program.model, program, program.setups, program.folder));
            beginning.begin(program);
        });
        while (!program.closed.await(50, TimeUnit.MILLISECONDS)) {
            if (stop.await(50, TimeUnit.MILLISECONDS)) {
                program.closed(); // from outside: sources and recording are ended in good order all the same
                program.closed.await();
            }
        }
    }

    @Override
    public void startDemo() {
        background.execute(() -> {
            Scenario demo = Sessions.demo();
            try {
                openLive(Sessions.plans(demo.name(), 1, 1), Sessions.setupOf(demo), demo.title(), null);
            } catch (InputException e) {
                model.fail(String.valueOf(e.getMessage()));
            }
        });
    }

    @Override
    public void openRecording(Path file) {
        open(file, 1, false);
    }

    @Override
    public List<FoundSource> sources() {
        return inReach.known();
    }

    @Override
    public List<RecentRecording> recent() {
        return recent.known();
    }

    @Override
    public void watch(WatchRequest request) {
        background.execute(() -> {
            try {
                Setup setup = Setup.parse("setup", request.setupToml());
                String name = setup.title().isEmpty() ? "Live" : setup.title();
                openLive(plans(request), setup, name, null);
            } catch (InputException e) {
                model.fail(String.valueOf(e.getMessage()));
            }
        });
    }

    /** Readings of one instrument become one source. */
    private static List<SourcePlan> plans(WatchRequest request) throws InputException {
        List<String> specs = request.choices().stream()
                .map(c -> c.source().spec())
                .distinct()
                .toList();
        List<String> sources = new ArrayList<>();
        List<String> taps = new ArrayList<>();
        for (int i = 0; i < specs.size(); i++) {
            sources.add("s" + (i + 1) + "=" + specs.get(i));
        }
        for (WatchRequest.Choice c : request.choices()) {
            String id = "s" + (specs.indexOf(c.source().spec()) + 1);
            String reading = c.source().reading();
            taps.add(c.tap().role() + "=" + id + (reading.isEmpty() ? "" : "." + reading));
        }
        return new SourcePlanner(DriverCatalog.shipped()).plan(sources, taps);
    }

    private void open(Path file, double speed, boolean play) {
        background.execute(() -> {
            try {
                RecordingFile next = RecordingFile.open(file);
                RecordingWindows windows = RecordingWindows.open(next);
                leave();
                opened = next;
                recent.opened(file);
                shownFile = file;
                load(windows, file);
                RecordingStory told = new RecordingStory(file);
                story = told;
                SwingUtilities.invokeLater(() -> show(file, next, windows, told, speed, play));
                telling.execute(() -> read(told));
            } catch (RecordingException e) {
                model.fail(String.valueOf(e.getMessage()));
            }
        });
    }

    private void load(RecordingWindows windows, Path file) {
        Work.Job job = model.work().begin(Words.get("work.reading", String.valueOf(file.getFileName())));
        loadingJob = job;
        loading.execute(() -> {
            try (job) {
                windows.load(job::share, job::isCancelled);
            } catch (RecordingException e) {
                model.fail(String.valueOf(e.getMessage()));
            }
        });
    }

    private void read(RecordingStory told) {
        try {
            told.read();
        } catch (RecordingException e) {
            model.fail(String.valueOf(e.getMessage()));
        }
    }

    private void show(
            Path file, RecordingFile next, RecordingWindows windows, RecordingStory told, double speed, boolean play) {
        Playhead playhead = new Playhead(Ticker.system(), windows.extent());
        playhead.speed(Math.max(ReplayControl.MIN_SPEED, Math.min(ReplayControl.MAX_SPEED, speed)));
        model.showRecording(
                new Recording(String.valueOf(file.getFileName()), next.header(), windows, windows.sources(), playhead),
                told,
                new NotedAnswers(file, telling, Ticker.system(), model::fail));
        if (play) {
            model.togglePlay();
        }
        RecordingNotes notes = new RecordingNotes(file, Ticker.system(), finishing, model::fail);
        model.notes().follow(notes);
        model.guided().recording(next.header(), new GuidedSpans(next), (result, kept) -> keep(notes, result, kept));
    }

    private void openLive(List<SourcePlan> plans, Setup setup, String name, @Nullable Path out) {
        leave();
        try {
            RecordSwitch recorder = new RecordSwitch();
            SessionModel shown = new SessionModel();
            GuidedFeed guided = new GuidedFeed();
            LiveReport report = new LiveReport(setup);
            CaptureSession live = Sessions.live(plans, setup, stop, List.of(recorder, shown, report, guided));
            LiveRecordControl control =
                    new LiveRecordControl(recorder, live::hasEnded, folder, Ticker.system(), finishing);
            if (out != null) {
                RecordingWriter.checkTarget(out);
                control.start(out);
            }
            live.start();
            session = live;
            recording = control;
            LiveNotes notes = new LiveNotes(control::file, Ticker.system(), finishing, model::fail);
            control.onFile(notes::save);
            liveNotes = notes;
            listen(report);
            SwingUtilities.invokeLater(() -> {
                model.showLive(name, shown, control, report::snapshot);
                model.zeros().follow(live.zeros());
                model.askSensors(
                        () -> live.health().stream().map(DashboardProgram::told).toList());
                model.notes().follow(notes);
                model.guided().live(guided, (result, told) -> keep(notes, result, told));
            });
        } catch (InputException | LinkException | RecordingException e) {
            model.fail(String.valueOf(e.getMessage()));
        }
    }

    /** A sensor's state and figures for people. */
    private static String told(SourceHealth h) {
        String state =
                h.state().name().toLowerCase(Locale.ROOT) + (h.detail().isEmpty() ? "" : " (" + h.detail() + ")");
        return HealthReporter.line(h) + "\n" + Words.get("sensors.state", state);
    }

    /** Keeps the result of a guided measurement where the session's notes are. */
    private static void keep(NoteStore notes, GuidedResult result, Consumer<String> told) {
        long from = result.spans().stream()
                .mapToLong(GuidedResult.Span::fromNanos)
                .min()
                .orElse(0);
        notes.add(from, GuidedText.of(result));
        told.accept(Words.get("guided.kept"));
    }

    /** Ends what is open now. */
    private void leave() {
        if (session != null) {
            session.stop();
            session = null;
        }
        if (recording != null) {
            recording.awaitFinished();
            recording = null;
        }
        if (liveNotes != null) {
            LiveNotes notes = liveNotes;
            liveNotes = null;
            finishing.execute(() -> notes.leave(folder));
        }
        if (loadingJob != null) {
            loadingJob.cancel();
            loadingJob = null;
        }
        shownFile = null;
        if (story != null) {
            story.cancel();
            story = null;
        }
        if (opened != null) {
            RecordingFile ending = opened;
            opened = null;
            reading.execute(() -> close(ending)); // after the last question that is still being answered
        }
    }

    private void close(RecordingFile ending) {
        try {
            ending.close();
        } catch (RecordingException e) {
            model.fail(String.valueOf(e.getMessage()));
        }
    }

    @Override
    public void exportTable(Path target) {
        Path file = shownFile;
        if (file != null) {
            exports.table(file, target);
        }
    }

    @Override
    public void savePicture(String title, ChartFrame frame, Theme theme, Path target) {
        exports.picture(title, frame, theme, target);
    }

    @Override
    public void compare(Optional<Path> other) {
        Path file = shownFile;
        if (file != null) {
            comparisons.show(other.map(o -> List.of(file, o)).orElse(List.of(file)));
        }
    }

    @Override
    public void testAlarm() {
        tone.play(AlarmJudge.Alarm.LOCKOUT);
    }

    /** Listens to what a live session's analysis says, until the next session. */
    private void listen(LiveReport report) {
        AlarmJudge judge = new AlarmJudge();
        ScheduledFuture<?> before = alarm;
        if (before != null) {
            before.cancel(false);
        }
        alarm = alarms.scheduleWithFixedDelay(
                () -> judge.news(report.snapshot())
                        .filter(a -> model.settings().alarm())
                        .ifPresent(tone::play),
                250,
                250,
                TimeUnit.MILLISECONDS);
    }

    @Override
    public void closed() {
        background.execute(() -> {
            leave();
            finishing.execute(() -> exporting.execute(closed::countDown)); // notes and tables are written first
        });
    }
}
