package draftwitness.cycle;

import draftwitness.reading.Tap;
import draftwitness.signal.LineFit;
import draftwitness.signal.Periodicity;
import draftwitness.signal.Robust;
import java.util.ArrayList;
import java.util.List;

/** Levels and movement of the taps in one run, for a comparison of taps with each other. Pure. */
final class LevelJudge {
    private static final long SECOND = 1_000_000_000;
    private static final long WINDOW = 8 * SECOND;
    private static final double LONG_BURN = 165;
    private static final double SHORT_BURN = 60;

    /** What warming up alone may still take after the first half minute (typical, from memory). */
    private static final double WARMING = 0.95;

    private static final int FEWEST = 16;

    private final RunSpan span;
    private final List<Burn> burns;
    private final double afterLightOff;

    LevelJudge(RunSpan span, List<Burn> burns, double afterLightOff) {
        this.span = span;
        this.burns = burns;
        this.afterLightOff = afterLightOff;
    }

    /**
     * Levels of a draft tap.
     *
     * @param suction from 15 s before the start until after the end, positive when the inducer draws
     * @param seen whether the recording shows the start
     */
    TapLevels draft(Tap tap, Suction suction, boolean seen) {
        long coldTo = coldTo();
        long coldFrom = Math.max(coldTo - 8 * SECOND, (span.startNanos() + coldTo) / 2);
        double cold = seen ? suction.median(coldFrom, coldTo) : Double.NaN;
        double rise = seen && cold > 20 ? rise(suction, cold) : Double.NaN;
        Movement moved = movement(suction, seen ? rise : 0);
        double[] idle = suction.between(span.startNanos() - 12 * SECOND, span.startNanos() - SECOND);
        return new TapLevels(
                tap,
                span.startNanos(),
                span.stopNanos(),
                cold,
                hot(suction),
                lateShare(suction),
                rise,
                moved.swing(),
                moved.hertz(),
                moved.rhythmShare(),
                moved.quickness(),
                idle.length < FEWEST ? Double.NaN : spread(idle),
                idle.length < FEWEST ? Double.NaN : quick(idle),
                suction.median(span.stopNanos() + 5 * SECOND, span.stopNanos() + 15 * SECOND / 2));
    }

    /** Level of any other tap during the last long burn. */
    TapLevels other(Tap tap, Track track) {
        double hot = Double.NaN;
        for (Burn b : burns) {
            if (b.offNanos() - b.onNanos() > 15 * SECOND) {
                hot = Robust.median(track.means(b.onNanos() + 8 * SECOND, b.offNanos() - SECOND));
            }
        }
        double n = Double.NaN;
        return new TapLevels(tap, span.startNanos(), span.stopNanos(), n, hot, n, n, n, n, n, n, n, n, n);
    }

    private long coldTo() {
        long to = Math.min(span.stopNanos(), span.startNanos() + 120 * SECOND);
        for (Burn b : burns) {
            to = Math.min(to, b.onNanos());
        }
        return to - SECOND / 2;
    }

    private double hot(Suction s) {
        double hot = Double.NaN;
        for (Burn b : burns) {
            long off = Math.min(b.offNanos(), span.stopNanos());
            if (b.lit() && off - b.onNanos() > 60 * SECOND) {
                hot = s.median(off - 20 * SECOND, off - SECOND);
            }
        }
        return hot;
    }

    private double lateShare(Suction s) {
        double share = Double.NaN;
        for (Burn b : burns) {
            long off = Math.min(b.offNanos(), span.stopNanos());
            double lasted = (off - b.onNanos()) / 1e9;
            if (b.lit() && lasted > LONG_BURN) {
                double early = s.median(b.onNanos() + 75 * SECOND, b.onNanos() + 105 * SECOND);
                share = s.median(off - 25 * SECOND, off - SECOND) / early;
            } else if (b.lit() && lasted > SHORT_BURN && Double.isNaN(share)) {
                double early = s.median(b.onNanos() + 20 * SECOND, b.onNanos() + 35 * SECOND);
                share = Math.min(1, s.median(off - 11 * SECOND, off - SECOND) / early / WARMING);
            }
        }
        return share;
    }

