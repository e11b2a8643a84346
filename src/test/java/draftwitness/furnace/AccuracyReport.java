package draftwitness.furnace;

import draftwitness.cycle.CycleAnalyzer;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.Episode;
import draftwitness.cycle.EpisodeKind;
import draftwitness.input.InputException;
import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * Compares what the analysis reads out of simulated recordings with what the model really did, and writes
 * {@code docs/accuracy.md}. Not a test: run by hand with the output file as its argument ("-" for none), and optionally
 * a scenario's name to look at that alone, with every difference told.
 */
final class AccuracyReport {
    private static final double LONGEST_SECONDS = 2 * 3600;
    /** Rules were worked out on seeds 1 and 2, so others judge them. */
    private static final long FIRST_SEED = 101;

    private static final int SEEDS = 2;

    /** Looks a second at the model's own suction. */
    private static final int LOOKS = 50;

    /** Looks within the 0.1 s that a level must last to count. */
    private static final int LASTING = 6;

    /** A way of measuring: which channels, how fast, how noisy. */
    private record Measuring(String name, Set<Tap> taps, double rate, double noise, Unit unit, int decimals) {}

    private static final Set<Tap> ALL = EnumSet.allOf(Tap.class);
    private static final List<Measuring> MEASURINGS = List.of(
            new Measuring("as in the scenario", ALL, 0, -1, Unit.PASCAL, 1),
            new Measuring(
                    "draft, contact, gas at 20 Hz, 0.01 inH2O steps",
                    EnumSet.of(Tap.DRAFT_SWITCH, Tap.CONTACT_SWITCH, Tap.GAS_MANIFOLD),
                    20,
                    0.5,
                    Unit.INCH_OF_WATER,
                    2),
            new Measuring(
                    "draft and contact at 10 Hz, noise 1.5 Pa",
                    EnumSet.of(Tap.DRAFT_SWITCH, Tap.CONTACT_SWITCH),
                    10,
                    1.5,
                    Unit.PASCAL,
                    1),
            new Measuring("draft only at 50 Hz", EnumSet.of(Tap.DRAFT_SWITCH), 50, 0.6, Unit.PASCAL, 1),
            new Measuring("draft only at 10 Hz, noise 3 Pa", EnumSet.of(Tap.DRAFT_SWITCH), 10, 3, Unit.PASCAL, 1));

    /** Counts of one way of measuring, or of one scenario. */
    private static final class Score {
        int cycles;
        int found;
        int invented;
        int outcomes;
        int attempts;
        int flutters;
        int fluttersFound;
        int flutterClaims;
        int flutterTrue;
        int sags;
        int sagsFound;
        int sagClaims;
        int sagsTrue;
        int healthyCycles;
        int falseEpisodes;
        final List<Double> starts = new ArrayList<>();
        final List<Double> ends = new ArrayList<>();
        final List<Double> margins = new ArrayList<>();
        final List<Double> allowed = new ArrayList<>();

        double p95(List<Double> values) {
            double[] sorted =
                    values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
            return sorted.length == 0 ? Double.NaN : sorted[(int) Math.floor(0.95 * (sorted.length - 1))];
        }

        double marginsWithin() {
            long ok = 0;
            for (int i = 0; i < margins.size(); i++) {
                ok += margins.get(i) <= allowed.get(i) ? 1 : 0;
            }
            return margins.isEmpty() ? Double.NaN : (double) ok / margins.size();
        }
    }

    private final Map<String, Score> byMeasuring = new LinkedHashMap<>();
    private final Map<String, Score> byScenario = new LinkedHashMap<>();
    private final boolean telling;
    private boolean withBox;

    private AccuracyReport(boolean telling) {
        this.telling = telling;
    }

    public static void main(String[] args) throws IOException, InputException {
        String only = args.length > 1 ? args[1] : "";
        long first = args.length > 2 ? Long.parseLong(args[2]) : FIRST_SEED;
        int seeds = args.length > 3 ? Integer.parseInt(args[3]) : SEEDS;
        AccuracyReport report = new AccuracyReport(args.length > 1);
        for (Scenario scenario : Scenarios.list()) {
            if (scenario.name().startsWith(only)) {
                for (Measuring m : MEASURINGS) {
                    for (long seed = first; seed < first + seeds; seed++) {
                        report.one(scenario, m, seed);
                    }
                }
            }
        }
        String text = report.text();
        if (args.length == 0 || args[0].equals("-")) {
            System.out.println(text);
        } else {
            Files.writeString(Path.of(args[0]), text, StandardCharsets.UTF_8);
        }
    }

