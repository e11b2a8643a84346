package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import draftwitness.signal.Alikeness;
import draftwitness.signal.Robust;
import draftwitness.signal.Spectrum;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Two draft taps at once, best over the start of the inducer: the share of the suction that arrives, how late it comes
 * (cross-correlation), and whether both move alike (coherence by Welch's method, mean of 0.1 to 2 Hz).
 *
 * <p>A clear, tight tube passes all of the suction on within tenths of a second. Below nine tenths a part is lost;
 * later than half a second the tube is narrowed. The limits are our own choice.
 */
final class TwoTaps implements Judge {
    static final double ALL = 0.9;
    static final double LATE_SECONDS = 0.5;

    private static final double RATE = 20;
    private static final double LEAST_PASCALS = 20;
    private static final double LEAST_SECONDS = 15;

    @Override
    public List<Part> parts(Set<Tap> taps, @Nullable Tap chosen) {
        List<Tap> there = new ArrayList<>();
        for (Tap tap : List.of(Tap.DRAFT_SWITCH, Tap.DRAFT_INDUCER, Tap.DRAFT_COLLECTOR, Tap.DRAFT_VENT)) {
            if (taps.contains(tap)) {
                there.add(tap);
            }
        }
        if (chosen != null && there.remove(chosen)) {
            there.add(0, chosen);
        }
        return there.size() < 2
                ? List.of()
                : List.of(new Part("both", List.of(there.get(0), there.get(1)), LEAST_SECONDS, 60));
    }

    @Override
    public String needs() {
        return "two of " + Tap.DRAFT_SWITCH.role() + ", " + Tap.DRAFT_INDUCER.role() + " and "
                + Tap.DRAFT_COLLECTOR.role() + " at the same time";
    }

    /** Both taps at the same equally spaced times. */
    private static final class Pair {
        private final Tap firstTap;
        private final Tap secondTap;
        private final double[] first;
        private final double[] second;
        private final double rate;

        Pair(Tap firstTap, Tap secondTap, double[] first, double[] second, double rate) {
            this.firstTap = firstTap;
            this.secondTap = secondTap;
            this.first = first;
            this.second = second;
            this.rate = rate;
        }

        static @Nullable Pair of(PartReadings both) {
            List<Tap> taps = both.part().taps();
            Samples a = both.at(taps.get(0));
            Samples b = both.at(taps.get(1));
            if (a.size() < 20 || b.size() < 20) {
                return null;
            }
            long from = Math.max(a.time(0), b.time(0));
            long to = Math.min(a.time(a.size() - 1), b.time(b.size() - 1));
            double rate = Math.min(RATE, Math.min(a.size() / a.length(), b.size() / b.length()));
            int n = (int) Math.floor((to - from) / 1e9 * rate);
            if (n < 40) {
                return null;
            }
            double[] first = new double[n];
            double[] second = new double[n];
            for (int i = 0; i < n; i++) {
                long at = from + Math.round(i / rate * 1e9);
                first[i] = a.valueAt(at);
                second[i] = b.valueAt(at);
            }
            return new Pair(taps.get(0), taps.get(1), first, second, rate);
        }
    }

    @Override
    public Judgement judge(Map<String, PartReadings> parts, Terms terms) {
        PartReadings both = parts.get("both");
        Pair pair = both == null ? null : Pair.of(both);
        if (pair == null) {
            return Judgement.undecided("Too few readings of both taps at the same time.");
        }
        double[] ratios = ratios(pair);
        if (ratios.length < 3) {
            return Judgement.undecided("The inducer does not run: there is no suction to compare.");
        }
        double ratio = Robust.median(ratios);
        double spread = 2 * 1.2533 * Robust.SIGMA_OF_MAD * Robust.mad(ratios) / Math.sqrt(ratios.length);
        List<Figure> figures = new ArrayList<>();
        figures.add(new Figure("ratio", ratio, spread, Scale.SHARE));
        figures.add(Figure.exact(
                Taps.name(pair.firstTap) + "-against-" + Taps.name(pair.secondTap), ratios.length, Scale.COUNT));
        Alikeness.Lag lag = Alikeness.lag(pair.second, pair.first, mostLag(pair));
        double late = lag.values() / pair.rate;
        if (!Double.isNaN(late)) {
            figures.add(new Figure("lag", late, 1 / pair.rate, Scale.SECOND));
            figures.add(Figure.exact("correlation", lag.correlation(), Scale.NUMBER));
        }
        double coherence = coherence(pair);
        if (!Double.isNaN(coherence)) {
            figures.add(Figure.exact("coherence", coherence, Scale.NUMBER));
        }
        return judge(pair, ratio, spread, late, lag.correlation(), figures);
    }

    /** First over second, a value for each second at which the second has suction, in the steady part. */
    private static double[] ratios(Pair pair) {
        double most = Arrays.stream(pair.second).map(Math::abs).max().orElse(0);
        double least = Math.max(LEAST_PASCALS, 0.5 * most);
        int group = Math.max(1, (int) Math.round(pair.rate));
        List<Double> ratios = new ArrayList<>();
        for (int i = 0; i + group <= pair.first.length; i += group) {
            double a = 0;
            double b = 0;
            for (int k = i; k < i + group; k++) {
                a += pair.first[k] / group;
                b += pair.second[k] / group;
            }
            if (Math.abs(b) >= least) {
                ratios.add(a / b);
            }
        }
        return ratios.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static int mostLag(Pair pair) {
        return (int) Math.max(1, Math.min(10 * pair.rate, pair.first.length / 4.0));
    }

    private static double coherence(Pair pair) {
        int segment = Math.min(256, pair.first.length / 4) / 2 * 2;
        double[] lines = Alikeness.coherence(pair.first, pair.second, segment, segment / 2, Spectrum.Window.HANN);
        double sum = 0;
        int n = 0;
        for (int k = 1; k < lines.length; k++) {
            double hertz = k * pair.rate / segment;
            if (hertz >= 0.1 && hertz <= 2 && !Double.isNaN(lines[k])) {
                sum += lines[k];
                n++;
            }
        }
        return n == 0 ? Double.NaN : sum / n;
    }

    private static Judgement judge(
            Pair pair, double ratio, double spread, double late, double correlation, List<Figure> figures) {
        List<String> remarks = new ArrayList<>();
        String names = Taps.name(pair.firstTap) + " against " + Taps.name(pair.secondTap);
        String arrives = names + ": " + Telling.percent(ratio, spread) + " of the suction arrives";
        boolean known = correlation > 0.7;
        if (!known) {
            remarks.add("Both moved too little alike to tell a delay: measure over a start of the inducer.");
        }
        remarks.add("The ratio compares like with like only if both instruments were zeroed.");
        String delay = known ? ", " + Telling.seconds(Math.max(0, late), 1 / pair.rate) + " late" : "";
        boolean tube = pair.firstTap == Tap.DRAFT_SWITCH && pair.secondTap == Tap.DRAFT_INDUCER;
        if (!tube) {
            return new Judgement(
                    Grade.UNJUDGED,
                    arrives + delay + ". Compare with the same furnace when it was well: there is no general figure.",
                    figures,
                    remarks);
        }
        remarks.add("It is judged as a tube: that holds if the switch's tube comes from the inducer.");
        boolean isLate = known && late - 1 / pair.rate > LATE_SECONDS;
        boolean lost = ratio + spread < ALL;
        boolean whole = ratio - spread >= ALL;
        Grade grade = isLate || lost ? Grade.FAULT : whole ? Grade.FINE : Grade.UNDECIDED;
        String because = isLate
                ? " The tube or its port is narrowed: look for a kink, water or dirt."
                : lost
                        ? " A part is lost on the way: a leak in the tube, the diaphragm or a loose hose."
                        : whole ? " The tube passes on what the inducer pulls." : " Too close to call.";
        return new Judgement(grade, arrives + delay + "." + because, figures, remarks);
    }
}