    private double rise(Suction s, double cold) {
        for (int i = s.at(span.startNanos()); i < s.size() && s.times[i] < span.stopNanos(); i++) {
            if (s.means[i] >= 0.9 * cold) {
                return Math.max(0, s.times[i] - span.startNanos()) / 1e9;
            }
        }
        return Double.NaN;
    }

    private record Movement(double swing, double hertz, double rhythmShare, double quickness) {}

    private record Stretch(double spread, double quickness, double hertz, boolean regular) {}

    private Movement movement(Suction s, double rise) {
        List<Stretch> all = new ArrayList<>();
        double settled = Math.max(8, Double.isNaN(rise) ? 8 : 2 * rise);
        for (long t = span.startNanos() + CycleSettings.nanos(settled);
                t + WINDOW <= span.stopNanos() - SECOND;
                t += WINDOW / 2) {
            double[] values = s.between(t, t + WINDOW);
            if (values.length >= FEWEST && undisturbed(t, t + WINDOW)) {
                all.add(stretch(values, values.length / (WINDOW / 1e9)));
            }
        }
        if (all.isEmpty()) {
            return new Movement(Double.NaN, Double.NaN, Double.NaN, Double.NaN);
        }
        double swing = Robust.quantile(all.stream().mapToDouble(Stretch::spread).toArray(), 0.9);
        List<Stretch> lively =
                all.stream().filter(x -> x.spread() >= 0.6 * swing).toList();
        double[] hertz = lively.stream()
                .filter(Stretch::regular)
                .mapToDouble(Stretch::hertz)
                .toArray();
        return new Movement(
                swing,
                hertz.length == 0 ? Double.NaN : Robust.median(hertz),
                (double) hertz.length / lively.size(),
                Robust.median(lively.stream().mapToDouble(Stretch::quickness).toArray()));
    }

    private static Stretch stretch(double[] values, double rate) {
        Periodicity rhythm = Periodicity.of(values, rate);
        boolean regular = rhythm.hertz() > 0.3 && rhythm.share() > 0.5 && rhythm.repeats() > 0.3;
        double spread = spread(values);
        double quick = quick(values);
        return new Stretch(
                spread, spread > 0 ? Math.min(1, quick * quick / (spread * spread)) : 0, rhythm.hertz(), regular);
    }

    /** Whether neither light-off nor gas shut-off nor a stage nearby disturbs a stretch. */
    private boolean undisturbed(long from, long to) {
        long after = CycleSettings.nanos(afterLightOff);
        for (Burn b : burns) {
            boolean on = b.onNanos() - SECOND < to && Math.max(b.onNanos(), b.lightOffNanos()) + 2 * after > from;
            boolean off = b.offNanos() - SECOND < to && b.offNanos() + 2 * after > from;
            if (on || off) {
                return false;
            }
        }
        return true;
    }

    /** Standard deviation about a straight line. */
    private static double spread(double[] values) {
        double[] x = new double[values.length];
        for (int i = 0; i < x.length; i++) {
            x[i] = i;
        }
        LineFit line = LineFit.of(x, values);
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            double rest = values[i] - line.intercept() - line.slope() * i;
            sum += rest * rest;
        }
        return Math.sqrt(sum / Math.max(1, x.length - 2));
    }

    /** Root of half the mean squared step from look to look: the spread of white noise, far less for slow movement. */
    private static double quick(double[] values) {
        double sum = 0;
        for (int i = 1; i < values.length; i++) {
            double step = values[i] - values[i - 1];
            sum += step * step;
        }
        return Math.sqrt(sum / 2 / Math.max(1, values.length - 1));
    }
}
