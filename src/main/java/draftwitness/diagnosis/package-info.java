/**
 * Weighs what a session and a person's own checks showed: how likely each cause is, and which check would tell most.
 *
 * <p>In: a cycle report, the session's channels, the setup, answers of checks. Out: probabilities that sum to 1, the
 * evidence for and against each cause, and the next checks by gain of information (bits) a minute. Pure; any thread.
 * All likelihoods stand in one table, {@code diagnosis/causes.toml}. Knows {@code reading}, {@code input},
 * {@code setup}, {@code signal} and {@code cycle}; never a recording, a link or a screen.
 */
@NullMarked
package draftwitness.diagnosis;

import org.jspecify.annotations.NullMarked;
