package draftwitness.diagnosis;

/**
 * What came of a check.
 *
 * @param check identifier of the check
 * @param outcome identifier of one of its outcomes
 * @param from where it comes from, for people: who looked, or which measurement gave it
 */
public record Answer(String check, String outcome, String from) {
    /**
     * Takes an answer if it is one.
     *
     * @throws IllegalArgumentException naming what is known, if there is no such check or outcome
     */
    public Answer {
        Check known = Check.ofId(check)
                .orElseThrow(() -> new IllegalArgumentException("no check '" + check + "'; known: "
                        + String.join(" ", Check.all().stream().map(Check::id).toList())));
        if (known.outcome(outcome).isEmpty()) {
            throw new IllegalArgumentException("check '" + check + "' has no outcome '" + outcome + "'; known: "
                    + String.join(
                            " ",
                            known.outcomes().stream().map(Check.Outcome::id).toList()));
        }
    }
}
