package draftwitness.cycle;

import draftwitness.reading.Tap;
import draftwitness.setup.Setup;
import draftwitness.signal.Hysteresis;
import draftwitness.signal.Periodicity;
import draftwitness.signal.Robust;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Judges the switch in one run: flutter, near-flutter, chatter, and contact against pressure. Pure. */
final class SwitchJudge {
    private static final long SECOND = 1_000_000_000;

    private final RunView view;
    private final @Nullable StateTrack contact;
    private final Setup.@Nullable PressureSwitch rating;
    private final boolean atSwitch;
    private final List<Episode> episodes = new ArrayList<>();
    private long[] counted = new long[0];

    /**
     * Judges.
     *
     * @param contact the measured contact, or null
     * @param atSwitch whether the view's suction is that at the switch
     */
    SwitchJudge(RunView view, @Nullable StateTrack contact, boolean atSwitch) {
        this.view = view;
        this.contact = contact;
        this.rating = view.settings().pressureSwitch();
        this.atSwitch = atSwitch;
        if (contact != null) {
            measured(contact);
        } else if (rating != null && atSwitch) {
            counted = modelled(rating.setPointPascals(), rating.breakPascals());
        }
        flutter();
        if (rating != null && atSwitch) {
            nearFlutter(rating);
            if (contact != null) {
                disagreement(contact, rating);
            }
        }
    }

    List<Episode> episodes() {
        return episodes;
    }

    int transitions() {
        return counted.length;
    }

    /**
     * Whether the contact opened long enough in a span to make a control shut the gas, and was open not long before the
     * end of the span, when the gas went.
     */
    boolean openedAround(long from, long to) {
        if (contact == null) {
            return false;
        }
        long[] changes = contact.changes(from, to);
        int first = contact.index(from);
        for (int i = 0; i < changes.length; i++) {
            boolean opens = !contact.at(changes[i]);
            long closed = i + 1 < changes.length ? changes[i + 1] : Long.MAX_VALUE;
            if (opens
                    && closed > to - SECOND / 2
                    && contact.sureNanos(first + i)
                            >= CycleSettings.nanos(0.8 * view.settings().switchFilter())) {
                return true;
            }
        }
        return false;
    }

    private void measured(StateTrack state) {
        long[] changes = state.changes(view.steadyFrom() + 1, view.steadyTo());
        int first = state.index(view.steadyFrom() + 1);
        List<Long> kept = new ArrayList<>();
        List<Long> chatter = new ArrayList<>();
        for (int i = 0; i < changes.length; i++) {
            boolean opens = !state.at(changes[i]);
            boolean brief = state.sureNanos(first + i)
                    < CycleSettings.nanos(view.settings().chatter());
            if (opens && brief && i + 1 < changes.length && !pressureEvent(changes[i], changes[i + 1])) {
                chatter.add(changes[i]);
                i++; // its closing goes with it
            } else {
                kept.add(changes[i]);
            }
        }
        counted = kept.stream().mapToLong(Long::longValue).toArray();
        chatter(chatter);
    }

    /** Whether suction came near enough to the break point around a time to explain an opening. */
    private boolean pressureEvent(long from, long to) {
        double least = view.suction().smallest(from - SECOND / 2, to + SECOND / 10);
        if (Double.isNaN(least)) {
            return true; // nothing seen: no claim
        }
        if (rating != null && atSwitch) {
            return least < rating.breakPascals() + 2 * rating.tolerancePascals();
        }
        return least < (1 - view.settings().sagShare()) * view.level();
    }

    private void chatter(List<Long> openings) {
        if (openings.isEmpty()) {
            return;
        }
        long from = openings.get(0);
        long to = openings.get(openings.size() - 1);
        double least = view.suction().smallest(from - SECOND, to + SECOND);
        episodes.add(view.episode(
                EpisodeKind.CONTACT_CHATTER,
                from,
                to,
                Tap.CONTACT_SWITCH,
                new Evidence(Double.NaN, least, Double.NaN, Double.NaN, 2 * openings.size(), "contact-only", "contact"),
                "contact opened " + openings.size() + " times for less than "
                        + Math.round(view.settings().chatter() * 1000) + " ms while suction stayed at "
                        + view.words().pressure(least) + " or more, first " + view.where(from)
                        + ": wiring or contact, not pressure"));
    }

