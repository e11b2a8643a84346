package draftwitness.dashboard;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What was seen, what is likely wrong and what to check next, ready to show. Immutable.
 *
 * @param conclusion two or three sentences; empty while it is being worked out
 * @param seen kinds of findings, gravest first
 * @param causes most likely first; only those worth a line
 * @param checks best first
 * @param answers what was answered, oldest first
 * @param undo what would be taken back, in words; empty when there is nothing
 */
public record Findings(
        String conclusion, List<Seen> seen, List<Cause> causes, List<Check> checks, List<String> answers, String undo) {
    public static final Findings NONE = new Findings("", List.of(), List.of(), List.of(), List.of(), "");

    /**
     * Findings of one kind.
     *
     * @param title kind and how many
     * @param text the gravest in plain words: which readings, which rule, which setting
     * @param where its readings, or null when it is about the whole session
     */
    public record Seen(
            String title, Tone tone, String text, @Nullable TimeSpan where) {}

    /**
     * A cause.
     *
     * @param share how likely, in words and as a number
     * @param probability 0 to 1
     * @param meaning how it shows itself
     * @param why evidence for it and against it
     * @param change the check that could move it most; may be empty
     */
    public record Cause(
            String id, String name, String share, double probability, String meaning, List<Why> why, String change) {}

    /**
     * One piece of evidence.
     *
     * @param speaks true when it speaks for the cause
     * @param weight how strongly, in words
     * @param seen what was seen
     * @param reason why that tells something, and how far to trust it
     * @param where its readings, or null when a person answered
     */
    public record Why(
            boolean speaks,
            String weight,
            String seen,
            String reason,
            @Nullable TimeSpan where) {}

    /**
     * A check worth doing.
     *
     * @param effort minutes and gain in words
     * @param text what to do and where the hose goes
     * @param cautions what to mind, may be empty
     * @param outcomes what can come of it
     */
    public record Check(String id, String title, String effort, String text, String cautions, List<Outcome> outcomes) {}

    /** An outcome that can be answered. */
    public record Outcome(String id, String text) {}
}
