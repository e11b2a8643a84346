package draftwitness.dashboard;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.Episode;
import draftwitness.cycle.Gap;
import draftwitness.cycle.Margin;
import draftwitness.cycle.Outcome;
import draftwitness.cycle.Phase;
import draftwitness.cycle.PhaseSpan;
import draftwitness.cycle.Severity;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Turns a cycle report into marks with words. Pure. */
final class HappeningsWriter {
    /** Marks are not drawn higher than this share of a healthy margin. */
    private static final double MOST = 1.3;

    private final SessionHeader header;
    private final UnitChoice units;
    private final ZoneId zone;

    HappeningsWriter(SessionHeader header, UnitChoice units, ZoneId zone) {
        this.header = header;
        this.units = units;
        this.zone = zone;
    }

    Happenings write(CycleReport report) {
        List<CycleMark> cycles = new ArrayList<>();
        List<EpisodeMark> episodes = new ArrayList<>();
        List<PhaseMark> phases = new ArrayList<>();
        for (Cycle c : report.cycles()) {
            cycles.add(cycle(c));
            for (Episode e : c.episodes()) {
                episodes.add(episode(e, c.index()));
            }
            for (int i = 0; i < c.phases().size(); i++) {
                PhaseSpan p = c.phases().get(i);
                boolean open = !c.complete() && i == c.phases().size() - 1;
                phases.add(phase(p.phase(), p.startNanos(), p.endNanos(), open));
            }
        }
        for (Gap g : report.lockouts()) {
            phases.add(phase(Phase.LOCKOUT, g.startNanos(), g.endNanos(), false));
        }
        phases.sort(Comparator.comparingLong(p -> p.span().fromNanos()));
        episodes.sort(Comparator.comparingLong(EpisodeMark::middleNanos));
        boolean telling = header.channels().stream().anyMatch(ch -> tellsCycles(ch.tap()));
        return new Happenings(cycles, episodes, phases, telling);
    }

    private static boolean tellsCycles(Tap tap) {
        return tap == Tap.DRAFT_SWITCH || tap == Tap.DRAFT_INDUCER || tap == Tap.DRAFT_COLLECTOR;
    }

    private static PhaseMark phase(Phase phase, long from, long to, boolean open) {
        Tone tone = phase == Phase.LOCKOUT ? Tone.DANGER : phase == Phase.RECYCLE ? Tone.ATTENTION : Tone.QUIET;
        String key = "phase." + phase.id();
        return new PhaseMark(
                new TimeSpan(from, Math.max(from, to)), Words.get(key), Words.get(key + ".short"), tone, open);
    }

    private static EpisodeMark episode(Episode e, int cycle) {
        return new EpisodeMark(
                new TimeSpan(e.startNanos(), e.endNanos()),
                e.tap(),
                cycle,
                Words.get("episode." + e.kind().id()),
                tone(e.kind().severity()),
                e.text());
    }

    /** The tone of a severity. */
    static Tone tone(Severity severity) {
        return switch (severity) {
            case NOTE -> Tone.QUIET;
            case ATTENTION -> Tone.ATTENTION;
            case WARNING, DANGER -> Tone.DANGER;
        };
    }

    private CycleMark cycle(Cycle c) {
        Margin m = c.margin();
        double share = m == null ? Double.NaN : m.minPascals() / PlateNotes.HEALTHY_FROM_PASCALS;
        String word = Words.get("outcome." + c.outcome().id());
        return new CycleMark(
                c.index(),
                new TimeSpan(c.startNanos(), c.endNanos()),
                sign(c.outcome()),
                outcomeTone(c, m),
                c.complete() ? word : Words.get("cycle.open"),
                Math.max(-MOST, Math.min(MOST, share)),
                !c.complete(),
                text(c, m));
    }

    private static CycleMark.Sign sign(Outcome outcome) {
        return switch (outcome) {
            case HEATED -> CycleMark.Sign.HEATED;
            case FAILED_TO_PROVE -> CycleMark.Sign.NOT_PROVED;
            case FAILED_TO_LIGHT -> CycleMark.Sign.NOT_LIT;
            case FLAME_LOST -> CycleMark.Sign.FLAME_LOST;
            case DRAFT_LOST -> CycleMark.Sign.DRAFT_LOST;
            case LOCKOUT -> CycleMark.Sign.LOCKOUT;
            case INCOMPLETE -> CycleMark.Sign.UNSURE;
        };
    }

    private static Tone outcomeTone(Cycle c, @Nullable Margin m) {
        if (c.outcome() == Outcome.INCOMPLETE) {
            return Tone.QUIET;
        }
        if (c.outcome() != Outcome.HEATED) {
            return Tone.DANGER;
        }
        return m != null && m.minPascals() < PlateNotes.THIN_BELOW_PASCALS ? Tone.ATTENTION : Tone.NORMAL;
    }

    private String text(Cycle c, @Nullable Margin m) {
        StringBuilder out = new StringBuilder(Words.get(
                "cycle.text",
                String.valueOf(c.index()),
                Figures.timeOfDay(header.start(), c.startNanos(), zone),
                Figures.duration(c.endNanos() - c.startNanos()),
                c.complete() ? c.outcome().words() : Words.get("cycle.open.text")));
        if (c.attempts() > 1) {
            out.append(Words.get("cycle.attempts", String.valueOf(c.attempts())));
        }
        out.append(m == null ? Words.get("cycle.no-margin") : Words.get("cycle.margin", pressure(m.minPascals())));
        long calling = c.episodes().stream()
                .filter(e -> tone(e.kind().severity()) != Tone.QUIET)
                .count();
        if (calling > 0) {
            out.append(Words.get(calling == 1 ? "cycle.episode" : "cycle.episodes", String.valueOf(calling)));
        }
        return out.toString();
    }

    /** A pressure in the unit that the switch's draft is shown in. */
    String pressure(double pascals) {
        Unit unit = Unit.PASCAL;
        for (Channel c : header.channels()) {
            if (tellsCycles(c.tap())) {
                unit = units.of(c);
                break;
            }
        }
        return Figures.quantity(pascals, unit, unit.usualDecimals());
    }
}
