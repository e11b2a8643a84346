package draftwitness.diagnosis;

/**
 * A check worth doing now.
 *
 * @param gainBits expected information about the cause, in bits, 0 or more
 * @param text what to do, where the hose goes, and what to mind
 */
public record NextCheck(Check check, double gainBits, String text) {
    /** The rule of ranking: bits a minute. */
    public double bitsPerMinute() {
        return gainBits / check.minutes();
    }
}
