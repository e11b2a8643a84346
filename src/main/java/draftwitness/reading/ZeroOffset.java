package draftwitness.reading;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a pressure tap's instrument showed with both ports open to air, to be taken off its readings from then on. The
 * readings themselves stay as they came. An offset of 0 from 0 readings takes an earlier one back.
 *
 * <p>It travels, and is kept with a recording, as the words of a {@link SourceEvent} of the tap's source, so that live
 * and replayed sessions bring the same.
 *
 * @param tap a pressure tap
 * @param pascals the median of the readings, pascal, signed
 * @param timeNanos session time from which it holds
 * @param spreadPascals 1.4826 times the median distance from the median, pascal
 * @param driftPascals median of the second half minus median of the first half, pascal
 * @param readings how many it was made from, 0 when taken back
 */
public record ZeroOffset(
        Tap tap, double pascals, long timeNanos, double spreadPascals, double driftPascals, int readings) {
    private static final Pattern WORDS = Pattern.compile(
            "zero of (\\S+): (\\S{1,30}) Pa \\(spread (\\S{1,30}) Pa, drift (\\S{1,30}) Pa, (\\d{1,9}) readings\\)");

    public ZeroOffset {
        if (tap.quantity() != Quantity.PRESSURE) {
            throw new IllegalArgumentException(tap.role() + " is not a pressure and has no zero");
        }
        if (!Double.isFinite(pascals) || !(spreadPascals >= 0) || !Double.isFinite(driftPascals) || readings < 0) {
            throw new IllegalArgumentException(
                    "zero " + pascals + " Pa, spread " + spreadPascals + " Pa, drift " + driftPascals + " Pa");
        }
    }

    /** No offset from then on. */
    public static ZeroOffset none(Tap tap, long timeNanos) {
        return new ZeroOffset(tap, 0, timeNanos, 0, 0, 0);
    }

    /** The same offset, holding from another time on: for taking back a later one. */
    public ZeroOffset from(long otherNanos) {
        return new ZeroOffset(tap, pascals, otherNanos, spreadPascals, driftPascals, readings);
    }

    /** As an event of the tap's source, which stays in its state. */
    public SourceEvent event(String sourceId, SourceState state) {
        String words = String.format(
                Locale.ROOT,
                "zero of %s: %s Pa (spread %s Pa, drift %s Pa, %d readings)",
                tap.role(),
                pascals,
                spreadPascals,
                driftPascals,
                readings);
        return new SourceEvent(sourceId, timeNanos, state, words);
    }

    /** The offset that an event tells of, if it tells of one. */
    public static Optional<ZeroOffset> in(SourceEvent event) {
        Matcher words = WORDS.matcher(event.detail());
        if (!words.matches()) {
            return Optional.empty();
        }
        try {
            return Tap.ofRole(words.group(1))
                    .map(tap -> new ZeroOffset(
                            tap,
                            Double.parseDouble(words.group(2)),
                            event.timeNanos(),
                            Double.parseDouble(words.group(3)),
                            Double.parseDouble(words.group(4)),
                            Integer.parseInt(words.group(5))));
        } catch (IllegalArgumentException e) {
            return Optional.empty(); // other words that look alike
        }
    }
}
