package draftwitness.dashboard;

/**
 * Where the furnace stands in its sequence, ready to show.
 *
 * @param phase what it does, as a technician says it; empty when no channel tells
 * @param lasted for how long
 * @param tone how that is shown
 * @param next what comes next and by when; may be empty
 * @param nextTone attention when it is late, danger when it is later than the control waits
 * @param attempt which attempt of how many; may be empty
 * @param why what the expectation rests on; may be empty
 */
public record SequenceLine(
        String phase, String lasted, Tone tone, String next, Tone nextTone, String attempt, String why) {
    /** Nothing to tell. */
    public static final SequenceLine NONE = new SequenceLine("", "", Tone.QUIET, "", Tone.QUIET, "", "");

    /** All of it as one sentence, for screen readers. */
    public String spoken() {
        StringBuilder out = new StringBuilder(phase);
        for (String part : new String[] {lasted, attempt, next}) {
            if (!part.isEmpty()) {
                out.append(", ").append(part);
            }
        }
        return out.toString();
    }
}
