package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import org.jspecify.annotations.Nullable;

/**
 * What a measurement is judged by.
 *
 * @param plate ratings of the appliance
 * @param tap the tap that the person chose where several would do, or null
 * @param volumeCubicMetres volume under suction in a leak-down
 * @param lowFire whether the manifold is measured at low fire
 * @param unit the unit in which sentences tell pressures
 */
public record Terms(Setup plate, @Nullable Tap tap, double volumeCubicMetres, boolean lowFire, Unit unit) {
    /** Volume of a switch and half a metre of tube of 5 mm, about: 20 mL (geometry; the switch's part from memory). */
    public static final double USUAL_VOLUME_CUBIC_METRES = 20e-6;

    public Terms {
        if (!(volumeCubicMetres > 0 && volumeCubicMetres < 1)) {
            throw new IllegalArgumentException("a volume of " + volumeCubicMetres + " m3");
        }
    }

    /** With the usual volume, at high fire, any tap, in pascal. */
    public static Terms of(Setup plate) {
        return new Terms(plate, null, USUAL_VOLUME_CUBIC_METRES, false, Unit.PASCAL);
    }

    /** The same, told in another unit of pressure. */
    public Terms in(Unit other) {
        return new Terms(plate, tap, volumeCubicMetres, lowFire, other);
    }

    /** The same with a tap chosen, or none. */
    public Terms at(@Nullable Tap chosen) {
        return new Terms(plate, chosen, volumeCubicMetres, lowFire, unit);
    }
}
