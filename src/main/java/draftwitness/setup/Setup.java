package draftwitness.setup;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The setup of one appliance. Ratings on the appliance's own plate win over every default here.
 *
 * @param title what the appliance is called; may be empty
 * @param pressureSwitch the switch's rating, or null when no set point was given: then there is no margin
 * @param gas gas kind and pressures
 * @param sequence times of the burner control
 * @param inducerStages 1 or 2
 * @param externalStaticMaxPascals rated external static pressure of the air side, or null
 * @param sources source id to {@code DRIVER@LINK}, in the order of the file
 * @param text the file's own text, kept with recordings; empty for the defaults
 */
public record Setup(
        String title,
        @Nullable PressureSwitch pressureSwitch,
        Gas gas,
        Sequence sequence,
        int inducerStages,
        @Nullable Double externalStaticMaxPascals,
        Map<String, String> sources,
        String text) {

    /** Default differential of a switch whose plate does not tell: 0.08 in w.c. (typical, from memory). */
    public static final double DEFAULT_DIFFERENTIAL_PASCALS = 0.08 * 249.08891;

    /** Default tolerance of a switch whose plate does not tell: 0.05 in w.c. (typical, from memory). */
    public static final double DEFAULT_TOLERANCE_PASCALS = 0.05 * 249.08891;

    /**
     * A pressure switch's rating, as magnitudes of suction.
     *
     * @param setPointPascals suction at which the contact makes
     * @param differentialPascals it breaks when suction falls this much below the set point
     * @param tolerancePascals plus or minus on the set point
     * @param ports 1, or 2 when it sees a difference
     * @param reference what the other side is open to
     */
    public record PressureSwitch(
            double setPointPascals,
            double differentialPascals,
            double tolerancePascals,
            int ports,
            Reference reference) {
        /** Suction at which the contact breaks. */
        public double breakPascals() {
            return setPointPascals - differentialPascals;
        }
    }

    /** What the reference side of a switch is open to. */
    public enum Reference {
        AIR,
        BURNER_BOX
    }

    /** Fuel gas. */
    public enum GasKind {
        NATURAL,
        PROPANE
    }

    /**
     * Gas pressures, in pascals; null where the plate was not read.
     *
     * @param kind natural or propane, or null if not stated
     */
    public record Gas(
            @Nullable GasKind kind,
            @Nullable Double manifoldPascals,
            @Nullable Double lowFireManifoldPascals,
            @Nullable Double inletMinPascals,
            @Nullable Double inletMaxPascals) {}

    /**
     * Times of the burner control, in seconds; typical values until the appliance's own are known.
     *
     * @param retryMax without a call contact, a pause longer than this starts a new cycle
     */
    public record Sequence(
            double prePurge,
            double igniterWarmUp,
            double trialForIgnition,
            double provingLimit,
            int attempts,
            double postPurge,
            double retryMax) {}

    public Setup {
        sources = Collections.unmodifiableMap(new LinkedHashMap<>(sources));
    }

    /** A setup with defaults only. */
    public static Setup defaults() {
        try {
            return parse("defaults", "");
        } catch (InputException e) {
            throw new IllegalStateException(e);
        }
    }

    /**
     * Reads a setup file.
     *
     * @throws InputException naming file, line and key
     */
    public static Setup read(Path file) throws InputException {
        return parse(file.toString(), TomlTableReader.readText(file));
    }

    /**
     * Reads a setup from its text.
     *
     * @param name what to call it in messages
     * @throws InputException naming line and key
     */
    public static Setup parse(String name, String text) throws InputException {
        TomlTableReader top = TomlTableReader.parse(name, text);
        String title = top.string("title").orElse("");
        PressureSwitch pressureSwitch = readSwitch(top.table("switch"));
        Gas gas = readGas(top.table("gas"));
        Sequence sequence = readSequence(top.table("sequence"));
        int stages = (int) top.table("inducer").integer("stages", 1, 1, 2);
        Double staticMax = positive(top.table("air"), "external-static-max").orElse(null);
        Map<String, String> sources = top.table("sources").textEntries();
        top.finish();
        return new Setup(title, pressureSwitch, gas, sequence, stages, staticMax, sources, text);
    }

    private static @Nullable PressureSwitch readSwitch(TomlTableReader t) throws InputException {
        Optional<Double> setPoint = positive(t, "set-point");
        double differential = positive(t, "differential").orElse(DEFAULT_DIFFERENTIAL_PASCALS);
        double tolerance = positive(t, "tolerance").orElse(DEFAULT_TOLERANCE_PASCALS);
        int ports = (int) t.integer("ports", 1, 1, 2);
        String referenceWord = t.string("reference").orElse("air");
        Reference reference = switch (referenceWord) {
            case "air" -> Reference.AIR;
            case "burner-box" -> Reference.BURNER_BOX;
            default -> throw t.error("reference", "must be \"air\" or \"burner-box\"");
        };
        if (setPoint.isEmpty()) {
            return null;
        }
        if (!(differential < setPoint.get())) {
            throw t.error("differential", "must be smaller than the set point");
        }
        return new PressureSwitch(setPoint.get(), differential, tolerance, ports, reference);
    }

    private static Gas readGas(TomlTableReader t) throws InputException {
        Optional<String> word = t.string("kind");
        GasKind kind = null;
        if (word.isPresent()) {
            kind = switch (word.get()) {
                case "natural" -> GasKind.NATURAL;
                case "propane" -> GasKind.PROPANE;
                default -> throw t.error("kind", "must be \"natural\" or \"propane\"");
            };
        }
        return new Gas(
                kind,
                positive(t, "manifold").orElse(null),
                positive(t, "low-fire-manifold").orElse(null),
                positive(t, "inlet-min").orElse(null),
                positive(t, "inlet-max").orElse(null));
    }

    private static Sequence readSequence(TomlTableReader t) throws InputException {
        double hour = 3600;
        return new Sequence(
                t.number("pre-purge", 15, 0, hour),
                t.number("igniter-warm-up", 17, 0, hour),
                t.number("trial-for-ignition", 5, 0, hour),
                t.number("proving-limit", 60, 0, hour),
                (int) t.integer("attempts", 3, 1, 20),
                t.number("post-purge", 15, 0, hour),
                t.number("retry-max", 180, 0, hour));
    }

    private static Optional<Double> positive(TomlTableReader t, String key) throws InputException {
        Optional<Double> value = t.pressure(key);
        if (value.isPresent() && !(value.get() > 0)) {
            throw t.error(key, "must be above 0");
        }
        return value;
    }
}
