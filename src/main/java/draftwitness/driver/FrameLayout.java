package draftwitness.driver;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a binary message looks like. Immutable.
 *
 * <pre>
 * 0 ........ sync bytes, if any
 *   ........ a length field, if the length is not fixed
 *   ........ fields of readings, a counter
 *   ........ checksum, if any (by default last)
 * end ...... tail bytes, if any
 * </pre>
 */
final class FrameLayout {

    /**
     * How long a message is.
     *
     * @param fixed whole length in bytes, or 0 if a field tells
     * @param at where the length field stands; -1 if something else tells where a message ends
     * @param type its coding
     * @param order its byte order
     * @param add added to the field's value to give the whole length
     * @param shortest smallest whole length that can be
     * @param longest ceiling for the whole length
     */
    record Length(int fixed, int at, NumberType type, WordOrder order, int add, int shortest, int longest) {

        /** Not known before more bytes are there. */
        static final int UNKNOWN = -1;
        /** No message has such a length. */
        static final int IMPOSSIBLE = 0;

        /** The whole length of the message whose first {@code have} bytes begin at {@code from}. */
        int of(byte[] bytes, int from, int have) {
            if (fixed > 0) {
                return fixed;
            }
            if (have < at + type.bytes()) {
                return UNKNOWN;
            }
            long length = type.whole(order.bits(bytes, from + at, type.bytes())) + add;
            return length < shortest || length > longest ? IMPOSSIBLE : (int) length;
        }
    }

    /**
     * Where one reading stands.
     *
     * @param index of the reading
     * @param at offset from the message's start, or from its end if negative
     * @param optional whether the message may be too short for it
     * @param whenAt offset of a byte that tells the message's type, or -1
     * @param whenValue the type that carries this reading
     */
    record Place(int index, ReadingSpec spec, NumberField field, int at, boolean optional, int whenAt, int whenValue) {
        /** The same, read with a sign. */
        Place signed() {
            return new Place(index, spec, field.signed(), at, optional, whenAt, whenValue);
        }

        boolean isIn(byte[] message, int length) {
            return whenAt < 0 || (whenAt < length && (message[whenAt] & 0xFF) == whenValue);
        }
    }

    /**
     * A counter that the instrument adds to each message.
     *
     * @param at its offset
     */
    record Counter(int at, NumberType type, WordOrder order) {}

    final byte[] sync;
    final byte[] tail;
    final Length length;
    final Checksum checksum;
    private final @Nullable Counter counter;
    private final List<Place> places;

    FrameLayout(
            byte[] sync, byte[] tail, Length length, Checksum checksum, @Nullable Counter counter, List<Place> places) {
        this.sync = sync.clone();
        this.tail = tail.clone();
        this.length = length;
        this.checksum = checksum;
        this.counter = counter;
        this.places = List.copyOf(places);
    }

    /** Whether a message proves by itself that it is whole. */
    boolean provesItself() {
        return checksum.isPresent() || tail.length > 0;
    }

    /** How many of the first {@code have} bytes at {@code from} agree with the sync bytes; all of them or fewer. */
    boolean mayBegin(byte[] bytes, int from, int have) {
        for (int i = 0; i < Math.min(have, sync.length); i++) {
            if (bytes[from + i] != sync[i]) {
                return false;
            }
        }
        return true;
    }

    /** Why the whole message is none, or null. */
    @Nullable
    Fault check(byte[] message, int size) {
        for (int i = 0; i < tail.length; i++) {
            if (size < tail.length || message[size - tail.length + i] != tail[i]) {
                return Fault.NOT_A_READING;
            }
        }
        return checksum.agrees(message, size) ? null : Fault.BAD_CHECKSUM;
    }

    /** Says what the bytes of a good message are, in the order of the message. */
    void tellParts(byte[] message, int size, DecodeSink sink) {
        if (sync.length > 0) {
            sink.part(0, sync.length, "sync");
        }
        if (length.fixed() == 0 && length.at() >= 0) {
            sink.part(length.at(), length.type().bytes(), "length");
        }
        if (counter != null && counter.at() + counter.type().bytes() <= size) {
            sink.part(counter.at(), counter.type().bytes(), "counter");
        }
        for (Place place : places) {
            int at = place.at() < 0 ? size + place.at() : place.at();
            if (place.isIn(message, size)
                    && at >= 0
                    && at + place.field().type().bytes() <= size) {
                sink.part(at, place.field().type().bytes(), place.spec().name());
            }
        }
        if (checksum.isPresent()) {
            sink.part(checksum.at() < 0 ? size + checksum.at() : checksum.at(), checksum.bytes(), "checksum");
        }
        if (tail.length > 0) {
            sink.part(size - tail.length, tail.length, "tail");
        }
    }

    /** Stages the readings of a whole, checked message; gives why it is damaged, or null. */
    @Nullable
    Fault stage(byte[] message, int size, Staged staged) {
        if (counter != null && counter.at() + counter.type().bytes() <= size) {
            long bits =
                    counter.order().bits(message, counter.at(), counter.type().bytes());
            staged.counter(bits, 8 * counter.type().bytes());
        }
        for (Place place : places) {
            int at = place.at() < 0 ? size + place.at() : place.at();
            boolean fits = at >= 0 && at + place.field().type().bytes() <= size;
            if (!place.isIn(message, size) || (!fits && place.optional())) {
                continue;
            }
            Fault fault = fits
                    ? place.field()
                            .stage(place.index(), place.spec(), place.spec().unit(), message, at, staged)
                    : Fault.NOT_A_READING;
            if (fault != null) {
                return fault;
            }
        }
        return null;
    }
}
