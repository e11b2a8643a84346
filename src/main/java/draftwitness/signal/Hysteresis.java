package draftwitness.signal;

/**
 * A switch with two levels: turns on only when the value reaches the upper one, off only when it falls to the lower
 * one, and holds between them (Schmitt trigger). One owner thread.
 */
public final class Hysteresis {
    private final double onAt;
    private final double offAt;
    private boolean on;

    /** Starts off or on; {@code offAt} must be below {@code onAt}. */
    public Hysteresis(double onAt, double offAt, boolean on) {
        if (!(offAt < onAt)) {
            throw new IllegalArgumentException("off at " + offAt + " is not below on at " + onAt);
        }
        this.onAt = onAt;
        this.offAt = offAt;
        this.on = on;
    }

    /** Takes a value; true if the state changed. Reaching a level counts. NaN changes nothing. */
    public boolean add(double value) {
        boolean next = on ? !(value <= offAt) : value >= onAt;
        boolean changed = next != on;
        on = next;
        return changed;
    }

    /** The state now. */
    public boolean on() {
        return on;
    }
}
