package draftwitness.cycle;

import draftwitness.signal.Ewma;
import draftwitness.signal.LevelWindow;
import draftwitness.signal.Robust;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Tells inducer runs from idle in the looks of one draft channel, without being told its levels. One owner thread.
 *
 * <p>How it works: at idle, the median and the spread of the last looks are the zero and the noise. A run starts when
 * suction stays above a share of the usual plateau (at first: of the set point) and well above the noise; its sign
 * tells whether the sensor is reversed. It stops when suction stays below a share of its own level; what follows is
 * watched for some seconds to find the moment when idle was reached. Results depend on the looks alone, not on when
 * they are given.
 */
final class RunDetector {
    private static final long SECOND = 1_000_000_000;
    private static final double SHORTEST_RUN_SECONDS = 3;

    /**
     * Weaker than this share of the usual plateau and shorter than half a minute is a gust or a bump, not an inducer.
     */
    private static final double WEAK_SHARE = 0.3;

    private static final double WEAK_RUN_SECONDS = 30;
    private static final int FEWEST = 2;

    /** Idle looks are taken at most so often, so that the window spans two minutes. */
    private static final long IDLE_EVERY = SECOND / 5;

    private enum State {
        UNKNOWN,
        IDLE,
        RUNNING,
        TAIL
    }

    private final CycleSettings settings;
    private final LevelWindow idle = new LevelWindow(600);
    private final LevelWindow plateaus = new LevelWindow(5);
    private State state = State.UNKNOWN;
    private long seen = Long.MIN_VALUE / 2;
    private double zero;
    private double sigma;
    private int sign = -1;
    private int provenSign;

    private long idleFrom;
    private long idleAdded = Long.MIN_VALUE / 2;
    private long candidate = Long.MIN_VALUE;
    private int candidateLooks;
    private long start;
    private boolean startSeen;
    private double runZero;
    private double runSigma;
    private Ewma smooth = new Ewma(0.2, 0);
    private double peak;
    private long cross = Long.MIN_VALUE;
    private int crossLooks;

    RunDetector(CycleSettings settings) {
        this.settings = settings;
    }

    /** Takes the looks up to a time and returns the runs that are over, with the level after them seen. */
    List<RunSpan> advance(Track track, long until) {
        List<RunSpan> over = new ArrayList<>();
        for (long i = track.at(seen + 1); i < track.end() && track.time(i) <= until; i++) {
            seen = track.time(i);
            RunSpan run = look(track, seen, track.mean(i));
            if (run != null) {
                over.add(run);
            }
        }
        return over;
    }

    /** Whether the inducer is taken to be off and nothing is pending. */
    boolean idle() {
        return state == State.IDLE || state == State.UNKNOWN;
    }

    /** Whether enough was seen to tell idle from running. */
    boolean known() {
        return state != State.UNKNOWN;
    }

    /** Whether the inducer runs; false once its suction is gone. */
    boolean running() {
        return state == State.RUNNING;
    }

    /** When the present run started, or since when it is idle. */
    long sinceNanos() {
        return switch (state) {
            case RUNNING -> start;
            case TAIL -> cross;
            default -> idleFrom;
        };
    }

    /** Reading without suction, as known now. */
    double zeroPascals() {
        return state == State.RUNNING || state == State.TAIL ? runZero : zero;
    }

    /** -1 when suction reads negative, +1 when it reads positive. */
    int sign() {
        return state == State.RUNNING || state == State.TAIL || provenSign == 0 ? sign : provenSign;
    }

    /** Looks before this time are not needed any more. */
    long needed() {
        return idle() ? (candidate == Long.MIN_VALUE ? seen : candidate) : start;
    }

    /** The run that lasts, as far as it is known; null when there is none. */
    @Nullable
    RunSpan current(Track track) {
        if (state == State.TAIL) {
            return span(track, Math.max(seen, cross), false); // the stop was seen; only the coasting down goes on
        }
        if (state != State.RUNNING) {
            return null;
        }
        double level = Edges.level(track, start, seen + 7 * SECOND, runZero, sign);
        return new RunSpan(idleFrom, start, startSeen, seen, seen, true, runZero, runSigma, sign, seen, level);
    }

    private @Nullable RunSpan look(Track track, long time, double value) {
        switch (state) {
            case UNKNOWN -> first(track, time);
            case IDLE -> {
                if (rising(time, value)) {
                    begin(track, time);
                }
            }
            case RUNNING -> running(time, value);
            case TAIL -> {
                return tail(track, time, value);
            }
        }
        return null;
    }

    private void first(Track track, long time) {
        long begin = track.time(track.first());
        if (time - begin < SECOND && track.end() - track.first() < 3 * FEWEST) {
            return;
        }
        double median = Robust.median(track.means(begin, time + 1));
        if (Math.abs(median) > 0.3 * settings.scalePascals()) {
            sign = median < 0 ? -1 : 1;
            startRun(begin, false, 0, 0.01 * settings.scalePascals());
        } else {
            zero = median;
            idleFrom = begin;
            state = State.IDLE;
        }
    }

