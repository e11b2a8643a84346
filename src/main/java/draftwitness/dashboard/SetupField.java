package draftwitness.dashboard;

import java.util.List;

/** A line of the setup form: one key of a setup file. */
public enum SetupField {
    TITLE("", "title", Kind.TEXT),
    SET_POINT("switch", "set-point", Kind.PRESSURE),
    DIFFERENTIAL("switch", "differential", Kind.PRESSURE),
    TOLERANCE("switch", "tolerance", Kind.PRESSURE),
    PORTS("switch", "ports", Kind.PORTS),
    REFERENCE("switch", "reference", Kind.REFERENCE),
    GAS_KIND("gas", "kind", Kind.GAS),
    MANIFOLD("gas", "manifold", Kind.PRESSURE),
    LOW_FIRE_MANIFOLD("gas", "low-fire-manifold", Kind.PRESSURE),
    INLET_MIN("gas", "inlet-min", Kind.PRESSURE),
    INLET_MAX("gas", "inlet-max", Kind.PRESSURE),
    PRE_PURGE("sequence", "pre-purge", Kind.SECONDS),
    IGNITER_WARM_UP("sequence", "igniter-warm-up", Kind.SECONDS),
    TRIAL("sequence", "trial-for-ignition", Kind.SECONDS),
    PROVING_LIMIT("sequence", "proving-limit", Kind.SECONDS),
    ATTEMPTS("sequence", "attempts", Kind.COUNT),
    POST_PURGE("sequence", "post-purge", Kind.SECONDS),
    RETRY_MAX("sequence", "retry-max", Kind.SECONDS),
    STAGES("inducer", "stages", Kind.STAGES),
    EXTERNAL_STATIC_MAX("air", "external-static-max", Kind.PRESSURE);

    /** What is typed or chosen. */
    public enum Kind {
        TEXT,
        PRESSURE,
        SECONDS,
        COUNT,
        PORTS,
        STAGES,
        REFERENCE,
        GAS;

        /** The values to choose from; empty when it is typed. The empty text means "not stated". */
        public List<String> choices() {
            return switch (this) {
                case PORTS, STAGES -> List.of("", "1", "2");
                case REFERENCE -> List.of("", "air", "burner-box");
                case GAS -> List.of("", "natural", "propane");
                case TEXT, PRESSURE, SECONDS, COUNT -> List.of();
            };
        }

        /** True when the file has the value in quotes. */
        boolean quoted() {
            return switch (this) {
                case TEXT, PRESSURE, REFERENCE, GAS -> true;
                case SECONDS, COUNT, PORTS, STAGES -> false;
            };
        }
    }

    private final String table;
    private final String key;
    private final Kind kind;

    SetupField(String table, String key, Kind kind) {
        this.table = table;
        this.key = key;
        this.kind = kind;
    }

    /** The table of the file it is in; empty for the top. */
    public String table() {
        return table;
    }

    public String key() {
        return key;
    }

    public Kind kind() {
        return kind;
    }

    /** Its name on the form. */
    public String label() {
        return Words.get("setup." + key);
    }

    /** An example, or what is assumed when it is left empty. */
    public String hint() {
        return Words.get("setup." + key + ".hint");
    }
}
