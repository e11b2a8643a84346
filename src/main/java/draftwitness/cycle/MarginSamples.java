package draftwitness.cycle;

import draftwitness.signal.Robust;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** Suctions that count for a margin, of one phase or more. Pascal. Immutable. */
final class MarginSamples {
    private final double[] means;
    private final double smallest;

    MarginSamples(double[] means, double smallest) {
        this.means = means.clone();
        this.smallest = smallest;
    }

    MarginSamples and(MarginSamples other) {
        double[] all = Arrays.copyOf(means, means.length + other.means.length);
        System.arraycopy(other.means, 0, all, means.length, other.means.length);
        return new MarginSamples(all, Math.min(smallest, other.smallest));
    }

    double median() {
        return Robust.median(means);
    }

    /** The margin against the set point; null without looks or set point. */
    @Nullable
    Margin margin(CycleSettings settings) {
        var rating = settings.pressureSwitch();
        if (rating == null || means.length == 0) {
            return null;
        }
        double set = rating.setPointPascals();
        double p01 = Robust.quantile(means, 0.01) - set;
        double mean = Arrays.stream(means).average().orElseThrow() - set;
        return new Margin(Math.min(smallest - set, p01), p01, mean, settings.band(p01));
    }
}
