package draftwitness.diagnosis;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.Episode;
import draftwitness.cycle.EpisodeKind;
import draftwitness.cycle.Finding;
import draftwitness.cycle.Outcome;
import draftwitness.cycle.Phase;
import draftwitness.cycle.PhaseSpan;
import draftwitness.cycle.TapLevels;
import draftwitness.reading.Channel;
import draftwitness.reading.Tap;
import draftwitness.setup.Setup;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;

/**
 * Turns what the furnace did into evidence: one outcome a kind for the whole session, with its readings. A kind that
 * the channels cannot tell is left out. Pure.
 */
final class EvidenceFinder {
    /** Flame current below which the flame is hardly seen, in microampere (typical, from memory). */
    private static final double LOW_FLAME = 1.5;

    private final Set<Tap> taps = EnumSet.noneOf(Tap.class);
    private final Setup setup;
    private final CycleReport report;
    private final List<Evidence> found = new ArrayList<>();

    EvidenceFinder(List<Channel> channels, Setup setup, CycleReport report) {
        channels.forEach(c -> taps.add(c.tap()));
        this.setup = setup;
        this.report = report;
    }

    List<Evidence> find() {
        boolean ran = report.cycles().stream().anyMatch(c -> !c.levels().isEmpty());
        if (ran) {
            found.addAll(new DraftEvidence(setup, report).find());
            lighting();
            if (taps.contains(Tap.CONTACT_BLOWER)) {
                // A gust may come just then once; a breach shows nearly every time.
                episodes("blower", EpisodeKind.BLOWER_STEP, "step", "no-step", 0.5);
            }
            if (taps.contains(Tap.GAS_INLET)) {
                episodes("inlet", EpisodeKind.GAS_SAG, "sags", "holds", 0);
            }
            manifold();
            flame();
        }
        if (taps.contains(Tap.CONTACT_SWITCH) && taps.contains(Tap.DRAFT_SWITCH)) {
            contact();
        }
        return List.copyOf(found);
    }

    private void contact() {
        if (finding("contact-closed-in-standby", "stays-closed") || finding("switch-drifted", "off-rating")) {
            return;
        }
        List<Seen> open = seen(e -> contradicts(e));
        if (!open.isEmpty()) {
            add("contact", "opens-by-itself", text(e -> contradicts(e)), open);
            return;
        }
        Predicate<Episode> chatter = e -> e.kind() == EpisodeKind.CONTACT_CHATTER;
        List<Seen> chatters = seen(chatter);
        if (!chatters.isEmpty()) {
            add("contact", "chatters", text(chatter), chatters);
        } else if (!report.cycles().isEmpty()) {
            add("contact", "follows", "the contact followed the pressure in every cycle", whole("contact.switch"));
        }
    }

    /** An open contact with suction beyond the set point, other than while suction was still rising. */
    private boolean contradicts(Episode e) {
        Setup.PressureSwitch rating = setup.pressureSwitch();
        boolean steady = e.phase() != null && e.phase() != Phase.SPIN_UP && e.phase() != Phase.POST_PURGE;
        if (e.kind() == EpisodeKind.FLUTTER) {
            return steady && "contact-only".equals(e.evidence().character());
        }
        return e.kind() == EpisodeKind.CONTACT_DISAGREES
                && rating != null
                && e.evidence().levelPascals() >= rating.setPointPascals() - 1e-6
                && steady;
    }

    private boolean finding(String kind, String outcome) {
        for (Finding f : report.findings()) {
            if (f.kind().equals(kind)) {
                add(
                        "contact",
                        outcome,
                        f.text(),
                        List.of(new Seen(f.cycle(), "contact.switch", f.startNanos(), f.endNanos())));
                return true;
            }
        }
        return false;
    }

    /** Trials that brought no flame, and flames lost, while the draft was in order. */
    private void lighting() {
        boolean gas = taps.contains(Tap.GAS_MANIFOLD)
                || taps.contains(Tap.CONTACT_GAS_VALVE)
                || taps.contains(Tap.FLAME_CURRENT);
        List<Seen> dark = new ArrayList<>();
        List<Seen> lost = new ArrayList<>();
        boolean lit = false;
        for (Cycle c : report.cycles()) {
            lit |= c.phases().stream().anyMatch(p -> p.phase() == Phase.RUN);
            Seen here = new Seen(c.index(), null, c.startNanos(), c.endNanos());
            boolean failed = c.outcome() == Outcome.FAILED_TO_LIGHT || c.reason() == Outcome.FAILED_TO_LIGHT;
            if ((failed && !disturbed(c)) || (gas && unlit(c))) {
                dark.add(here);
            }
            if ((c.outcome() == Outcome.FLAME_LOST || c.reason() == Outcome.FLAME_LOST) && !disturbed(c)) {
                lost.add(here);
            }
        }
        if (!lost.isEmpty() && lost.size() >= dark.size()) {
            add(
                    "lighting",
                    "flame-lost",
                    "the flame was lost in cycle " + lost.get(0).cycle() + " with the draft in order",
                    lost);
        } else if (!dark.isEmpty()) {
            add(
                    "lighting",
                    "no-flame",
                    "no flame within the trial in cycle " + dark.get(0).cycle() + " though the draft was proved",
                    dark);
        } else if (lit) {
            add("lighting", "lights", "the burner lit in every cycle that was proved", List.of());
        }
    }

