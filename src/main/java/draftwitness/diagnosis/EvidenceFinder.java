package draftwitness.diagnosis;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.Episode;
import draftwitness.cycle.EpisodeKind;
import draftwitness.cycle.Margin;
import draftwitness.cycle.Outcome;
import draftwitness.reading.Channel;
import draftwitness.reading.Tap;
import draftwitness.setup.Setup;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Turns what the furnace did into evidence: one outcome a kind for the whole session, with its readings. Pure. */
final class EvidenceFinder {
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
        if (report.cycles().isEmpty()) {
            return List.of();
        }
        if (taps.contains(Tap.DRAFT_SWITCH) && setup.pressureSwitch() != null) {
            margin();
        }
        if (taps.contains(Tap.CONTACT_BLOWER)) {
            either("blower", EpisodeKind.BLOWER_STEP, "step", "no-step", "draft did not step with the blower");
        }
        if (taps.contains(Tap.GAS_INLET)) {
            either("inlet", EpisodeKind.GAS_SAG, "sags", "holds", "gas inlet pressure held");
        }
        return List.copyOf(found);
    }

    private void margin() {
        for (Cycle c : report.cycles()) {
            if (c.outcome() == Outcome.FAILED_TO_PROVE || c.reason() == Outcome.FAILED_TO_PROVE) {
                found.add(new Evidence(
                        "margin",
                        "short",
                        "suction did not prove air flow in cycle " + c.index(),
                        List.of(new Seen(c.index(), Tap.DRAFT_SWITCH.role(), c.startNanos(), c.endNanos()))));
                return;
            }
        }
        for (Cycle c : report.cycles()) {
            Margin m = c.margin();
            if (m != null) {
                found.add(new Evidence(
                        "margin",
                        m.band().id(),
                        "margin at the switch was " + m.band().id(),
                        List.of(new Seen(c.index(), Tap.DRAFT_SWITCH.role(), c.startNanos(), c.endNanos()))));
                return;
            }
        }
    }

    private void either(String kind, EpisodeKind episode, String with, String without, String text) {
        List<Seen> seen = new ArrayList<>();
        String first = "";
        for (Cycle c : report.cycles()) {
            for (Episode e : c.episodes()) {
                if (e.kind() == episode) {
                    first = first.isEmpty() ? e.text() : first;
                    seen.add(new Seen(c.index(), e.tap().role(), e.startNanos(), e.endNanos()));
                }
            }
        }
        found.add(
                seen.isEmpty() ? new Evidence(kind, without, text, List.of()) : new Evidence(kind, with, first, seen));
    }
}
