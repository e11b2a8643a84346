package draftwitness.diagnosis;

import java.util.List;
import java.util.Optional;

/**
 * Something that can be wrong with a furnace, or {@code none}. Immutable; all causes stand in the table.
 *
 * @param id the word used in files, for example {@code condensate-in-vent}
 * @param name what a technician calls it
 * @param meaning one sentence: how it shows itself
 * @param remedy what to do once it is as good as certain
 * @param danger whether the appliance is left off until it is made safe
 */
public record Cause(String id, String name, String meaning, String remedy, boolean danger) {
    /** Identifier of the cause that says that nothing is wrong. */
    public static final String NONE = "none";

    /** All causes, {@code none} last. */
    public static List<Cause> all() {
        return CauseTable.standard().causes();
    }

    /** The cause with an identifier. */
    public static Optional<Cause> ofId(String id) {
        return all().stream().filter(c -> c.id().equals(id)).findFirst();
    }

    /** Whether this says that nothing is wrong. */
    public boolean isNone() {
        return id.equals(NONE);
    }
}
