package draftwitness.diagnosis.guided;

/**
 * A number that a measurement brought.
 *
 * @param id its name within the measurement, for example {@code time-constant}
 * @param value in the unit of its scale; may be infinite, never NaN
 * @param uncertainty half width of the 95 % interval, in the same unit; NaN if it has none
 * @param scale what it counts
 */
public record Figure(String id, double value, double uncertainty, Scale scale) {
    public Figure {
        if (Double.isNaN(value) || uncertainty < 0) {
            throw new IllegalArgumentException(id + ": " + value + " with uncertainty " + uncertainty);
        }
    }

    static Figure exact(String id, double value, Scale scale) {
        return new Figure(id, value, Double.NaN, scale);
    }
}
