package draftwitness.dashboard;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.Gap;
import draftwitness.cycle.LiveSnapshot;
import draftwitness.cycle.Now;
import draftwitness.cycle.Phase;
import draftwitness.cycle.PhaseSpan;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Tells the sequence as it happens: live by what is expected, in a recording by what came. Pure. */
final class SequenceWriter {
    private static final long SECOND = 1_000_000_000L;

    /** Late is later than expected by this and by a quarter of the expected length (the program's own). */
    private static final long SLACK = 3 * SECOND;

    private final @Nullable Instant start;
    private final ZoneId zone;
    private final int attempts;

    /**
     * A writer for one session.
     *
     * @param attempts after which the control gives up
     */
    SequenceWriter(@Nullable Instant start, ZoneId zone, int attempts) {
        this.start = start;
        this.zone = zone;
        this.attempts = attempts;
    }

    // ---- live

    /** The line of a session that goes on. */
    SequenceLine live(LiveSnapshot snapshot, long headNanos) {
        Now now = snapshot.now();
        Phase phase = now.phase();
        if (phase == null) {
            return SequenceLine.NONE;
        }
        long at = snapshot.ended() ? now.atNanos() : Math.max(now.atNanos(), headNanos);
        Expectation next = expectation(now, at);
        return new SequenceLine(
                Words.get("phase." + phase.id()),
                Figures.duration(at - now.sinceNanos()),
                tone(phase),
                next.text(),
                next.tone(),
                attempt(phase, now.attempt()),
                next.why());
    }

    private static Tone tone(Phase phase) {
        return switch (phase) {
            case LOCKOUT -> Tone.DANGER;
            case RECYCLE -> Tone.ATTENTION;
            case STANDBY -> Tone.QUIET;
            default -> Tone.NORMAL;
        };
    }

    private String attempt(Phase phase, int attempt) {
        if (attempt < 1 || phase == Phase.STANDBY) {
            return "";
        }
        String key = phase == Phase.LOCKOUT ? "sequence.gave-up" : "sequence.attempt";
        return Words.get(key, String.valueOf(attempt), String.valueOf(Math.max(attempts, attempt)));
    }

    private record Expectation(String text, Tone tone, String why) {
        static final Expectation NONE = new Expectation("", Tone.QUIET, "");
    }

    private Expectation expectation(Now now, long at) {
        Now.Next next = now.next();
        Phase phase = now.phase();
        if (next == null || phase == null) {
            return Expectation.NONE;
        }
        if (phase == Phase.STANDBY || phase == Phase.LOCKOUT) {
            return new Expectation(Words.get("next.from." + phase.id()), Tone.QUIET, "");
        }
        String event = Words.get("next." + next.phase().id());
        Long latest = next.latestNanos();
        if (latest != null && at > latest + SECOND) {
            return new Expectation(
                    Words.get("next.overdue", event, time(latest), Figures.duration(at - latest)),
                    Tone.DANGER,
                    Words.get("next.why.limit"));
        }
        Long expected = next.expectedNanos();
        if (expected == null) {
            String until = latest == null ? "" : Words.get("next.latest", time(latest));
            return new Expectation(Words.get("next.some-time", event) + until, Tone.NORMAL, "");
        }
        return byClock(now, event, expected, at, next.learnt());
    }

    private Expectation byClock(Now now, String event, long expected, long at, boolean learnt) {
        String why = Words.get(learnt ? "next.why.learnt" : "next.why.setup");
        if (now.phase() == Phase.RUN) { // the thermostat ends it: neither early nor late
            String usual = Figures.duration(expected - now.sinceNanos());
            return new Expectation(Words.get("next.run-usual", event, usual), Tone.NORMAL, why);
        }
        long late = at - expected;
        if (late > SLACK + (expected - now.sinceNanos()) / 4) {
            return new Expectation(
                    Words.get("next.late", event, time(expected), Figures.duration(late)), Tone.ATTENTION, why);
        }
        return late >= 0
                ? new Expectation(Words.get("next.due", event), Tone.NORMAL, why)
                : new Expectation(
                        Words.get("next.in", event, Figures.duration(-late + SECOND - 1), time(expected)),
                        Tone.NORMAL,
                        why);
    }

    private String time(long nanos) {
        return Figures.timeOfDay(start, nanos, zone);
    }

    // ---- a recording

    /** The line of a moment of a recording. */
    SequenceLine at(CycleReport report, long nanos) {
        for (Gap lockout : report.lockouts()) {
            if (nanos >= lockout.startNanos() && nanos < lockout.endNanos()) {
                return line(Phase.LOCKOUT, nanos - lockout.startNanos(), Words.get("next.from.lockout"), "");
            }
        }
        Cycle next = null;
        for (Cycle c : report.cycles()) {
            if (nanos < c.startNanos()) {
                next = c;
                break;
            }
            if (nanos < c.endNanos()) {
                return within(c, nanos);
            }
        }
        if (report.cycles().isEmpty()) {
            return SequenceLine.NONE;
        }
        String then = next == null
                ? Words.get("then.nothing")
                : Words.get("then.start", Figures.duration(next.startNanos() - nanos), time(next.startNanos()));
        return new SequenceLine(Words.get("phase.standby"), "", Tone.QUIET, then, Tone.QUIET, "", "");
    }

    private SequenceLine within(Cycle c, long nanos) {
        List<PhaseSpan> phases = c.phases();
        int attempt = 1;
        for (int i = 0; i < phases.size(); i++) {
            PhaseSpan p = phases.get(i);
            attempt += p.phase() == Phase.RECYCLE && i > 0 ? 1 : 0;
            boolean last = i == phases.size() - 1;
            if (nanos < p.endNanos() || last) {
                int shown = p.phase() == Phase.RECYCLE ? Math.max(1, attempt - 1) : attempt;
                String then = last ? Words.get("then.end", c.outcome().words()) : then(phases.get(i + 1), nanos);
                return line(p.phase(), nanos - p.startNanos(), then, attempt(p.phase(), shown));
            }
        }
        return line(Phase.SPIN_UP, nanos - c.startNanos(), "", "");
    }

    private String then(PhaseSpan next, long nanos) {
        String event = Words.get("next." + next.phase().id());
        return Words.get("then.in", event, Figures.duration(next.startNanos() - nanos), time(next.startNanos()));
    }

    private static SequenceLine line(Phase phase, long lasted, String then, String attempt) {
        return new SequenceLine(
                Words.get("phase." + phase.id()),
                Figures.duration(lasted),
                tone(phase),
                then,
                Tone.NORMAL,
                attempt,
                "");
    }
}
