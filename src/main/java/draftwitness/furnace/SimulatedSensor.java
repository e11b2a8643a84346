package draftwitness.furnace;

import draftwitness.reading.Tap;
import draftwitness.reading.Unit;

/**
 * What a simulated instrument says of itself.
 *
 * @param tap where it is labelled to be connected
 * @param unit the unit it sends
 * @param decimals digits after the point
 * @param rateHz nominal readings a second, above 0
 */
public record SimulatedSensor(Tap tap, Unit unit, int decimals, double rateHz) {
    public SimulatedSensor {
        if (unit.quantity() != tap.quantity() || !(rateHz > 0)) {
            throw new IllegalArgumentException(tap.role() + " in " + unit.symbol() + " at " + rateHz + " Hz");
        }
    }
}
