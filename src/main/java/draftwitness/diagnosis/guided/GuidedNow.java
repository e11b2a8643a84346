package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How a measurement stands at one moment. Immutable.
 *
 * @param running the part that takes readings now, or null
 * @param taken ids of the parts taken, in the order they were begun
 * @param elapsedSeconds since the part began
 * @param progress share of its length, 0 to 1; NaN if it has none
 * @param taps newest reading of each of the part's taps
 * @param trace readings of the part at its first tap; of the last part when none is running
 * @param result what the readings say so far
 */
public record GuidedNow(
        @Nullable Part running,
        List<String> taken,
        double elapsedSeconds,
        double progress,
        List<TapNow> taps,
        Trace trace,
        GuidedResult result) {
    public GuidedNow {
        taken = List.copyOf(taken);
        taps = List.copyOf(taps);
    }

    /**
     * The newest reading of a tap.
     *
     * @param value in the base unit, zero taken off; NaN before the first
     * @param steady whether its level stood still for the last five seconds, within 1 Pa or 1 %
     * @param silentSeconds how long ago it was
     */
    public record TapNow(Tap tap, double value, boolean steady, double silentSeconds) {}

    /** A curve for the screen, at most a few hundred points, oldest first. */
    public record Trace(List<Point> points) {
        static final Trace NONE = new Trace(List.of());

        public Trace {
            points = List.copyOf(points);
        }
    }

    /**
     * A point of a curve.
     *
     * @param seconds from the part's beginning
     * @param value in the base unit
     */
    public record Point(double seconds, double value) {}
}
