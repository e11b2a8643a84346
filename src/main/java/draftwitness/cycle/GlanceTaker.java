package draftwitness.cycle;

import draftwitness.reading.Tap;
import draftwitness.setup.Setup;
import draftwitness.signal.Hysteresis;
import org.jspecify.annotations.Nullable;

/**
 * Takes glances: what the newest looks say by themselves. One owner thread.
 *
 * <p>The suction shown is the mean of the last third of a second, so that it can be read. The zero is that of the
 * channel that tells runs; a switch channel beside it is taken as it reads.
 */
final class GlanceTaker {
    private static final long SHOWN = 1_000_000_000 / 3;
    private static final long STALE = 3_000_000_000L;
    private static final double GAS_ON_SHARE = 0.25;

    private final Sources sources;
    private final RunDetector detector;
    private final CycleSettings settings;
    private final @Nullable Hysteresis switchModel;

    GlanceTaker(Sources sources, RunDetector detector, CycleSettings settings) {
        this.sources = sources;
        this.detector = detector;
        this.settings = settings;
        Setup.PressureSwitch rating = settings.pressureSwitch();
        switchModel = rating == null || sources.atSwitch() == null
                ? null
                : new Hysteresis(rating.setPointPascals(), rating.breakPascals(), false);
    }

    /** A glance at a session time. */
    Glance take(long at) {
        Track shown = sources.atSwitch() == null ? sources.sequence() : sources.atSwitch();
        double suction = shown == null ? Double.NaN : suction(shown, at);
        Boolean made = null;
        if (switchModel != null) {
            switchModel.add(suction);
            made = switchModel.on();
        }
        return new Glance(
                at,
                detector.known(),
                detector.running(),
                detector.sinceNanos(),
                made,
                state(Tap.CONTACT_SWITCH, at),
                gasOn(at),
                state(Tap.CONTACT_CALL, at),
                suction);
    }

    private double suction(Track track, long at) {
        double zero = track == sources.sequence() ? detector.zeroPascals() : 0;
        double value = newest(track, at);
        return Double.isNaN(value) ? Double.NaN : detector.sign() * (value - zero);
    }

    /** Mean of the newest looks; NaN when they are stale. */
    private static double newest(Track track, long at) {
        long end = track.at(at + 1);
        if (end == track.first() || at - track.time(end - 1) > STALE) {
            return Double.NaN;
        }
        long last = track.time(end - 1);
        double sum = 0;
        int n = 0;
        for (long i = end - 1; i >= track.first() && last - track.time(i) < SHOWN; i--) {
            sum += track.mean(i);
            n++;
        }
        return sum / n;
    }

    private @Nullable Boolean state(Tap tap, long at) {
        StateTrack track = sources.states(tap);
        if (track == null) {
            return null;
        }
        return track.knownAt(at) ? (Boolean) track.at(at) : null;
    }

    private boolean gasOn(long at) {
        Boolean valve = state(Tap.CONTACT_GAS_VALVE, at);
        if (valve != null) {
            return valve;
        }
        Track manifold = sources.track(Tap.GAS_MANIFOLD);
        if (manifold != null) {
            return newest(manifold, at) > GAS_ON_SHARE * settings.manifoldPascals();
        }
        Track flame = sources.track(Tap.FLAME_CURRENT);
        return flame != null && newest(flame, at) > settings.flameMicroamperes();
    }
}
