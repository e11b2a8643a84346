package draftwitness.reading;

import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What is known when a session begins, and kept with its recording.
 *
 * @param start wall-clock instant of session time 0, or null when unknown (a foreign table without instants)
 * @param title what the session is called; may be empty
 * @param timeStepNanos times are whole multiples of this many nanoseconds, at least 1
 * @param channels at most one a tap, in the order shown
 * @param sources where the channels come from
 * @param setupToml the setup file's text, empty when there was none
 */
public record SessionHeader(
        @Nullable Instant start,
        String title,
        long timeStepNanos,
        List<Channel> channels,
        List<SourceInfo> sources,
        String setupToml) {
    /** Time step of live sessions: 0.1 ms. */
    public static final long LIVE_TIME_STEP_NANOS = 100_000;

    public SessionHeader {
        channels = List.copyOf(channels);
        sources = List.copyOf(sources);
        if (timeStepNanos < 1) {
            throw new IllegalArgumentException("time step " + timeStepNanos + " ns is not positive");
        }
        Set<Tap> taps = new HashSet<>();
        for (Channel c : channels) {
            if (!taps.add(c.tap())) {
                throw new IllegalArgumentException("two channels at " + c.tap().role());
            }
        }
    }

    /** The channel at a tap, if there is one. */
    public Optional<Channel> channelAt(Tap tap) {
        return channels.stream().filter(c -> c.tap() == tap).findFirst();
    }
}
