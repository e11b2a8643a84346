package draftwitness.dashboard;

import draftwitness.reading.Tap;

/**
 * What stands beside a strip, ready to show.
 *
 * @param tap the tap
 * @param title the tap in plain words
 * @param figure the current value without unit, or the state of a contact; a dash when there is none
 * @param unit the unit's symbol; empty for contacts
 * @param sense which way a draft points, in a word; empty for others
 * @param figureTone quiet when the figure is not current
 * @param note margin to the set point or the like; may be empty
 * @param noteTone how the note is shown
 * @param source what is wrong with the source; empty when it delivers
 * @param sourceTone how that is shown
 */
public record LaneHeader(
        Tap tap,
        String title,
        String figure,
        String unit,
        String sense,
        Tone figureTone,
        String note,
        Tone noteTone,
        String source,
        Tone sourceTone) {

    /** All of it as one sentence, for screen readers. */
    public String spoken() {
        StringBuilder text = new StringBuilder(title).append(": ").append(figure);
        append(text, " ", unit);
        append(text, " ", sense);
        append(text, ", ", note);
        append(text, ", ", source);
        return text.toString();
    }

    private static void append(StringBuilder text, String before, String part) {
        if (!part.isEmpty()) {
            text.append(before).append(part);
        }
    }
}