    private long[] modelled(double make, double breaks) {
        List<Long> times = new ArrayList<>();
        Suction s = view.suction();
        // A single noisy look is no crossing: it must be beyond the level by the instrument's own noise.
        double noise = Quiet.noise(s.means, s.at(view.steadyFrom()), s.at(view.steadyTo()));
        Hysteresis modelled = new Hysteresis(make + noise, breaks - noise, true);
        for (int i = s.at(view.steadyFrom()); i < s.size() && s.times[i] < view.steadyTo(); i++) {
            if (modelled.add(s.means[i])) {
                times.add(s.times[i]);
            }
        }
        return times.stream().mapToLong(Long::longValue).toArray();
    }

    private void flutter() {
        String source = contact != null ? "contact" : "modelled";
        for (Transitions.Group g : groups(counted)) {
            double rate = view.suction().rate(g.startNanos(), g.endNanos() + SECOND);
            Periodicity rhythm = rhythm(g, rate);
            String character = character(g, rhythm);
            boolean rhythmic = rhythm.hertz() > 0 && !"contact-only".equals(character);
            double depth = depth(g.startNanos(), g.endNanos());
            episodes.add(view.episode(
                    EpisodeKind.FLUTTER,
                    g.startNanos(),
                    g.endNanos(),
                    contact != null ? Tap.CONTACT_SWITCH : view.tap(),
                    new Evidence(
                            depth,
                            view.level(),
                            rhythmic ? rhythm.hertz() : Double.NaN,
                            rhythmic ? rhythm.share() : Double.NaN,
                            g.transitions(),
                            character,
                            source),
                    flutterText(g, character, rhythm, rhythmic)));
        }
    }

    private String flutterText(Transitions.Group g, String character, Periodicity rhythm, boolean rhythmic) {
        double least = view.suction().smallest(g.startNanos() - SECOND / 2, g.endNanos() + SECOND / 2);
        return (contact != null ? "contact" : "modelled switch") + " changed " + g.transitions() + " times within "
                + Wording.seconds(g.endNanos() - g.startNanos()) + ", " + view.where(g.startNanos())
                + "; suction fell to " + view.words().pressure(least)
                + (rating == null
                        ? ""
                        : ", set point " + view.words().pressure(rating.setPointPascals()) + ", break point "
                                + view.words().pressure(rating.breakPascals()))
                + "; " + character
                + (rhythmic
                        ? " (" + Wording.hertz(rhythm.hertz()) + ", explains " + Wording.percent(rhythm.share())
                                + " of the movement)"
                        : "");
    }

    private List<Transitions.Group> groups(long[] times) {
        return Transitions.groups(
                times,
                view.settings().flutterTransitions(),
                CycleSettings.nanos(view.settings().flutterWithin()));
    }

    private double depth(long from, long to) {
        return Math.max(0, view.level() - view.suction().smallest(from - SECOND / 2, to + SECOND / 2));
    }

    private Periodicity rhythm(Transitions.Group g, double rate) {
        long pad = Math.max(2 * SECOND, (8 * SECOND - (g.endNanos() - g.startNanos())) / 2);
        double[] values = view.suction()
                .between(
                        Math.max(view.steadyFrom(), g.startNanos() - pad),
                        Math.min(view.steadyTo(), g.endNanos() + pad));
        return Double.isNaN(rate) ? new Periodicity(0, 0, 0) : Periodicity.of(values, rate);
    }

    private String character(Transitions.Group g, Periodicity rhythm) {
        if (contact != null && !pressureEvent(g.startNanos(), g.endNanos())) {
            return "contact-only";
        }
        if (rhythm.hertz() > 0.2 && rhythm.share() > 0.5 && rhythm.repeats() > 0.3) {
            return "periodic";
        }
        double before = view.suction().median(g.startNanos() - 5 * SECOND, g.startNanos());
        double after = view.suction().median(g.endNanos(), g.endNanos() + 5 * SECOND);
        double spread = Robust.SIGMA_OF_MAD
                * Robust.mad(view.suction().between(g.startNanos() - 5 * SECOND, g.endNanos() + 5 * SECOND));
        return Math.abs(before - after) > 3 * spread ? "drifting" : "gusty";
    }

