package draftwitness.app;

import draftwitness.input.Durations;
import draftwitness.reading.ZeroOffset;
import draftwitness.reading.Zeros;
import java.util.List;
import java.util.Locale;

/** Zero offsets in words for the terminal. */
public final class ZeroWords {
    private ZeroWords() {}

    /** One line for each offset that readings were told with, or that was taken back. */
    public static List<String> lines(Zeros zeros) {
        return zeros.facts().stream().map(ZeroWords::line).toList();
    }

    /** One line. */
    static String line(ZeroOffset zero) {
        String from = zero.tap().role() + " from " + Durations.clock(Math.max(0, zero.timeNanos())) + " on: ";
        return zero.readings() == 0
                ? from + "no zero taken off any more"
                : from
                        + String.format(
                                Locale.ROOT,
                                "zero of %.2f Pa taken off (both ports open to air: spread %.2f Pa, %d readings)",
                                zero.pascals(),
                                zero.spreadPascals(),
                                zero.readings());
    }
}