    private double usual() {
        return plateaus.size() == 0 ? settings.scalePascals() : plateaus.median();
    }

    private double onLevel() {
        return Math.max(settings.startShare() * usual(), 6 * sigma);
    }

    private boolean rising(long time, double value) {
        double away = value - zero;
        boolean otherWay =
                Math.signum(away) != (provenSign != 0 ? provenSign : candidateLooks > 0 ? sign : Math.signum(away));
        if (Math.abs(away) <= onLevel() || otherWay) {
            candidate = Long.MIN_VALUE;
            candidateLooks = 0;
            if (time - idleAdded >= IDLE_EVERY) {
                idleAdded = time;
                idle.add(value);
                zero = idle.median();
                sigma = idle.sigma();
            }
            return false;
        }
        if (candidateLooks == 0) {
            candidate = time;
            sign = away < 0 ? -1 : 1;
        }
        candidateLooks++;
        return candidateLooks > FEWEST && time - candidate >= CycleSettings.nanos(settings.startHold());
    }

    private void begin(Track track, long time) {
        double band = Math.max(2.5 * sigma, settings.idleShare() * usual());
        long surely = candidate;
        long from = Edges.start(track, surely, zero, sign, band);
        startRun(from, true, zero, sigma);
        for (long i = track.at(surely); i < track.end() && track.time(i) <= time; i++) {
            peak = Math.max(peak, smooth.add(sign * (track.mean(i) - runZero)));
        }
    }

    private void startRun(long from, boolean seenStart, double zeroNow, double sigmaNow) {
        state = State.RUNNING;
        start = from;
        startSeen = seenStart;
        runZero = zeroNow;
        runSigma = sigmaNow;
        smooth = new Ewma(0.2, 0);
        peak = 0;
        cross = Long.MIN_VALUE;
        crossLooks = 0;
        candidate = Long.MIN_VALUE;
        candidateLooks = 0;
    }

    private void running(long time, double value) {
        double suction = sign * (value - runZero);
        peak = Math.max(peak, smooth.add(suction));
        if (suction > Math.max(settings.stopShare() * peak, 3 * runSigma)) {
            crossLooks = 0;
            return;
        }
        if (crossLooks == 0) {
            cross = time;
        }
        crossLooks++;
        if (crossLooks >= FEWEST && time - cross >= CycleSettings.nanos(settings.stopHold())) {
            state = State.TAIL;
            zero = runZero;
            sigma = runSigma;
        }
    }

    private @Nullable RunSpan tail(Track track, long time, double value) {
        double away = sign * (value - runZero);
        boolean strong = away > Math.max(onLevel(), 2 * settings.stopShare() * peak);
        candidateLooks = strong ? candidateLooks + 1 : 0;
        candidate = strong ? (candidateLooks == 1 ? time : candidate) : Long.MIN_VALUE;
        boolean restart = candidateLooks > FEWEST && time - candidate >= CycleSettings.nanos(settings.startHold());
        if (!restart && time - cross < CycleSettings.nanos(settings.tail())) {
            return null;
        }
        RunSpan run = span(track, restart ? candidate : time, false);
        boolean real = isReal();
        if (real) {
            plateaus.add(run.levelPascals());
            provenSign = run.levelPascals() > settings.scalePascals() / 2 ? run.sign() : provenSign;
        }
        state = State.IDLE;
        idle.clear();
        idleFrom = run.endNanos();
        if (restart) {
            begin(track, time);
        } else {
            for (double v : track.means(time - SECOND, time + 1)) {
                idle.add(v);
            }
            zero = idle.median();
            sigma = Math.max(idle.sigma(), runSigma);
            candidate = Long.MIN_VALUE;
            candidateLooks = 0;
        }
        return real ? run : null;
    }

    private boolean isReal() {
        double lasted = (cross - start) / 1e9;
        boolean weak = peak < WEAK_SHARE * usual() && lasted < WEAK_RUN_SECONDS;
        return !startSeen || (lasted >= SHORTEST_RUN_SECONDS && !weak);
    }

    private RunSpan span(Track track, long tailEnd, boolean lasting) {
        double level = Edges.level(track, start, cross, runZero, sign);
        long stop = Edges.stop(track, start, cross, runZero, sign, level);
        long end = Edges.end(track, stop, cross, tailEnd, runSigma, level, settings.idleShare());
        return new RunSpan(
                idleFrom,
                start,
                startSeen,
                Math.max(start, stop),
                Math.max(start, end),
                lasting,
                runZero,
                runSigma,
                sign,
                tailEnd,
                level);
    }
}
