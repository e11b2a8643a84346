package draftwitness.furnace;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** What can be wrong with the simulated house; {@link #id()} is the identifier used in files and in the truth. */
enum Cause {
    SWITCH_FAULTY,
    SWITCH_DRIFTED,
    INDUCER_WEAK,
    VENT_RESTRICTED,
    CONDENSATE_IN_VENT,
    WIND_AT_TERMINAL,
    INTAKE_RESTRICTED,
    TUBE_BLOCKED,
    TUBE_LEAKING,
    DIAPHRAGM_PINHOLE,
    TRAP_DRY,
    DRAIN_BLOCKED,
    HEAT_EXCHANGER_PLUGGED,
    HEAT_EXCHANGER_BREACHED,
    CONTACT_WIRING,
    GAS_SUPPLY_SAG,
    MANIFOLD_HIGH,
    MANIFOLD_LOW,
    REGULATOR_HUNTING,
    IGNITION_OR_FLAME_SENSE;

    /** What the truth says of a healthy house. */
    static final String NONE = "none";

    private final String id = name().toLowerCase(Locale.ROOT).replace('_', '-');

    String id() {
        return id;
    }

    static Optional<Cause> ofId(String id) {
        return Arrays.stream(values()).filter(c -> c.id.equals(id)).findFirst();
    }

    static String ids() {
        return Arrays.stream(values()).map(Cause::id).collect(Collectors.joining(" "));
    }
}
