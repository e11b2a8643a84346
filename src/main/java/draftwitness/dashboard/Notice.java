package draftwitness.dashboard;

/**
 * A quiet line about an episode: one that just came up, or the one that was stepped to.
 *
 * @param text what and when
 * @param tone how much it asks for a person
 * @param episode what it is about
 * @param news true when it came up by itself
 */
public record Notice(String text, Tone tone, EpisodeMark episode, boolean news) {}
