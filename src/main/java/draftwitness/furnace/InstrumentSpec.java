package draftwitness.furnace;

import draftwitness.reading.Tap;
import draftwitness.reading.Unit;

/**
 * One instrument on the simulated house, with its imperfections in the base unit of the tap's quantity (pascal for
 * pressures).
 *
 * @param tap what it is labelled
 * @param connectedTo where its hose really is
 * @param unit the unit it sends
 * @param decimals digits after the point
 * @param rateHz readings a second
 * @param noise standard deviation of its own noise
 * @param zero zero offset
 * @param zeroDriftPerHour how the zero moves
 * @param lagSeconds its own filter; 0 for none
 * @param jitterSeconds standard deviation of its sampling times
 * @param dropOutsPerHour mean number of gaps an hour
 * @param dropOutSeconds mean length of a gap
 */
record InstrumentSpec(
        Tap tap,
        Tap connectedTo,
        Unit unit,
        int decimals,
        double rateHz,
        double noise,
        double zero,
        double zeroDriftPerHour,
        double lagSeconds,
        double jitterSeconds,
        double dropOutsPerHour,
        double dropOutSeconds) {
    InstrumentSpec {
        if (tap.quantity() != connectedTo.quantity() || tap.quantity() != unit.quantity()) {
            throw new IllegalArgumentException(
                    tap.role() + ", " + connectedTo.role() + " and " + unit.symbol() + " are not of one quantity");
        }
    }
}