    private static boolean unlit(Cycle c) {
        List<PhaseSpan> p = c.phases();
        for (int i = 0; i < p.size(); i++) {
            if (p.get(i).phase() == Phase.TRIAL
                    && i + 1 < p.size()
                    && p.get(i + 1).phase() == Phase.RECYCLE) {
                return !disturbed(c);
            }
        }
        return false;
    }

    /** Whether the draft or the switch had a part in it. */
    private static boolean disturbed(Cycle c) {
        return c.transitions() > 0
                || c.episodes().stream()
                        .anyMatch(e -> e.kind() == EpisodeKind.FLUTTER
                                || e.kind() == EpisodeKind.NO_PROVING
                                || e.kind() == EpisodeKind.CONTACT_DISAGREES
                                || e.kind() == EpisodeKind.CONTACT_CHATTER);
    }

    private void manifold() {
        if (!taps.contains(Tap.GAS_MANIFOLD)) {
            return;
        }
        Predicate<Episode> hunting = e -> e.kind() == EpisodeKind.GAS_HUNTING;
        Predicate<Episode> off = e -> e.kind() == EpisodeKind.GAS_OFF_TARGET;
        List<Seen> swings = seen(hunting);
        List<Seen> wrong = seen(off);
        if (!swings.isEmpty() && swings.size() >= wrong.size()) {
            add("manifold", "swings", text(hunting), swings);
        } else if (!wrong.isEmpty()) {
            boolean low = text(off).contains(" below ");
            add("manifold", low ? "low" : "high", text(off), wrong);
        } else if (report.cycles().stream().anyMatch(c -> hot(c, Tap.GAS_MANIFOLD) > 0)) {
            add("manifold", "on-plate", "manifold stayed within 10 % of its target", whole(Tap.GAS_MANIFOLD.role()));
        }
    }

    private void flame() {
        double[] levels = report.cycles().stream()
                .mapToDouble(c -> hot(c, Tap.FLAME_CURRENT))
                .filter(v -> !Double.isNaN(v))
                .toArray();
        if (levels.length == 0) {
            return;
        }
        double median = draftwitness.signal.Robust.median(levels);
        add(
                "flame",
                median < LOW_FLAME ? "low" : "good",
                String.format(java.util.Locale.ROOT, "flame current was %.1f uA", median),
                whole(Tap.FLAME_CURRENT.role()));
    }

    private static double hot(Cycle c, Tap tap) {
        return c.levels().stream()
                .filter(l -> l.tap() == tap)
                .mapToDouble(TapLevels::hot)
                .filter(v -> !Double.isNaN(v))
                .findFirst()
                .orElse(Double.NaN);
    }

    /** Takes a kind of episode as evidence when more than a share of all cycles has it. */
    private void episodes(String kind, EpisodeKind episode, String with, String without, double share) {
        Predicate<Episode> these = e -> e.kind() == episode;
        List<Seen> seen = seen(these);
        CauseTable.Kind told = CauseTable.standard().kind(kind);
        long cycles = seen.stream().mapToInt(Seen::cycle).distinct().count();
        if (cycles <= share * report.cycles().size()) {
            add(kind, without, told.texts().get(told.index(without)), List.of());
        } else {
            add(kind, with, text(these), seen);
        }
    }

    private List<Seen> seen(Predicate<Episode> wanted) {
        List<Seen> out = new ArrayList<>();
        for (Cycle c : report.cycles()) {
            for (Episode e : c.episodes()) {
                if (wanted.test(e)) {
                    out.add(new Seen(c.index(), e.tap().role(), e.startNanos(), e.endNanos()));
                }
            }
        }
        return out;
    }

    private String text(Predicate<Episode> wanted) {
        return report.cycles().stream()
                .flatMap(c -> c.episodes().stream())
                .filter(wanted)
                .map(Episode::text)
                .findFirst()
                .orElse("");
    }

    private List<Seen> whole(String role) {
        return report.cycles().stream()
                .map(c -> new Seen(c.index(), role, c.startNanos(), c.endNanos()))
                .toList();
    }

    private void add(String kind, String outcome, String text, List<Seen> from) {
        found.add(new Evidence(kind, outcome, text, from));
    }
}
