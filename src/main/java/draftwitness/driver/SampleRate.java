package draftwitness.driver;

/**
 * How often an instrument samples by its own clock, and what numbers its messages: with both, the times of the samples
 * can be told more exactly than their arrivals tell them.
 *
 * @param hertz messages a second, nominally; above 0, at most {@value #MAX_HERTZ}
 * @param by what gives each message its number
 */
public record SampleRate(double hertz, By by) {
    /** Fastest rate that can be declared. */
    public static final double MAX_HERTZ = 10_000;

    /** What numbers the messages. */
    public enum By {
        /** The instrument's own counter, one more a message ({@link DecodeSink#counter}). */
        COUNTER,
        /** Their order: none is ever lost between the instrument and here. */
        ORDER
    }

    public SampleRate {
        if (!(hertz > 0 && hertz <= MAX_HERTZ)) { // written so that NaN is refused too
            throw new IllegalArgumentException(hertz + " messages a second are outside 0 to " + MAX_HERTZ);
        }
    }

    /** From one sample to the next, in nanoseconds. */
    public double periodNanos() {
        return 1e9 / hertz;
    }
}
