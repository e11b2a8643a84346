package draftwitness.dashboard;

import draftwitness.reading.Quantity;
import org.jspecify.annotations.Nullable;

/**
 * One reading of an instrument in reach.
 *
 * @param spec how to connect it, as on the command line: {@code DRIVER@LINK}
 * @param reading the driver's name of the reading; may be empty when the driver has one only
 * @param title what a person would call it: maker, port or address
 * @param quantity what it measures, or null when that is not known before it is connected
 * @param live its present value with unit, or empty
 * @param trouble why it cannot be used now and what to do, one line; or empty
 */
public record FoundSource(
        String spec, String reading, String title, @Nullable Quantity quantity, String live, String trouble) {

    /** True when this could be connected to a tap. */
    public boolean fits(Quantity wanted) {
        return trouble.isEmpty() && (quantity == null || quantity == wanted);
    }

    /** Same reading of the same instrument, whatever it shows just now. */
    public boolean isSame(FoundSource other) {
        return spec.equals(other.spec) && reading.equals(other.reading);
    }
}
