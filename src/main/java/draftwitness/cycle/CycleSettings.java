package draftwitness.cycle;

import draftwitness.setup.Setup;
import org.jspecify.annotations.Nullable;

/**
 * Every number that the reading of cycles depends on, in one place. Pressures in pascal, times in seconds, shares of 1.
 *
 * <p>What the setup file states comes from there. The others are the program's own choices; {@link #of} has their
 * values. Trade figures among them are common practice without a source.
 *
 * @param pressureSwitch rating of the switch, or null: then no margin and no modelled contact
 * @param gas plate values of the gas side
 * @param sequence times of the burner control
 * @param inducerStages 1 or 2: with two, a lower level that lasts is no sag
 * @param scalePascals how strong a suction is expected before any was seen: 1.2 set points, or 100 Pa
 * @param startShare suction above this share of the usual plateau is a start (0.10)
 * @param startHold for at least this long (0.8 s)
 * @param stopShare suction below this share of the plateau is a stop (0.10)
 * @param stopHold for at least this long (1.5 s)
 * @param idleShare suction is back at idle within this share of the plateau (0.01)
 * @param tail how long the level after a stop is watched (10 s)
 * @param thinPascals margins below are thin (0.25 in w.c., the program's own)
 * @param healthyPascals margins from here on are healthy (0.75 in w.c., common practice, no source)
 * @param lasting a level counts when it lasts so long (0.1 s), or two readings
 * @param afterLightOff not counted after light-off (3 s)
 * @param sagWindow the running level is the median of so long (10 s)
 * @param sagShare a sag is deeper than this share of the level (0.08) and
 * @param sagSigmas this many robust standard deviations (3)
 * @param sagHold for at least so long (0.3 s)
 * @param sagMerge sags closer than this are one (1 s)
 * @param flutterTransitions fewest transitions (3)
 * @param flutterWithin within so long (10 s); spans closer than this are one
 * @param nearPascals near-flutter uses levels raised by this (0.1 in w.c.)
 * @param chatter openings shorter than this without a pressure event are chatter (0.05 s)
 * @param switchFilter openings at least so long stop a burner (0.25 s; typical, from memory)
 * @param lateFactor spin-up over so many times the session's median is late (2) and
 * @param lateFloor over so long (10 s)
 * @param driftShare lost share of the plateau (0.15)
 * @param driftTime over at least so long (60 s)
 * @param blowerShare step at a blower change, share of the plateau (0.04)
 * @param blowerWithin within so long of the change (2 s)
 * @param gasSagShare inlet lower by this share (0.15)
 * @param gasSagHold for so long (1 s)
 * @param gasOffShare mean manifold off its target by this share (0.10)
 * @param huntingShare periodic manifold swing, peak to peak, share of its mean (0.05)
 * @param disagreeHold contact against modelled switch for so long (0.5 s)
 * @param stableRun a run this long forgets the failures before it (60 s; typical, from memory)
 * @param flameMicroamperes flame current above which there is a flame (0.5; typical, from memory)
 */
public record CycleSettings(
        Setup.@Nullable PressureSwitch pressureSwitch,
        Setup.Gas gas,
        Setup.Sequence sequence,
        int inducerStages,
        double scalePascals,
        double startShare,
        double startHold,
        double stopShare,
        double stopHold,
        double idleShare,
        double tail,
        double thinPascals,
        double healthyPascals,
        double lasting,
        double afterLightOff,
        double sagWindow,
        double sagShare,
        double sagSigmas,
        double sagHold,
        double sagMerge,
        int flutterTransitions,
        double flutterWithin,
        double nearPascals,
        double chatter,
        double switchFilter,
        double lateFactor,
        double lateFloor,
        double driftShare,
        double driftTime,
        double blowerShare,
        double blowerWithin,
        double gasSagShare,
        double gasSagHold,
        double gasOffShare,
        double huntingShare,
        double disagreeHold,
        double stableRun,
        double flameMicroamperes) {
    private static final double INCH = 249.08891;

    /** The settings for an appliance: its setup, and the program's defaults for the rest. */
    public static CycleSettings of(Setup setup) {
        Setup.PressureSwitch s = setup.pressureSwitch();
        return new CycleSettings(
                s,
                setup.gas(),
                setup.sequence(),
                setup.inducerStages(),
                s == null ? 100 : 1.2 * s.setPointPascals(),
                0.10,
                0.8,
                0.10,
                1.5,
                0.01,
                10,
                0.25 * INCH,
                0.75 * INCH,
                0.1,
                3,
                10,
                0.08,
                3,
                0.3,
                1,
                3,
                10,
                0.1 * INCH,
                0.05,
                0.25,
                2,
                10,
                0.15,
                60,
                0.04,
                2,
                0.15,
                1,
                0.10,
                0.05,
                0.5,
                60,
                0.5);
    }

    /** The band of a margin. */
    Band band(double marginPascals) {
        if (marginPascals < thinPascals) {
            return Band.THIN;
        }
        return marginPascals < healthyPascals ? Band.MODEST : Band.HEALTHY;
    }

    /** Manifold pressure at full fire: from the plate, else what is usual for the gas (common practice, no source). */
    double manifoldPascals() {
        Double plate = gas.manifoldPascals();
        if (plate != null) {
            return plate;
        }
        return (gas.kind() == Setup.GasKind.PROPANE ? 10.0 : 3.5) * INCH;
    }

    static long nanos(double seconds) {
        return Math.round(seconds * 1e9);
    }
}
