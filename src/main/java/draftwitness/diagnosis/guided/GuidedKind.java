package draftwitness.diagnosis.guided;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;

/** The measurements that the program walks a person through; {@link #id()} is the name used in files and commands. */
public enum GuidedKind {
    /** Suction on switch and tube, pinched off: how fast is it lost? */
    LEAK_DOWN("leak-down"),
    /** The same with the tube alone and the switch alone: which of them leaks? */
    LEAK_DOWN_PARTS("leak-down-parts"),
    /** A slow ramp up and down with the contact channel: where does the switch make and break? */
    SWITCH_POINTS("switch-points"),
    /** Two draft taps at once: which part of the suction arrives, how late, and does it move alike? */
    TWO_TAPS("two-taps"),
    /** Inlet standing, with everything firing and shut off again; manifold against the plate. */
    GAS("gas"),
    /** Return and supply against the rating; shares of filter and coil. */
    STATIC_PRESSURE("static-pressure"),
    /** The same tap with the vent on and off. */
    VENT_ON_OFF("vent-on-off"),
    /** The same tap before and after a repair. */
    BEFORE_AFTER("before-after");

    private final String id;

    GuidedKind(String id) {
        this.id = id;
    }

    public String id() {
        return id;
    }

    Judge judge() {
        return switch (this) {
            case LEAK_DOWN -> new LeakDown();
            case LEAK_DOWN_PARTS -> new LeakDownParts();
            case SWITCH_POINTS -> new SwitchPoints();
            case TWO_TAPS -> new TwoTaps();
            case GAS -> new GasPressures();
            case STATIC_PRESSURE -> new StaticPressure();
            case VENT_ON_OFF -> new VentOnOff();
            case BEFORE_AFTER -> new BeforeAfter();
        };
    }

    /** The kind with exactly this {@link #id()}, or empty. */
    public static Optional<GuidedKind> ofId(String id) {
        return Arrays.stream(values()).filter(k -> k.id.equals(id)).findFirst();
    }

    /** All names in declaration order, for messages. */
    public static String ids() {
        return Arrays.stream(values()).map(GuidedKind::id).collect(Collectors.joining(" "));
    }
}
