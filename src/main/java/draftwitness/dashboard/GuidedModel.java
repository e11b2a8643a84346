package draftwitness.dashboard;

import draftwitness.diagnosis.Answer;
import draftwitness.diagnosis.guided.GuidedAnswers;
import draftwitness.diagnosis.guided.GuidedKind;
import draftwitness.diagnosis.guided.GuidedNow;
import draftwitness.diagnosis.guided.GuidedPlan;
import draftwitness.diagnosis.guided.GuidedResult;
import draftwitness.diagnosis.guided.GuidedRun;
import draftwitness.diagnosis.guided.Part;
import draftwitness.diagnosis.guided.Terms;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.reading.Zeros;
import draftwitness.setup.Setup;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Executor;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Guided measurements on screen: choosing one, walking through its steps, its verdict. User-interface thread.
 *
 * <p>Live, a step takes readings from the moment that the big button is pressed; in a recording it reads the span that
 * the person gave, on the background thread. Nothing is pushed: the window asks for {@link #screen} when it draws.
 */
public final class GuidedModel {

    /** Reads spans of a recording; the program behind the window fills this in. Called on the background thread. */
    public interface Spans {
        /**
         * Takes a part's readings from a span.
         *
         * @param cancelled asked in between; what was read by then counts
         * @throws UncheckedIOException if the recording cannot be read
         */
        void take(GuidedRun run, String part, TimeSpan span, BooleanSupplier cancelled);
    }

    /** Keeps results; the program behind the window fills this in. */
    public interface Keeper {
        /**
         * Keeps a result with the recording.
         *
         * @param told where it went, or why it could not be kept; any thread
         */
        void keep(GuidedResult result, Consumer<String> told);
    }

    private final Executor background;
    private final Executor ui;
    private final Consumer<String> failed;
    private final Map<String, Answer> answers = new LinkedHashMap<>();
    private @Nullable GuidedFeed feed;
    private @Nullable Spans spans;
    private @Nullable SessionHeader recorded;
    private @Nullable Keeper keeper;
    private TimeSpan suggested = new TimeSpan(0, 1);
    private boolean open;
    private @Nullable GuidedPlan plan;
    private @Nullable GuidedRun read;
    private @Nullable GuidedNow readNow;
    private boolean reading;
    private boolean cancelled;
    private String step = "";
    private String from = "";
    private String to = "";
    private @Nullable GuidedResult keptResult;
    private String kept = "";
    private Setup setup = Setup.defaults();

    /**
     * A model with nothing to measure on.
     *
     * @param background reads recordings, one task after the other
     * @param ui runs tasks on the user-interface thread
     * @param failed told in one line what went wrong
     */
    GuidedModel(Executor background, Executor ui, Consumer<String> failed) {
        this.background = background;
        this.ui = ui;
        this.failed = failed;
    }

    // ---- what is measured on

    /** Measures on a live session from now on. */
    public void live(GuidedFeed live, Keeper resultKeeper) {
        detach();
        feed = live;
        keeper = resultKeeper;
    }

    /** Measures on a recording from now on. */
    public void recording(SessionHeader header, Spans reader, Keeper resultKeeper) {
        detach();
        recorded = header;
        spans = reader;
        keeper = resultKeeper;
    }

    /** Nothing to measure on any more. */
    public void detach() {
        close();
        feed = null;
        spans = null;
        recorded = null;
        keeper = null;
        answers.clear();
    }

    private @Nullable SessionHeader header() {
        return feed != null ? feed.header() : recorded;
    }

    /** Whether there is a session to measure on. */
    public boolean isPossible() {
        return header() != null;
    }

    /** Whether the screen of guided measurements is shown. */
    public boolean isOpen() {
        return open && isPossible();
    }

    // ---- commands

    /**
     * Opens the choice of measurements.
     *
     * @param plate what the session's setup says
     * @param span read by default in a recording
     */
    public void open(Setup plate, TimeSpan span) {
        setup = plate;
        suggested = span;
        open = true;
    }

    /** Leaves the measurement for the choice, or the choice for what was shown before. */
    public void back() {
        if (plan != null) {
            leavePlan();
        } else {
            close();
        }
    }

    /** Leaves the screen; a step that is running ends. */
    public void close() {
        leavePlan();
        open = false;
    }

    private void leavePlan() {
        cancelled = true;
        plan = null;
        read = null;
        readNow = null;
        keptResult = null;
        kept = "";
        if (feed != null) {
            feed.stop();
            feed.forget();
        }
    }

    /** Chooses a measurement; false if what is connected is not enough. */
    public boolean choose(GuidedKind kind) {
        SessionHeader header = header();
        Optional<GuidedPlan> chosen = header == null ? Optional.empty() : GuidedPlan.of(kind, taps(header), null);
        if (chosen.isEmpty() || header == null) {
            return false;
        }
        leavePlan();
        GuidedPlan next = chosen.get();
        plan = next;
        step = next.parts().get(0).id();
        Terms terms = Terms.of(setup).in(unit(header, next));
        if (feed != null) {
            feed.prepare(next, terms);
        } else {
            read = new GuidedRun(next, terms, new Zeros());
            from = Durations.clock(suggested.fromNanos());
            to = Durations.clock(suggested.toNanos());
        }
        return true;
    }

    /**
     * Opens the measurement that makes a check of the diagnosis; false if there is none, or what is connected is not
     * enough: then the choice is open.
     *
     * @param checkId a check's identifier
     */
    public boolean startGuided(String checkId, Setup plate, TimeSpan span) {
        if (!isPossible()) {
            return false;
        }
        open(plate, span);
        return GuidedAnswers.kindOf(checkId).map(this::choose).orElse(false);
    }

    private static Set<Tap> taps(SessionHeader header) {
        return header.channels().stream().map(Channel::tap).collect(Collectors.toSet());
    }

    private static Unit unit(SessionHeader header, GuidedPlan plan) {
        return header.channelAt(plan.parts().get(0).taps().get(0))
                .map(Channel::unit)
                .orElse(Unit.PASCAL);
    }

    /** Chooses the step that the big button is about; not while one is running. */
    public void step(String partId) {
        if (plan != null && plan.part(partId).isPresent() && !isRunning()) {
            step = partId;
        }
    }

    /** The span to read in a recording, as typed. */
    public void span(String fromText, String toText) {
        from = fromText;
        to = toText;
    }

    /** The big button: takes the step's readings, or ends the step. */
    public void go() {
        if (plan == null) {
            return;
        }
        if (isRunning()) {
            cancelled = true;
            if (feed != null) {
                feed.stop();
            }
            return;
        }
        keptResult = null;
        kept = "";
        if (feed != null) {
            feed.begin(step);
        } else {
            readSpan();
        }
    }

    private void readSpan() {
        GuidedRun run = read;
        Spans reader = spans;
        if (run == null || reader == null) {
            return;
        }
        String part = step;
        TimeSpan span;
        try {
            long first = Durations.parseMomentNanos(from.strip());
            long end = Durations.parseMomentNanos(to.strip());
            if (end <= first) {
                throw new InputException(Words.get("guided.span.empty"));
            }
            span = new TimeSpan(first, end);
        } catch (InputException e) {
            failed.accept(String.valueOf(e.getMessage()));
            return;
        }
        reading = true;
        cancelled = false;
        background.execute(() -> {
            GuidedNow now = null;
            String trouble = "";
            try {
                reader.take(run, part, span, () -> cancelled || read != run);
                now = run.now();
            } catch (UncheckedIOException e) {
                trouble = String.valueOf(e.getMessage());
            }
            GuidedNow done = now;
            String line = trouble;
            ui.execute(() -> readDone(run, done, line));
        });
    }

    private void readDone(GuidedRun run, @Nullable GuidedNow now, String trouble) {
        reading = false;
        if (!trouble.isEmpty()) {
            failed.accept(Words.get("error.reading", trouble));
        } else if (run == read && now != null) {
            readNow = now;
        }
    }

    private boolean isRunning() {
        GuidedNow now = now();
        return reading || (now != null && now.running() != null);
    }

    private @Nullable GuidedNow now() {
        return feed != null ? feed.now() : readNow;
    }

    /** What the measurements made so far say to the diagnosis; the newest of a check counts. */
    public List<Answer> answers() {
        return List.copyOf(answers.values());
    }

    // ---- what to draw

    /**
     * What the screen shows now; goes on to the next step when one has ended, and keeps a result that is complete.
     *
     * @param units what pressures are shown in
     */
    public GuidedScreen screen(UnitChoice units) {
        SessionHeader header = header();
        GuidedPlan p = plan;
        if (header == null || p == null) {
            return GuidedWriter.choices(header == null ? Set.of() : taps(header));
        }
        GuidedNow now = now();
        follow(p, now);
        GuidedWriter.View view = new GuidedWriter.View(
                p, header, units, step, reading, kept, feed != null ? null : new GuidedScreen.SpanText(from, to));
        return GuidedWriter.write(view, now);
    }

    /** A step that runs is the chosen one; when it has ended the next open one is; a complete result is kept once. */
    private void follow(GuidedPlan p, @Nullable GuidedNow now) {
        if (now == null || reading) {
            return;
        }
        if (now.running() != null) {
            step = now.running().id();
            return;
        }
        if (now.taken().contains(step)) {
            p.parts().stream()
                    .map(Part::id)
                    .filter(id -> !now.taken().contains(id))
                    .findFirst()
                    .ifPresent(id -> step = id);
        }
        boolean complete = now.taken().size() == p.parts().size();
        if (complete && !now.result().equals(keptResult)) {
            keptResult = now.result();
            new ArrayList<>(GuidedAnswers.of(now.result())).forEach(a -> answers.put(a.check(), a));
            if (keeper != null) {
                keeper.keep(now.result(), line -> ui.execute(() -> kept = line));
            }
        }
    }
}