    private void nearFlutter(Setup.PressureSwitch r) {
        double near = view.settings().nearPascals();
        long[] times = modelled(r.setPointPascals() + near, r.breakPascals() + near);
        for (Transitions.Group g : groups(times)) {
            boolean fluttered = episodes.stream()
                    .anyMatch(e -> e.kind() == EpisodeKind.FLUTTER
                            && e.startNanos() - 10 * SECOND <= g.endNanos()
                            && g.startNanos() <= e.endNanos() + 10 * SECOND);
            if (fluttered) {
                continue;
            }
            double least = view.suction().smallest(g.startNanos(), g.endNanos() + 1);
            episodes.add(view.episode(
                    EpisodeKind.NEAR_FLUTTER,
                    g.startNanos(),
                    g.endNanos(),
                    view.tap(),
                    new Evidence(
                            depth(g.startNanos(), g.endNanos()),
                            view.level(),
                            Double.NaN,
                            Double.NaN,
                            g.transitions(),
                            null,
                            "modelled"),
                    "suction crossed " + view.words().pressure(r.breakPascals() + near) + " and back, "
                            + g.transitions()
                            + " times within " + Wording.seconds(g.endNanos() - g.startNanos()) + ", "
                            + view.where(g.startNanos()) + ": " + Wording.inches(near)
                            + " more and the switch would flutter; weakest "
                            + view.words().pressure(least)));
        }
    }

    /** Spans in which contact and pressure contradict each other beyond the switch's tolerance. */
    private void disagreement(StateTrack state, Setup.PressureSwitch r) {
        Suction s = view.suction();
        double surelyMade = r.setPointPascals() + r.tolerancePascals();
        double surelyBroken = r.breakPascals() - r.tolerancePascals();
        long since = Long.MAX_VALUE;
        boolean closedThen = false;
        double extreme = 0;
        int found = 0;
        for (int i = 0; i <= s.size(); i++) {
            boolean end = i == s.size();
            boolean closed = !end && state.at(s.times[i]);
            boolean wrong =
                    !end && state.knownAt(s.times[i]) && (closed ? s.means[i] < surelyBroken : s.means[i] > surelyMade);
            if (since != Long.MAX_VALUE && (!wrong || closed != closedThen)) {
                long until = s.times[i - 1];
                if (until - since >= CycleSettings.nanos(view.settings().disagreeHold()) && found < 100) {
                    disagrees(since, until, closedThen, extreme, r);
                    found++;
                }
                since = Long.MAX_VALUE;
            }
            if (wrong && since == Long.MAX_VALUE) {
                since = s.times[i];
                closedThen = closed;
                extreme = s.means[i];
            } else if (wrong) {
                extreme = closed ? Math.min(extreme, s.means[i]) : Math.max(extreme, s.means[i]);
            }
        }
    }

    private void disagrees(long from, long to, boolean closed, double extreme, Setup.PressureSwitch r) {
        String rule = closed
                ? "break point " + view.words().pressure(r.breakPascals()) + " less the tolerance"
                : "set point " + view.words().pressure(r.setPointPascals()) + " plus the tolerance";
        episodes.add(view.episode(
                EpisodeKind.CONTACT_DISAGREES,
                from,
                to,
                Tap.CONTACT_SWITCH,
                Evidence.depth(
                        Math.abs(extreme - (closed ? r.breakPascals() : r.setPointPascals())),
                        closed ? r.breakPascals() : r.setPointPascals()),
                "contact was " + (closed ? "closed" : "open") + " for " + Wording.seconds(to - from) + ", "
                        + view.where(from) + ", with suction at " + view.words().pressure(extreme) + "; " + rule + " ("
                        + view.words().pressure(r.tolerancePascals()) + ")"));
    }

    /** Suction when the contact first made, or NaN. */
    static double makePascals(@Nullable StateTrack state, Suction suction, long start, long proof) {
        if (state == null || proof == Long.MAX_VALUE) {
            return Double.NaN;
        }
        int index = state.index(proof);
        long[] here = state.changes(proof, proof + 1);
        if (here.length == 0 || proof < start) {
            return Double.NaN;
        }
        return suction.valueAt(state.likelyNanos(index));
    }
}
