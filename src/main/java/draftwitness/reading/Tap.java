package draftwitness.reading;

import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** Where on the furnace a hose or wire is connected; its {@link #role()} is the name used in files. */
public enum Tap {
    /** Teed into the tube at the pressure switch: the tap that most jobs have. */
    DRAFT_SWITCH("draft.switch", Quantity.PRESSURE),
    /** At the inducer housing, vent side of the heat exchanger. */
    DRAFT_INDUCER("draft.inducer", Quantity.PRESSURE),
    /** At the collector box, burner side of a secondary exchanger. */
    DRAFT_COLLECTOR("draft.collector", Quantity.PRESSURE),
    /** Sealed burner box of a two-pipe furnace, reference side of a two-port switch. */
    DRAFT_BURNER_BOX("draft.burner-box", Quantity.PRESSURE),
    /** Vent pipe downstream of the inducer. */
    DRAFT_VENT("draft.vent", Quantity.PRESSURE),
    GAS_INLET("gas.inlet", Quantity.PRESSURE),
    GAS_MANIFOLD("gas.manifold", Quantity.PRESSURE),
    /** Return side, before the filter. */
    STATIC_RETURN("static.return", Quantity.PRESSURE),
    /** After the heat exchanger. */
    STATIC_SUPPLY("static.supply", Quantity.PRESSURE),
    STATIC_BEFORE_COIL("static.before-coil", Quantity.PRESSURE),
    STATIC_AFTER_COIL("static.after-coil", Quantity.PRESSURE),
    STATIC_AFTER_FILTER("static.after-filter", Quantity.PRESSURE),
    /** The pressure switch's contact. */
    CONTACT_SWITCH("contact.switch", Quantity.CONTACT),
    CONTACT_CALL("contact.call", Quantity.CONTACT),
    CONTACT_GAS_VALVE("contact.gas-valve", Quantity.CONTACT),
    CONTACT_INDUCER("contact.inducer", Quantity.CONTACT),
    CONTACT_BLOWER("contact.blower", Quantity.CONTACT),
    FLAME_CURRENT("flame.current", Quantity.CURRENT);

    private static final Map<String, Tap> BY_ROLE =
            Arrays.stream(values()).collect(Collectors.toUnmodifiableMap(Tap::role, t -> t));

    private final String role;
    private final Quantity quantity;

    Tap(String role, Quantity quantity) {
        this.role = role;
        this.quantity = quantity;
    }

    /** The name used in files and on the command line, for example {@code draft.switch}. */
    public String role() {
        return role;
    }

    public Quantity quantity() {
        return quantity;
    }

    /** The tap with exactly this role, or empty. */
    public static Optional<Tap> ofRole(String role) {
        return Optional.ofNullable(BY_ROLE.get(role));
    }

    /** All roles in declaration order, for messages. */
    public static String roles() {
        return Arrays.stream(values()).map(Tap::role).collect(Collectors.joining(" "));
    }
}
