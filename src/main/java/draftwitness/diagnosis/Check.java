package draftwitness.diagnosis;

import java.util.List;
import java.util.Optional;

/**
 * Something that a person can measure or look at to find out more. Immutable; all checks stand in the table.
 *
 * @param id the word used in files, for example {@code two-tap}
 * @param title a few words
 * @param text what to do, in a technician's words
 * @param hose where the hose or the meter goes; may be empty
 * @param minutes usual effort, above 0 (typical, from memory)
 * @param cautions what to mind, one sentence each; never empty where gas, contacts or combustion are touched
 * @param outcomes what can come of it
 */
public record Check(
        String id,
        String title,
        String text,
        String hose,
        double minutes,
        List<String> cautions,
        List<Outcome> outcomes) {

    /**
     * What can come of a check.
     *
     * @param id the word used in files; unique within the check
     * @param text what was seen, as a person would pick it from a list
     */
    public record Outcome(String id, String text) {}

    public Check {
        if (!(minutes > 0)) {
            throw new IllegalArgumentException("check " + id + " takes " + minutes + " minutes");
        }
        cautions = List.copyOf(cautions);
        outcomes = List.copyOf(outcomes);
    }

    /** All checks, in the table's order. */
    public static List<Check> all() {
        return CauseTable.standard().checks();
    }

    /** The check with an identifier. */
    public static Optional<Check> ofId(String id) {
        return all().stream().filter(c -> c.id().equals(id)).findFirst();
    }

    /** The outcome with an identifier. */
    public Optional<Outcome> outcome(String outcomeId) {
        return outcomes.stream().filter(o -> o.id().equals(outcomeId)).findFirst();
    }
}
