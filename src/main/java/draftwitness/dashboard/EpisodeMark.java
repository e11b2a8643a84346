package draftwitness.dashboard;

import draftwitness.reading.Tap;

/**
 * An episode on a strip and in lists, ready to show.
 *
 * @param span when
 * @param tap the strip that it is marked on
 * @param cycle index of its cycle
 * @param word what it is, in a word or two
 * @param tone how much it asks for a person
 * @param text in plain words: which readings, which rule, which setting
 */
public record EpisodeMark(TimeSpan span, Tap tap, int cycle, String word, Tone tone, String text) {

    /** Whether one is stepped to and announced; others are only marked. */
    public boolean calls() {
        return tone == Tone.ATTENTION || tone == Tone.DANGER;
    }

    long middleNanos() {
        return span.fromNanos() + span.lengthNanos() / 2;
    }

    /** Whether this is the same event as another, which may have been judged again since. */
    boolean sameAs(EpisodeMark other) {
        return cycle == other.cycle
                && word.equals(other.word)
                && tap == other.tap
                && Math.abs(span.fromNanos() - other.span.fromNanos()) < 5_000_000_000L;
    }
}
