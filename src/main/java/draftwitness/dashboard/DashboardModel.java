package draftwitness.dashboard;

import draftwitness.input.InputException;
import draftwitness.reading.SessionHeader;
import draftwitness.setup.Setup;
import java.time.ZoneId;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Executor;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * What the window shows and what its controls do, without the window. User-interface thread, except {@link #fail},
 * which any thread may call.
 *
 * <p>Nothing is pushed: the window asks for {@link #controls} and a {@link #frame} whenever it is ready to draw.
 */
public final class DashboardModel {
    /** Length of a step of the playhead: one cell of the session's grid. */
    public static final long STEP_NANOS = 100_000_000L;

    private final ZoneId zone;
    private final Executor background;
    private final Executor ui;
    private final Settings.Store store;
    private final FrameMaker frames;
    private final ControlsWriter writer;
    private final ZeroModel zeros = new ZeroModel();
    private Supplier<List<String>> sensors = List::of;
    private final GuidedModel guided;
    private final NotesModel notes;
    private final Work work = new Work();
    private final CompareModel compare = new CompareModel();
    private final StoryModel story;
    private final FindingsModel findings;

    private Settings settings;
    private Viewport viewport;
    private @Nullable Stage stage;
    private Setup setup = Setup.defaults();
    private @Nullable SessionHeader setupOf;
    private boolean atStart;
    private boolean measuring;
    private boolean awaitsWorst;
    private Pointing pointing = Pointing.NONE;
    private @Nullable String banner;
    private String dismissedTrouble = "";
    private TimeSpan shownWindow = new TimeSpan(0, SpanChoice.MINUTE_1.nanos());

    /**
     * A model with nothing to look at yet.
     *
     * @param zone for times of day
     * @param background runs one task after the other, off the user-interface thread; reads recordings
     * @param ui runs tasks on the user-interface thread
     * @param settings what was chosen last
     * @param store keeps what is chosen
     */
    public DashboardModel(ZoneId zone, Executor background, Executor ui, Settings settings, Settings.Store store) {
        this.zone = zone;
        this.background = background;
        this.ui = ui;
        this.settings = settings;
        this.store = store;
        this.frames = new FrameMaker(zone);
        this.writer = new ControlsWriter(zone);
        this.guided = new GuidedModel(background, ui, this::fail);
        this.notes = new NotesModel(zone);
        this.story = new StoryModel(zone);
        this.findings = new FindingsModel(background, ui);
        this.viewport = Viewport.following(settings.span());
    }

    // ---- what is looked at

    /** Looks at a live session from now on, without what the furnace does. */
    public void showLive(String name, SessionModel session, RecordControl record) {
        showLive(name, session, record, Story.none());
    }

    /** Looks at a live session from now on. */
    public void showLive(String name, SessionModel session, RecordControl record, Story told) {
        show(new Stage.Live(name, session, record));
        story.follow(told);
        findings.follow(AnswerBook.none());
    }

    /** Looks at a recording from now on, without what the furnace did. */
    public void showRecording(Recording recording) {
        showRecording(recording, Story.none(), AnswerBook.none());
    }

    /** Looks at a recording from now on; at its worst moment once that is known, unless the person was quicker. */
    public void showRecording(Recording recording, Story told, AnswerBook book) {
        TimeSpan extent = recording.windows().extent();
        show(new Stage.Replay(
                recording,
                new BackgroundWindows(recording.windows(), extent, background, this::fail),
                new BackgroundWindows(recording.windows(), extent, background, this::fail),
                new BackgroundWindows(recording.windows(), extent, background, this::fail)));
        story.follow(told);
        findings.follow(book);
        awaitsWorst = true;
    }

    /** True while the start screen is shown: nothing is looked at yet, or the person went back to it. */
    public boolean isAtStart() {
        return stage == null || atStart;
    }

    /** Goes to the start screen, or back from it to what is being looked at; a recording runs on meanwhile. */
    public void toggleStart() {
        atStart = !atStart;
    }

    private void show(Stage next) {
        guided.detach();
        zeros.follow(null);
        sensors = List::of;
        notes.follow(NoteStore.none());
        compare.close();
        atStart = false;
        awaitsWorst = false;
        stage = next;
        setupOf = null;
        setup = Setup.defaults();
        banner = null;
        pointing = Pointing.NONE;
        dismissedTrouble = "";
        frames.forget();
        viewport = Viewport.following(settings.span());
    }

    /** Shows one line about trouble: what happened and what to do. Any thread. */
    public void fail(String line) {
        ui.execute(() -> banner = line);
    }

    /** Takes the line about trouble away; it comes back when something else goes wrong. */
    public void dismissBanner() {
        RecordControl record = record();
        dismissedTrouble = record == null ? "" : record.status().trouble();
        banner = null;
    }

    // ---- guided measurements

    /** Guided measurements on the session that is looked at. */
    public GuidedModel guided() {
        return guided;
    }

    /** Opens the choice of guided measurements, or closes the screen of them. */
    public void toggleGuided() {
        if (guided.isOpen() && atStart) {
            atStart = false;
        } else if (guided.isOpen()) {
            guided.close();
        } else if (guided.isPossible()) {
            atStart = false;
            guided.open(plate(), measuredOrShown());
        }
    }

    /**
     * Opens the guided measurement that makes a check of the diagnosis; false if there is none for it, or what is
     * connected is not enough.
     *
     * @param checkId the check's identifier
     */
    public boolean startGuided(String checkId) {
        boolean started = guided.startGuided(checkId, plate(), measuredOrShown());
        atStart &= !guided.isOpen();
        return started;
    }

    private Setup plate() {
        Stage s = stage;
        ShownSession session = s == null ? null : s.session();
        if (session != null) {
            readSetup(session.header());
        }
        return setup;
    }

    private TimeSpan measuredOrShown() {
        TimeSpan measured = pointing.measured();
        return measured == null || measured.lengthNanos() <= 0 ? shownWindow : measured;
    }

    /** Zeros of the live session that is looked at. */
    public ZeroModel zeros() {
        return zeros;
    }

    /** Asks for the figures of the live session's sensors from now on: one line each, ready for people. */
    public void askSensors(Supplier<List<String>> lines) {
        sensors = lines;
    }

    /** The figures of the live session's sensors, one line each; empty without a live session. */
    public List<String> sensors() {
        return sensors.get();
    }

    // ---- notes, and work that goes on behind

    /** Notes on what is looked at; whoever shows something hands over where its notes are kept. */
    public NotesModel notes() {
        return notes;
    }

    /** Long work behind the window. */
    public Work work() {
        return work;
    }

    /** Two cycles laid over each other. */
    public CompareModel compare() {
        return compare;
    }

    /** The name of what is looked at; empty when there is nothing. */
    public String name() {
        return stage == null ? "" : stage.name();
    }

    /** The moment that a note is about: the playhead, or now, or the middle of what is held of a live session. */
    public long momentNanos() {
        Stage s = stage;
        ShownSession session = s == null ? null : s.session();
        if (s == null || session == null) {
            return 0;
        }
        return s.replay() == null && !viewport.isFollowing()
                ? shownWindow.fromNanos() + shownWindow.lengthNanos() / 2
                : s.headNanos(session);
    }

    // ---- recording

    /** The recording control of a live session, or null. */
    public @Nullable RecordControl record() {
        return stage == null ? null : stage.record();
    }

    // ---- replay

    /** Plays or pauses a recording. */
    public void togglePlay() {
        touched();
        ReplayControl replay = replay();
        if (replay != null) {
            if (replay.status().playing()) {
                replay.pause();
            } else {
                viewport = viewport.follow();
                replay.play();
            }
        }
    }

    /** Moves the playhead of a recording by so many steps, backwards when negative, and pauses. */
    public void step(int steps) {
        touched();
        ReplayControl replay = replay();
        if (replay != null) {
            replay.pause();
            replay.seek(replay.status().positionNanos() + steps * STEP_NANOS);
        }
    }

    /** Sets the replay speed. */
    public void speed(double times) {
        ReplayControl replay = replay();
        if (replay != null) {
            replay.speed(times);
        }
    }

    /** Goes to a moment: moves the playhead of a recording, or holds the strips of a live session there. */
    public void goTo(long nanos) {
        touched();
        ReplayControl replay = replay();
        if (replay != null) {
            replay.seek(nanos);
            viewport = viewport.follow();
        } else {
            long length = shownWindow.lengthNanos();
            viewport = viewport.hold(new TimeSpan(nanos - length / 2, nanos - length / 2 + length));
        }
    }

    /** Goes to the start of what is looked at, or to its end; the end of a live session is now. */
    public void goToEnd(boolean end) {
        Stage s = stage;
        ShownSession session = s == null ? null : s.session();
        if (s != null && session != null) {
            TimeSpan extent = session.windows().extent();
            if (end && s.replay() == null) {
                follow();
            } else {
                goTo(end ? extent.toNanos() : extent.fromNanos());
            }
        }
    }

    /** Moves the playhead of a recording to a moment that is shown; the strips stay. */
    public void playheadAt(long nanos) {
        touched();
        ReplayControl replay = replay();
        if (replay != null) {
            viewport = viewport.hold(shownWindow);
            replay.seek(nanos);
        }
    }

    private @Nullable ReplayControl replay() {
        return stage == null ? null : stage.replay();
    }

    // ---- the part shown

    /** Follows the newest reading, or the playhead. */
    public void follow() {
        touched();
        viewport = viewport.follow();
    }

    /** Follows when held, holds when following. */
    public void toggleFollow() {
        touched();
        viewport = viewport.isFollowing() ? viewport.hold(shownWindow) : viewport.follow();
    }

    /** Moves the part shown by a share of its length, later when positive, and holds it. */
    public void pan(double share) {
        touched();
        long by = Math.round(shownWindow.lengthNanos() * share);
        viewport = viewport.hold(new TimeSpan(shownWindow.fromNanos() + by, shownWindow.toNanos() + by));
    }

    /** Shows more (factor above 1) or less time; one moment stays where it is on screen. */
    public void zoom(double factor, long anchorNanos) {
        touched();
        viewport = viewport.zoom(shownWindow, factor, anchorNanos);
    }

    /** Shows exactly this part. */
    public void showPart(TimeSpan part) {
        touched();
        viewport = viewport.hold(part);
    }

    /** The part shown last. */
    public TimeSpan shownWindow() {
        return shownWindow;
    }

    // ---- what the furnace did

    /** What the furnace did in the session that is looked at. */
    public StoryModel story() {
        return story;
    }

    /** The findings page. */
    public FindingsModel findings() {
        return findings;
    }

    /** What the findings page shows now. */
    public Findings found() {
        Stage s = stage;
        ShownSession session = s == null ? null : s.session();
        return session == null ? Findings.NONE : findings.look(session.header().channels(), setup, story.report());
    }

    /** The sequence at the newest moment, or at the playhead. */
    public SequenceLine sequence() {
        Stage s = stage;
        ShownSession session = s == null ? null : s.session();
        return s == null || session == null
                ? SequenceLine.NONE
                : story.sequence(s.headNanos(session), s.replay() == null);
    }

    /** Goes to the next episode that calls for a person, or to the one before; false when there is none. */
    public boolean stepEpisode(boolean forward) {
        Optional<EpisodeMark> next = story.episode(reference(), forward);
        next.ifPresent(this::showEpisode);
        return next.isPresent();
    }

    /** Fills the strips with the next cycle, or with the one before; false when there is none. */
    public boolean stepCycle(boolean forward) {
        Optional<CycleMark> next = story.cycle(reference(), forward);
        next.ifPresent(this::showCycle);
        return next.isPresent();
    }

    /** From where one steps: the middle of what is held, else the head. */
    private long reference() {
        if (!viewport.isFollowing() && viewport.lengthNanos() > 0) {
            return shownWindow.fromNanos() + shownWindow.lengthNanos() / 2;
        }
        Stage s = stage;
        ShownSession session = s == null ? null : s.session();
        return s == null || session == null ? 0 : s.headNanos(session);
    }

    /** Shows an episode with what is around it. */
    public void showEpisode(EpisodeMark episode) {
        story.stepped(episode);
        reveal(StoryModel.around(episode.span()), episode.span().fromNanos());
    }

    /** Fills the strips with a cycle. */
    public void showCycle(CycleMark cycle) {
        reveal(StoryModel.filled(cycle.span()), cycle.span().fromNanos());
    }

    /** Shows readings that something rests on. */
    public void showReadings(TimeSpan span) {
        reveal(StoryModel.around(span), span.fromNanos());
    }

    private void reveal(TimeSpan part, long headNanos) {
        touched();
        findings.close();
        viewport = viewport.hold(part);
        shownWindow = part;
        ReplayControl replay = replay();
        if (replay != null) {
            replay.pause();
            replay.seek(headNanos);
        }
    }

    /** The person has chosen what to look at. */
    private void touched() {
        awaitsWorst = false;
    }

    private void openOnWorst() {
        if (awaitsWorst && story.isComplete()) {
            touched();
            story.worst().ifPresent(this::showEpisode);
        }
    }

    // ---- cursor and measure

    /** Puts the cursor at a moment, or takes it away. */
    public void point(@Nullable Long nanos) {
        pointing = pointing.at(nanos);
    }

    /** Moves the cursor by so many columns of the strips; it starts in the middle. */
    public void moveCursor(int columns) {
        Long at = pointing.cursorNanos();
        long start = at == null ? shownWindow.fromNanos() + shownWindow.lengthNanos() / 2 : at;
        long moved = start + Math.round(columns * shownWindow.lengthNanos() / 1000.0);
        point(Math.max(shownWindow.fromNanos(), Math.min(shownWindow.toNanos(), moved)));
    }

    /** Whether dragging over the strips measures instead of moving them. */
    public boolean isMeasuring() {
        return measuring;
    }

    /** Lets dragging measure, or move the strips again; the measurement goes with it. */
    public void toggleMeasuring() {
        measuring = !measuring;
        if (!measuring) {
            clearMeasure();
        }
    }

    /** Sets a point of a measurement at the cursor: the first, then the second. */
    public void mark() {
        pointing = pointing.mark();
    }

    /** Measures between two moments. */
    public void measure(long fromNanos, long toNanos) {
        pointing = pointing.between(fromNanos, toNanos);
    }

    /** Takes the measurement away; true when there was one. */
    public boolean clearMeasure() {
        boolean measured = pointing.fromNanos() != null;
        pointing = pointing.withoutMeasure();
        return measured;
    }

    /** Cursor and measure. */
    public Pointing pointing() {
        return pointing;
    }

    // ---- choices

    /** Shows so much time and follows. */
    public void choose(SpanChoice span) {
        touched();
        keep(settings.with(span));
        viewport = Viewport.following(span);
    }

    public void choose(UnitChoice units) {
        keep(settings.with(units));
    }

    public void choose(Theme theme) {
        keep(settings.with(theme));
    }

    /** Chooses the size of text: 1 is normal. */
    public void chooseTextScale(double scale) {
        keep(settings.withTextScale(scale));
    }

    /** Lets lockouts and flutter of live sessions sound, or not. */
    public void chooseAlarm(boolean on) {
        keep(settings.withAlarm(on));
    }

    private void keep(Settings chosen) {
        settings = chosen;
        store.keep(chosen);
    }

    public Settings settings() {
        return settings;
    }

    // ---- what to draw

    /** What the bars around the strips show now. */
    public Controls controls() {
        Stage s = stage;
        String trouble = trouble();
        return writer.write(
                s,
                s == null ? null : s.session(),
                setup.title(),
                viewport,
                shownWindow,
                trouble.isEmpty() ? banner : trouble,
                measuring,
                isAtStart(),
                settings);
    }

    private String trouble() {
        RecordControl record = record();
        String trouble = record == null ? "" : record.status().trouble();
        return trouble.equals(dismissedTrouble) ? "" : trouble;
    }

    /**
     * What the lanes and the overview show now.
     *
     * @param stripColumns pixel columns of a strip
     * @param overviewColumns pixel columns of the overview
     */
    public ChartFrame frame(int stripColumns, int overviewColumns) {
        Stage s = stage;
        ShownSession session = s == null ? null : s.session();
        if (s == null || session == null) {
            return ChartFrame.empty(zone);
        }
        readSetup(session.header());
        boolean live = s.replay() == null;
        Happenings happenings = story.look(session.header(), setup, settings.units(), live);
        openOnWorst();
        long head = s.headNanos(session);
        shownWindow = viewport.window(session.windows().extent(), head, live);
        FrameMaker.View view = new FrameMaker.View(session, setup, head, live, shownWindow, settings.units(), pointing);
        FrameMaker.Besides besides = new FrameMaker.Besides(s.overview(session), s.probe(session));
        return frames.frame(view, besides, stripColumns, overviewColumns).with(happenings);
    }

    private void readSetup(SessionHeader header) {
        if (Objects.equals(setupOf, header)) {
            return;
        }
        setupOf = header;
        try {
            setup = Setup.parse(Words.get("setup.name"), header.setupToml());
        } catch (InputException e) {
            setup = Setup.defaults();
            banner = Words.get("error.setup", String.valueOf(e.getMessage()));
        }
    }
}