    private void one(Scenario scenario, Measuring m, long seed) throws InputException {
        double seconds = Math.min(LONGEST_SECONDS, scenario.durationSeconds());
        Simulation simulation = Simulation.start(measured(scenario, m), seed);
        withBox = measured(scenario, m).house().instruments().stream().anyMatch(i -> i.tap() == Tap.DRAFT_BURNER_BOX);
        CycleAnalyzer analyzer = new CycleAnalyzer(Setup.parse("setup", scenario.setupText()));
        int samples = (int) Math.ceil(seconds * LOOKS) + 2;
        double[] suction = new double[samples];
        AnalysisFeed.run(
                simulation,
                seconds,
                analyzer,
                t -> suction[Math.min(samples - 1, (int) Math.round(t * LOOKS))] =
                        simulation.furnace().suction());
        CycleReport found = analyzer.report();
        String run = scenario.name() + " / " + m.name() + " / seed " + seed;
        for (Score s : List.of(
                byMeasuring.computeIfAbsent(m.name(), k -> new Score()),
                byScenario.computeIfAbsent(scenario.name(), k -> new Score()))) {
            compare(run, scenario, simulation.truthCycles(), found, suction, seconds, s);
            run = ""; // differences are told once
        }
    }

    private static Scenario measured(Scenario s, Measuring m) {
        House h = s.house();
        List<InstrumentSpec> specs = new ArrayList<>();
        if (m.rate() == 0) {
            specs.addAll(h.instruments());
        } else {
            for (Tap tap : m.taps()) {
                InstrumentSpec own = Refit.own(h, tap);
                boolean pressure = tap.quantity() == Quantity.PRESSURE;
                specs.add(Refit.like(
                        own,
                        tap,
                        own == null ? tap : own.connectedTo(),
                        pressure ? m.unit() : tap.quantity().baseUnit(),
                        pressure ? m.decimals() : 0,
                        pressure ? m.rate() : 50,
                        pressure ? m.noise() : 0));
            }
        }
        return Refit.with(s, s.durationSeconds(), specs);
    }

    private void compare(
            String run,
            Scenario scenario,
            List<Cycle> truth,
            CycleReport found,
            double[] suction,
            double seconds,
            Score s) {
        List<draftwitness.cycle.Cycle> left = new ArrayList<>(found.cycles());
        for (Cycle t : truth) {
            if (seconds - t.startSeconds() < 5) {
                continue; // too short to be anything yet
            }
            s.cycles++;
            draftwitness.cycle.Cycle f = left.stream()
                    .filter(c -> overlap(t, c) > 0.3 * (t.endSeconds() - t.startSeconds()))
                    .findFirst()
                    .orElse(null);
            if (f == null) {
                tell(run, "cycle at " + t.startSeconds() + " not found (" + t.outcome() + ")");
                continue;
            }
            left.remove(f);
            s.found++;
            one(run, scenario, t, f, suction, seconds, s);
        }
        s.invented += left.size();
        left.forEach(c -> tell(run, "invented cycle at " + c.startNanos() / 1e9 + " to " + c.endNanos() / 1e9));
    }

