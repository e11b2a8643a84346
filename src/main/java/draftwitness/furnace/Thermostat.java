package draftwitness.furnace;

/**
 * Calls for heat: a call lasts until the house got its heat, then a pause follows. A furnace that stands still is
 * called for until it runs again. Seconds; not thread-safe; one owner.
 */
final class Thermostat {
    private final House.Calls calls;
    private final Noise noise;
    private boolean calling;
    private double nextCall;
    private double wanted;

    Thermostat(House.Calls calls, Noise noise) {
        this.calls = calls;
        this.noise = noise;
        nextCall = calls.first();
    }

    boolean calling() {
        return calling;
    }

    /** Moves on; {@code heat} is the firing rate, 1 at full fire. */
    void step(double now, double heat, double seconds) {
        if (calling) {
            wanted -= heat * seconds;
            if (wanted <= 0) {
                calling = false;
                nextCall = now + calls.pause() * spread();
            }
        } else if (now >= nextCall) {
            calling = true;
            wanted = calls.heat() * spread();
        }
    }

    private double spread() {
        return Math.max(0.3, 1 + calls.spread() * noise.gaussian());
    }
}
