package draftwitness.dashboard;

import draftwitness.reading.Tap;
import java.util.List;

/**
 * What a person wants to watch.
 *
 * @param choices sources and their taps, at least one, no tap twice
 * @param setupToml the setup as text; valid
 */
public record WatchRequest(List<Choice> choices, String setupToml) {

    /**
     * A source at a tap.
     *
     * @param source the reading chosen
     * @param tap where it is connected
     */
    public record Choice(FoundSource source, Tap tap) {}

    public WatchRequest {
        choices = List.copyOf(choices);
        if (choices.isEmpty() || choices.stream().map(Choice::tap).distinct().count() != choices.size()) {
            throw new IllegalArgumentException("nothing to watch, or two sources at one tap: " + choices);
        }
    }
}
