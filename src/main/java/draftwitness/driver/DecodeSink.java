package draftwitness.driver;

import draftwitness.reading.Decimal;
import draftwitness.reading.Unit;

/** Receives what a {@link Decoder} finds. Called on the decoder's thread. */
public interface DecodeSink {

    /**
     * One reading.
     *
     * @param index position in the driver's {@link Driver#readings()}
     * @param value as the instrument wrote it
     * @param unit the unit it wrote, or the declared one
     * @param arrivalNanos when the last byte of its message arrived
     */
    void reading(int index, Decimal value, Unit unit, long arrivalNanos);

    /**
     * Bytes that were not a message.
     *
     * @param fault why
     * @param bytes how many were skipped, 0 or more
     */
    void fault(Fault fault, int bytes);

    /**
     * Bytes that were one whole, good message; called after its readings.
     *
     * <p>This call, {@link #filler} and {@link #fault} come in the order of the bytes, and together with
     * {@link Decoder#held()} they add up to all bytes given.
     */
    default void message(int bytes) {}

    /** Bytes without meaning that are expected between messages: line ends, prompts, idle fill, flow control. */
    default void filler(int bytes) {}

    /**
     * The instrument's own message counter; called before the readings of its message.
     *
     * @param value 0 to {@code 2^bits - 1}
     * @param bits where it wraps around
     */
    default void counter(long value, int bits) {}

    /** How full the instrument's battery is, 0 to 100 percent. */
    default void battery(int percent) {}

    /** Whether {@link #part} is wanted; it costs time. */
    default boolean wantsParts() {
        return false;
    }

    /**
     * What some bytes within a binary message are; called before {@link #message}, only if {@link #wantsParts}.
     *
     * @param offset from the message's start
     * @param length in bytes
     * @param what in plain words, such as a reading's name
     */
    default void part(int offset, int length, String what) {}
}
