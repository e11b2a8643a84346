package draftwitness.capture;

import draftwitness.driver.SampleRate;
import draftwitness.reading.Block;
import java.util.Locale;
import java.util.Optional;

/**
 * Gives each message of one source its time: by a {@link SampleClock} where the driver declares what that needs, by its
 * arrival otherwise. Pure; one owner thread.
 *
 * <p>What is declared is not believed against the evidence: when the pace is far from the declared one, or messages are
 * missing that nothing counts, times are arrivals from then on, until the link is opened again.
 */
final class SampleTimes {
    /** Further than this from its declared pace no instrument's clock is. */
    static final double MOST_SKEW = 0.02;

    /** A message this much too early for its number has another number: the counter began anew. */
    static final long TOO_EARLY_NANOS = 2_000_000_000L;

    /** Without a counter, this many successive seconds above the line mean that messages are missing. */
    static final int RAISED_BLOCKS = 3;

    private final Optional<SampleRate> declared;
    private final SampleClock clock;
    private boolean trusted;
    private String words;
    private long number;
    private boolean known;
    private boolean computed;
    private long raisedSince;
    private boolean raised;

    SampleTimes(Optional<SampleRate> declared) {
        this.declared = declared;
        this.clock = new SampleClock(declared.map(SampleRate::periodNanos).orElse(1.0));
        this.trusted = declared.isPresent();
        this.words = declaredWords();
    }

    private String declaredWords() {
        if (declared.isEmpty()) {
            return "arrival";
        }
        String by = declared.get().by() == SampleRate.By.COUNTER ? "the instrument's counter" : "a steady pace";
        return String.format(Locale.ROOT, "%s, %s a second", by, declared.get().hertz());
    }

    /** The link was opened, or opened again. */
    void restart() {
        trusted = declared.isPresent();
        words = declaredWords();
        begin();
    }

    private void begin() {
        clock.restart();
        known = false;
        raised = false;
    }

    /** Bytes were lost, and maybe a message with them. */
    void lost() {
        if (trusted && declared.isPresent() && declared.get().by() == SampleRate.By.ORDER) {
            begin();
        }
    }

    /** Whether the last time given was computed, and not the arrival. */
    boolean isComputed() {
        return computed;
    }

    /** Where times come from at present, in plain words. */
    String words() {
        return words;
    }

    /**
     * The time of the next message.
     *
     * @param arrivalNanos when its last byte arrived
     * @param counter its own counter, or {@link Block#NO_COUNTER}
     * @param bits where the counter wraps around
     */
    long timeNanos(long arrivalNanos, long counter, int bits) {
        computed = false;
        if (!trusted || declared.isEmpty()) {
            return arrivalNanos;
        }
        if (declared.get().by() == SampleRate.By.ORDER) {
            number = known ? number + 1 : 0;
            known = true;
            if (isMissingSome(arrivalNanos)) {
                return giveUp(arrivalNanos, "messages are missing and nothing counts them");
            }
        } else if (counter == Block.NO_COUNTER) {
            return arrivalNanos;
        } else {
            count(counter, bits, arrivalNanos);
        }
        long time = clock.sampleNanos(number, arrivalNanos);
        if (Math.abs(clock.skew()) > MOST_SKEW) {
            return giveUp(arrivalNanos, "it does not keep the declared pace");
        }
        computed = true;
        return time;
    }

    private long giveUp(long arrivalNanos, String why) {
        trusted = false;
        words = "arrival, since " + why;
        return arrivalNanos;
    }

    /** Turns a counter that wraps around into one that does not, or begins anew if it cannot be its successor. */
    private void count(long counter, int bits, long arrivalNanos) {
        if (known) {
            long next = unwrapped(counter, bits, clock.numberAt(arrivalNanos));
            boolean early = clock.delayNanos(next, arrivalNanos) < -TOO_EARLY_NANOS;
            if (next >= number && !early) {
                number = next;
                return;
            }
            begin();
        }
        known = true;
        number = counter;
    }

    /**
     * The largest number with this remainder that is not too far beyond the expected one: delay only makes numbers
     * smaller than expected, so three quarters of a turn are left for delay and one for a line not yet found.
     */
    private static long unwrapped(long counter, int bits, double expected) {
        double turn = Math.scalb(1.0, bits);
        double turns = Math.floor((expected + turn / 4 - counter) / turn);
        return counter + (long) (turns * turn);
    }

    /** A lost message raises every later one by a whole period; a stall ends. */
    private boolean isMissingSome(long arrivalNanos) {
        double delay = clock.delayNanos(number, arrivalNanos);
        boolean above = clock.isSettled() && delay > clock.periodNanos() / 2;
        if (above && !raised) {
            raisedSince = arrivalNanos;
        }
        raised = above;
        return above && arrivalNanos - raisedSince > RAISED_BLOCKS * SampleClock.BLOCK_NANOS;
    }
}
