package draftwitness.capture;

import draftwitness.driver.Fault;
import draftwitness.reading.SourceState;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.OptionalInt;
import java.util.OptionalLong;

/**
 * How a source has been doing, at one moment.
 *
 * @param id the source
 * @param state its state now
 * @param detail what happened last, in plain words; may be empty
 * @param sinceNanos session time since which it is in this state
 * @param bytes bytes received
 * @param readings readings decoded, also those on no tap
 * @param faults how often each fault was met
 * @param skippedBytes bytes that were not part of a message
 * @param reconnects times it was opened again
 * @param lateReadings readings that came after their slice had gone
 * @param waitNanos longest that bytes lay in the program before they were decoded, within about the last second; empty
 *     before the first bytes and for links with times of their own
 * @param answerNanos from the last request to the end of its answer; empty if nothing is asked or answered
 * @param batteryPercent how full the instrument's battery is, 0 to 100, where it tells
 * @param times where the times of its readings come from, in plain words
 */
public record SourceHealth(
        String id,
        SourceState state,
        String detail,
        long sinceNanos,
        long bytes,
        long readings,
        Map<Fault, Long> faults,
        long skippedBytes,
        int reconnects,
        long lateReadings,
        OptionalLong waitNanos,
        OptionalLong answerNanos,
        OptionalInt batteryPercent,
        String times) {
    public SourceHealth {
        Map<Fault, Long> copy = new EnumMap<>(Fault.class);
        copy.putAll(faults);
        faults = Collections.unmodifiableMap(copy);
    }

    /** All faults together. */
    public long rejected() {
        return faults.values().stream().mapToLong(Long::longValue).sum();
    }
}
