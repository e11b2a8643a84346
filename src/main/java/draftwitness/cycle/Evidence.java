package draftwitness.cycle;

import org.jspecify.annotations.Nullable;

/**
 * The numbers that made an episode one; NaN, 0 or null where they do not apply.
 *
 * @param depthPascals how far it went from the level, positive
 * @param levelPascals the level that it is compared with
 * @param frequencyHertz dominant frequency of the pressure
 * @param confidence share of the pressure's movement that the frequency explains, 0 to 1
 * @param transitions of the contact
 * @param character {@code periodic}, {@code gusty}, {@code drifting} or {@code contact-only}
 * @param source {@code contact} or {@code modelled}
 */
public record Evidence(
        double depthPascals,
        double levelPascals,
        double frequencyHertz,
        double confidence,
        int transitions,
        @Nullable String character,
        @Nullable String source) {

    static Evidence depth(double depthPascals, double levelPascals) {
        return new Evidence(depthPascals, levelPascals, Double.NaN, Double.NaN, 0, null, null);
    }

    static Evidence none() {
        return depth(Double.NaN, Double.NaN);
    }
}
