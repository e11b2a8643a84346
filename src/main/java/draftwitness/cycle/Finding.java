package draftwitness.cycle;

/**
 * Something to tell a person.
 *
 * @param kind the word used in files, for example {@code thin-margin}
 * @param cycle index of the cycle, 0 when it belongs to none
 * @param startNanos session time
 * @param endNanos session time
 * @param text in plain words: which readings, which rule, which setting
 */
public record Finding(String kind, Severity severity, int cycle, long startNanos, long endNanos, String text) {}
