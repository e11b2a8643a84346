package draftwitness.report;

import draftwitness.reading.Channel;

/**
 * Readings of one channel within some span, for a chart. Immutable.
 *
 * @param timesNanos session times, increasing; {@code n} of them
 * @param values in the base unit of the channel's quantity (pascal, suction negative); {@code n} of them
 */
@SuppressWarnings("ArrayRecordComponent") // copied on the way in; never compared
public record Trace(Channel channel, long[] timesNanos, double[] values) {
    public Trace {
        if (timesNanos.length != values.length) {
            throw new IllegalArgumentException(timesNanos.length + " times for " + values.length + " values");
        }
        timesNanos = timesNanos.clone();
        values = values.clone();
    }
}