    private void one(
            String run,
            Scenario scenario,
            Cycle t,
            draftwitness.cycle.Cycle f,
            double[] suction,
            double seconds,
            Score s) {
        s.starts.add(Math.abs(f.startNanos() / 1e9 - t.startSeconds()));
        if (t.endSeconds() < seconds - 0.2) {
            s.ends.add(Math.abs(f.endNanos() / 1e9 - t.endSeconds()));
            if (Math.abs(f.endNanos() / 1e9 - t.endSeconds()) > 1) {
                tell(run, "end " + f.endNanos() / 1e9 + " for " + t.endSeconds());
            }
        }
        // Cut by the end of the recording, "not certain yet" is the right answer.
        boolean same = f.outcome().id().equals(t.outcome())
                || (t.endSeconds() >= seconds - 0.2 && f.outcome() == draftwitness.cycle.Outcome.INCOMPLETE);
        s.outcomes += same ? 1 : 0;
        if (!same) {
            tell(
                    run,
                    "outcome " + f.outcome().id() + " " + f.reason() + " for " + t.outcome() + " " + t.reason() + " at "
                            + t.startSeconds() + ", attempts " + f.attempts() + " for " + t.attempts());
        }
        s.attempts += f.attempts() == t.attempts() ? 1 : 0;
        flutter(run, t, f, s);
        sags(run, t, f, s);
        margin(run, scenario, t, f, suction, s);
        if (scenario.causes().isEmpty() && !scenario.name().startsWith("instrument")) {
            s.healthyCycles++;
            for (Episode e : f.episodes()) {
                boolean real = e.kind() == EpisodeKind.READING_GAP
                        || (e.kind() == EpisodeKind.FLUTTER
                                && t.flutter().stream().anyMatch(x -> touches(e, x, 2)))
                        || (e.kind() == EpisodeKind.SAG && t.sags().stream().anyMatch(x -> touches(e, x, 1)));
                s.falseEpisodes += real ? 0 : 1;
                if (!real) {
                    tell(run, "false " + e.kind().id() + ": " + e.text());
                }
            }
        }
    }

    private void flutter(String run, Cycle t, draftwitness.cycle.Cycle f, Score s) {
        List<Episode> claims = f.episodes().stream()
                .filter(e -> e.kind() == EpisodeKind.FLUTTER)
                .toList();
        s.flutters += t.flutter().size();
        for (Cycle.Span x : t.flutter()) {
            boolean hit = claims.stream().anyMatch(e -> touches(e, x, 2));
            s.fluttersFound += hit ? 1 : 0;
            if (!hit) {
                tell(run, "missed flutter " + x);
            }
        }
        s.flutterClaims += claims.size();
        for (Episode e : claims) {
            boolean real = t.flutter().stream().anyMatch(x -> touches(e, x, 2));
            s.flutterTrue += real ? 1 : 0;
            if (!real) {
                tell(run, "untrue flutter at " + e.startNanos() / 1e9 + " to " + e.endNanos() / 1e9 + ": " + e.text());
            }
        }
    }

    private void sags(String run, Cycle t, draftwitness.cycle.Cycle f, Score s) {
        List<Episode> claims =
                f.episodes().stream().filter(e -> e.kind() == EpisodeKind.SAG).toList();
        s.sags += t.sags().size();
        for (Cycle.Sag x : t.sags()) {
            boolean hit = claims.stream().anyMatch(e -> touches(e, x, 1));
            s.sagsFound += hit ? 1 : 0;
            if (!hit) {
                tell(run, "missed sag " + x);
            }
        }
        s.sagClaims += claims.size();
        for (Episode e : claims) {
            boolean real = t.sags().stream().anyMatch(x -> touches(e, x, 1));
            s.sagsTrue += real ? 1 : 0;
            if (!real) {
                tell(run, "untrue sag at " + e.startNanos() / 1e9 + ": " + e.text());
            }
        }
    }

    /** Weakest suction at the diaphragm that lasted two looks of 0.1 s, over the same span that the analysis takes. */
    private void margin(String run, Scenario scenario, Cycle t, draftwitness.cycle.Cycle f, double[] suction, Score s) {
        boolean boxUnknown = scenario.house().rating().againstBurnerBox() && !withBox;
        if (boxUnknown || scenario.name().equals("instrument-wrong-tap")) {
            return; // what the diaphragm sees is not measured
        }
        if (f.margin() == null || !t.outcome().equals("heated") || t.attempts() != 1) {
            return;
        }
        double proved = Double.NaN;
        double lit = Double.NaN;
        double off = Double.NaN;
        for (Cycle.Phase p : t.phases()) {
            proved = p.name().equals("spin-up") ? p.endSeconds() : proved;
            lit = p.name().equals("run") ? p.startSeconds() : lit;
            off = p.name().equals("run") ? p.endSeconds() : off;
        }
        double least = Double.POSITIVE_INFINITY;
        for (int i = (int) ((proved + 5) * LOOKS); i < off * LOOKS - LASTING; i++) {
            if (i < (lit - 1.5) * LOOKS || i > (lit + 3) * LOOKS) {
                double strongest = suction[i];
                for (int k = 1; k < LASTING; k++) {
                    strongest = Math.max(strongest, suction[i + k]);
                }
                least = Math.min(least, strongest);
            }
        }
        double set = scenario.house().rating().makePascals();
        double difference = Math.abs(f.margin().minPascals() - (least - set));
        s.margins.add(difference);
        s.allowed.add(Math.max(2, 0.01 * least));
        if (difference > Math.max(2, 0.01 * least)) {
            tell(
                    run,
                    String.format(
                            Locale.ROOT,
                            "margin %.1f for %.1f at %.1f",
                            f.margin().minPascals(),
                            least - set,
                            t.startSeconds()));
        }
    }

