package draftwitness.furnace;

import java.util.List;
import java.util.Locale;

/** One simulated house and what it teaches; immutable. */
public final class Scenario {
    private final String name;
    private final String title;
    private final String lesson;
    private final double durationSeconds;
    private final House house;

    Scenario(String name, String title, String lesson, double durationSeconds, House house) {
        this.name = name;
        this.title = title;
        this.lesson = lesson;
        this.durationSeconds = durationSeconds;
        this.house = house;
    }

    /** Name on the command line, for example {@code demo-house}. */
    public String name() {
        return name;
    }

    /** A few words. */
    public String title() {
        return title;
    }

    /** One line: what there is to see and learn. */
    public String lesson() {
        return lesson;
    }

    /** Identifier of the first thing that is wrong, or {@code none}. */
    public String cause() {
        return causes().stream().findFirst().orElse(Cause.NONE);
    }

    /** Identifiers of all that is wrong, in the order of the file; empty for a healthy house. */
    public List<String> causes() {
        return house.faults().stream().map(f -> f.cause().id()).distinct().toList();
    }

    /** How long it runs unless told otherwise, in seconds. */
    public double durationSeconds() {
        return durationSeconds;
    }

    /** Setup file (TOML) of this house: the ratings on its plate, not its faults. */
    public String setupText() {
        House.Sequence s = house.sequence();
        House.GasRating g = house.gas();
        StringBuilder out = new StringBuilder();
        line(out, "title = \"%s\"", house.title().replace("\\", "\\\\").replace("\"", "\\\""));
        line(out, "[switch]");
        line(out, "set-point = \"%.2f Pa\"", house.rating().makePascals());
        line(out, "differential = \"%.2f Pa\"", house.rating().differentialPascals());
        line(out, "tolerance = \"%.2f Pa\"", house.rating().tolerancePascals());
        if (house.rating().againstBurnerBox()) {
            line(out, "ports = 2");
            line(out, "reference = \"burner-box\"");
        }
        line(out, "[gas]");
        line(out, "kind = \"%s\"", g.propane() ? "propane" : "natural");
        line(out, "manifold = \"%.2f Pa\"", g.manifoldPascals());
        if (house.flue().stages() == 2) {
            line(out, "low-fire-manifold = \"%.2f Pa\"", g.lowFirePascals());
        }
        line(out, "inlet-min = \"%.1f inH2O\"", g.propane() ? 11.0 : 5.0);
        line(out, "inlet-max = \"%.1f inH2O\"", g.propane() ? 13.0 : 10.5);
        line(out, "[sequence]");
        line(out, "pre-purge = %.1f", s.prePurge());
        line(out, "igniter-warm-up = %.1f", s.igniterWarmUp());
        line(out, "trial-for-ignition = %.1f", s.trialForIgnition());
        line(out, "proving-limit = %.1f", s.provingLimit());
        line(out, "attempts = %d", s.attempts());
        line(out, "post-purge = %.1f", s.postPurge());
        // Longer than the pause between two attempts, shorter than the pause between two calls.
        line(out, "retry-max = %.1f", s.retryDelay() + 15);
        line(out, "[inducer]");
        line(out, "stages = %d", house.flue().stages());
        return out.toString();
    }

    private static void line(StringBuilder out, String format, Object... values) {
        out.append(String.format(Locale.ROOT, format, values)).append('\n');
    }

    House house() {
        return house;
    }
}
