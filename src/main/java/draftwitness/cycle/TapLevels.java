package draftwitness.cycle;

import draftwitness.reading.Tap;

/**
 * What one tap showed in one run of the inducer; NaN where it cannot be told.
 *
 * <p>Draft: suction in pascal, positive, zero of the idle before taken off (a vent above the room is negative). Other
 * taps: as read, in base units, and only {@code hot}.
 *
 * @param startNanos start of the run, session time
 * @param endNanos stop of the run, session time
 * @param cold level before light-off, or before the stop if it never lit
 * @param hot level at the end of the last long burn
 * @param lateShare level at the end of the last long burn over the level 75 to 105 s after its light-off; of shorter
 *     burns, over the level after 20 to 35 s with 5 % allowed for warming up, and at most 1
 * @param riseSeconds from the start until nine tenths of the cold level; only above 20 Pa
 * @param swing standard deviation about a line in 8 s of the liveliest tenth of the run, light-off left out
 * @param rhythmHertz median frequency of those stretches that swing regularly
 * @param rhythmShare share of the lively stretches that swing regularly
 * @param quickness 0 for slow movement, 1 for movement as quick as the looks (10 Hz), in the liveliest stretches
 * @param idleSwing standard deviation in the last 12 s before the start
 * @param idleNoise the part of it that is as quick as the looks
 * @param afterStop level 5 to 7.5 s after the inducer stopped, within what is watched of every tail
 */
public record TapLevels(
        Tap tap,
        long startNanos,
        long endNanos,
        double cold,
        double hot,
        double lateShare,
        double riseSeconds,
        double swing,
        double rhythmHertz,
        double rhythmShare,
        double quickness,
        double idleSwing,
        double idleNoise,
        double afterStop) {}