    private static double overlap(Cycle t, draftwitness.cycle.Cycle c) {
        return Math.min(t.endSeconds(), c.endNanos() / 1e9) - Math.max(t.startSeconds(), c.startNanos() / 1e9);
    }

    private static boolean touches(Episode e, Cycle.Span x, double slack) {
        return e.startNanos() / 1e9 <= x.endSeconds() + slack && e.endNanos() / 1e9 >= x.startSeconds() - slack;
    }

    private static boolean touches(Episode e, Cycle.Sag x, double slack) {
        return e.startNanos() / 1e9 <= x.endSeconds() + slack && e.endNanos() / 1e9 >= x.startSeconds() - slack;
    }

    private void tell(String run, String what) {
        if (telling && !run.isEmpty()) {
            System.out.println(run + ": " + what);
        }
    }

    private String text() {
        StringBuilder out = new StringBuilder();
        out.append("# How well cycles are read\n\n");
        out.append("Generated by `draftwitness.furnace.AccuracyReport` (test sources): every built-in scenario, ")
                .append(SEEDS)
                .append(" seeds from ")
                .append(FIRST_SEED)
                .append(" on (the rules were worked out on others), at most ")
                .append(Math.round(LONGEST_SECONDS / 3600))
                .append(
                        " h each, read by the analysis and compared with the model's own state. The model is ours, so these")
                .append(" numbers say how well the rules are carried out, not how well they fit real furnaces.\n\n");
        out.append(
                        "Start and end: error in seconds, 95th percentile. Outcome and attempts: share right. Flutter and sag:")
                .append(" recall and precision in episodes (draft-only rows judge the modelled switch against the real")
                .append(
                        " contact). Margin: share of plain heated cycles whose minimum is within the larger of 2 Pa and")
                .append(" 1 % of suction. False: episodes in healthy houses that the model does not confirm, per 100")
                .append(" cycles.\n\n")
                .append(
                        "What was decided where the analysis and the model mean different things, and which targets are not")
                .append(" met and why: [decisions/reading-cycles.md](decisions/reading-cycles.md).\n\n");
        out.append("## By way of measuring\n\n");
        table(out, byMeasuring);
        out.append("\n## By scenario, all ways together\n\n");
        table(out, byScenario);
        return out.toString();
    }

    private static void table(StringBuilder out, Map<String, Score> scores) {
        out.append(
                        "| | cycles | found | invented | start | end | outcome | attempts | flutter recall | flutter precision")
                .append(" | sag recall | sag precision | margin | false |\n");
        out.append("|---|").append("---|".repeat(13)).append('\n');
        scores.forEach((name, s) -> out.append("| ")
                .append(String.join(
                        " | ",
                        Arrays.asList(
                                name,
                                "" + s.cycles,
                                share(s.found, s.cycles),
                                "" + s.invented,
                                number(s.p95(s.starts)),
                                number(s.p95(s.ends)),
                                share(s.outcomes, s.found),
                                share(s.attempts, s.found),
                                share(s.fluttersFound, s.flutters),
                                share(s.flutterTrue, s.flutterClaims),
                                share(s.sagsFound, s.sags),
                                share(s.sagsTrue, s.sagClaims),
                                Double.isNaN(s.marginsWithin()) ? "-" : percent(s.marginsWithin()),
                                s.healthyCycles == 0
                                        ? "-"
                                        : number(100.0 * s.falseEpisodes / s.healthyCycles) + " of "
                                                + s.healthyCycles)))
                .append(" |\n"));
    }

    private static String share(int part, int whole) {
        return whole == 0 ? "-" : percent((double) part / whole) + " of " + whole;
    }

    private static String percent(double share) {
        return String.format(Locale.ROOT, "%.1f %%", 100 * share);
    }

    private static String number(double value) {
        return Double.isNaN(value) ? "-" : String.format(Locale.ROOT, "%.2f", value);
    }
}
