package draftwitness.dashboard;

/**
 * A part of the sequence on the ribbon over the strips.
 *
 * @param span when
 * @param word what the furnace did, as a technician says it
 * @param shortWord the same where there is little room
 * @param tone danger for a lockout, attention for waiting to try again, else quiet
 * @param open true when it goes on: then it is drawn up to the newest moment
 */
public record PhaseMark(TimeSpan span, String word, String shortWord, Tone tone, boolean open) {}
