package draftwitness.dashboard.view;

import draftwitness.app.Sessions;
import draftwitness.capture.CaptureSession;
import draftwitness.cycle.CycleAnalyzer;
import draftwitness.cycle.LiveReport;
import draftwitness.cycle.LiveSnapshot;
import draftwitness.dashboard.SessionModel;
import draftwitness.dashboard.Story;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.setup.Setup;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** A stretch of the model house, run once at full speed and then played to screens as often as wanted. */
final class House {
    private final List<Slice> slices = new ArrayList<>();
    private SessionHeader header;

    private House() {}

    /** So much of a scenario, always with seed 1. */
    static House of(String scenario, Duration length) {
        House house = new House();
        try {
            CaptureSession session = Sessions.simulated(scenario, 1, length.toNanos(), List.of(house.new Keeper()));
            session.start();
            if (!session.awaitEnd(120, TimeUnit.SECONDS)) {
                throw new AssertionError("the model house did not end");
            }
            session.stop();
        } catch (Exception e) {
            throw new AssertionError(e);
        }
        return house;
    }

    private final class Keeper implements SessionListener {
        @Override
        public void begin(SessionHeader begun) {
            header = begun;
        }

        @Override
        public void slice(Slice slice) {
            slices.add(slice);
        }

        @Override
        public void end() {}
    }

    Setup setup() {
        try {
            return Setup.parse("house", header.setupToml());
        } catch (Exception e) {
            throw new AssertionError(e);
        }
    }

    /** A session on screen, and what is told of it. */
    record Shown(SessionModel session, LiveReport report) {}

    /** Begins a session with nothing in it. */
    Shown begin() {
        Shown shown = new Shown(new SessionModel(), new LiveReport(setup()));
        shown.session().begin(header);
        shown.report().begin(header);
        return shown;
    }

    /** Plays a part, in seconds of session time. */
    void play(Shown to, int fromSeconds, int toSeconds) {
        for (Slice slice : slices) {
            if (slice.index() >= fromSeconds * 10L && slice.index() < toSeconds * 10L) {
                to.session().slice(slice);
                to.report().slice(slice);
            }
        }
    }

    /** All of it in memory. */
    SessionModel whole() {
        SessionModel model = new SessionModel();
        model.begin(header);
        slices.forEach(model::slice);
        model.end();
        return model;
    }

    /** What is known of all of it. */
    Story told() {
        CycleAnalyzer analyzer = new CycleAnalyzer(setup());
        analyzer.begin(header);
        slices.forEach(analyzer::slice);
        analyzer.end();
        LiveSnapshot nothing = Story.none().snapshot();
        LiveSnapshot all = new LiveSnapshot(1, analyzer.report(), 0, nothing.now(), true);
        return () -> all;
    }
}
