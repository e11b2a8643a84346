package draftwitness.furnace;

/** Bubbling: irregular bursts of a swing whose rate changes from burst to burst. Not thread-safe; one owner. */
final class Bubbles {
    private final Noise noise;
    private final double slowest;
    private final double fastest;
    private double burstEnds;
    private double quietUntil;
    private double burstStarts;
    private double hertz;
    private double size;
    private double value;

    /**
     * @param slowest slowest bubbling, 1/s
     * @param fastest fastest bubbling, 1/s
     */
    Bubbles(Noise noise, double slowest, double fastest) {
        this.noise = noise;
        this.slowest = slowest;
        this.fastest = fastest;
    }

    /** Moves on to {@code now}. */
    void step(double now, boolean active) {
        if (!active) {
            value = 0;
            return;
        }
        if (now >= quietUntil) {
            burstStarts = now;
            burstEnds = now + noise.between(0.4, 2.0);
            quietUntil = burstEnds + noise.waiting(0.8);
            hertz = noise.between(slowest, fastest);
            size = noise.between(0.4, 1);
        }
        value = now < burstEnds ? size * StrictMath.sin(2 * StrictMath.PI * hertz * (now - burstStarts)) : 0;
    }

    /** Between -1 and 1. */
    double value() {
        return value;
    }
}
