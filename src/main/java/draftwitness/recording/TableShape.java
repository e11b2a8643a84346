package draftwitness.recording;

import draftwitness.input.InputException;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import java.time.Instant;
import java.time.temporal.ChronoField;
import java.util.List;

/**
 * How finely a table shows a recording: each channel in its own unit with the finest decimals that its readings have,
 * times with the decimals that the file's time step needs (for instants the start's too). Immutable.
 */
final class TableShape {
    private static final int FINEST = 9;

    final List<Channel> channels;
    /** When second 0 was; meant only where there are instants. */
    final Instant start;

    final boolean instants;
    final int timeDecimals;
    private final int[] decimals;

    TableShape(RecordingFile recording, boolean instants) throws RecordingException, InputException {
        SessionHeader header = recording.header();
        Instant known = header.start();
        if (instants && known == null) {
            throw new InputException(
                    recording.file() + ": its start is not known, so there are no instants; export seconds instead");
        }
        this.instants = instants;
        start = known == null ? Instant.EPOCH : known;
        channels = header.channels();
        decimals = new int[channels.size()];
        for (int c = 0; c < decimals.length; c++) {
            decimals[c] = recording.decimals(channels.get(c));
        }
        int needed = decimalsOf(header.timeStepNanos());
        timeDecimals = instants ? Math.max(needed, decimalsOf(start.get(ChronoField.NANO_OF_SECOND))) : needed;
    }

    int decimals(int channel) {
        return decimals[channel];
    }

    /** Decimals of a second that show so many nanoseconds. */
    static int decimalsOf(long nanos) {
        int needed = FINEST;
        long rest = nanos;
        while (needed > 0 && rest % 10 == 0) {
            rest /= 10;
            needed--;
        }
        return needed;
    }
}
