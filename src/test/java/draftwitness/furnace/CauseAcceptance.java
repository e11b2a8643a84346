package draftwitness.furnace;

import draftwitness.reading.Tap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Which answers are right, given what the channels can show. Written down from what each cause does to each tap, not
 * from what the program answers: a cause is to be named itself where a channel tells it apart; else any of those that
 * leave the same trace at these taps will do, and {@code none} too if the furnace did its work all the time.
 */
final class CauseAcceptance {
    private static final Set<String> LOW = Set.of(
            "inducer-weak",
            "vent-restricted",
            "tube-leaking",
            "diaphragm-pinhole",
            "heat-exchanger-plugged",
            "heat-exchanger-breached",
            "trap-dry");
    private static final Set<String> PAIR = Set.of("tube-leaking", "diaphragm-pinhole");
    private static final Set<String> NO_DRAFT = Set.of(
            "switch-faulty",
            "switch-drifted",
            "contact-wiring",
            "gas-supply-sag",
            "manifold-high",
            "manifold-low",
            "regulator-hunting",
            "ignition-or-flame-sense");

    private CauseAcceptance() {}

    /**
     * Right answers.
     *
     * @param causes what is wrong, empty for a healthy house
     * @param taps what was measured
     * @param worked whether every cycle heated at the first attempt and the contact never fluttered
     */
    static Set<String> of(List<String> causes, Set<Tap> taps, boolean worked) {
        Set<String> out = new LinkedHashSet<>();
        for (String c : causes) {
            out.add(c);
            if (PAIR.contains(c)) {
                out.addAll(PAIR);
            }
            Set<String> alike = alike(c, taps);
            out.addAll(alike);
            boolean silent = c.equals("switch-faulty") || c.equals("inducer-weak") || !alike.isEmpty();
            if (silent && worked) {
                out.add("none");
            }
        }
        if (causes.isEmpty()) {
            out.add("none");
        }
        return out;
    }

    private static Set<String> with(Set<String> some, String more) {
        Set<String> out = new LinkedHashSet<>(some);
        out.add(more);
        return out;
    }

    /** Causes with the same trace at these taps; empty where a tap tells the cause apart. */
    private static Set<String> alike(String cause, Set<Tap> taps) {
        boolean contact = taps.contains(Tap.CONTACT_SWITCH);
        boolean inner = taps.contains(Tap.DRAFT_INDUCER) && taps.contains(Tap.DRAFT_COLLECTOR);
        boolean gas = taps.contains(Tap.GAS_MANIFOLD) && taps.contains(Tap.GAS_INLET);
        boolean vent = taps.contains(Tap.DRAFT_VENT);
        return switch (cause) {
            case "switch-faulty", "switch-drifted", "contact-wiring" -> contact ? Set.of() : NO_DRAFT;
            case "gas-supply-sag", "manifold-high", "manifold-low", "regulator-hunting", "ignition-or-flame-sense" ->
                gas
                        ? Set.of()
                        : contact
                                ? Set.of(
                                        "gas-supply-sag",
                                        "manifold-high",
                                        "manifold-low",
                                        "regulator-hunting",
                                        "ignition-or-flame-sense")
                                : NO_DRAFT;
            case "inducer-weak" -> vent ? Set.of() : inner ? Set.of("vent-restricted") : with(LOW, "tube-blocked");
            case "vent-restricted" -> vent ? Set.of() : inner ? Set.of("inducer-weak") : LOW;
            case "tube-leaking", "diaphragm-pinhole" -> inner ? Set.of() : LOW;
            case "tube-blocked" ->
                inner ? Set.of() : Set.of("inducer-weak", "vent-restricted", "tube-leaking", "diaphragm-pinhole");
            case "trap-dry" -> inner ? Set.of() : Set.of("drain-blocked");
            case "drain-blocked" -> inner ? Set.of() : Set.of("condensate-in-vent", "inducer-weak", "trap-dry");
            case "heat-exchanger-plugged" -> inner ? Set.of() : LOW;
            case "heat-exchanger-breached" ->
                taps.contains(Tap.CONTACT_BLOWER)
                        ? Set.of()
                        : inner ? Set.of("heat-exchanger-plugged", "trap-dry") : LOW;
            case "intake-restricted" ->
                taps.contains(Tap.DRAFT_BURNER_BOX) ? Set.of() : Set.of("heat-exchanger-plugged");
            default -> Set.of(); // water in the vent and wind move every draft tap
        };
    }
}
