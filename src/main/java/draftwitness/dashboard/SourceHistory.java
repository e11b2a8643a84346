package draftwitness.dashboard;

import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How the sources of a session fared. Immutable; any thread.
 *
 * @param events changes of state, oldest first
 */
public record SourceHistory(List<SourceEvent> events) {

    /**
     * How a source is at a moment.
     *
     * @param state its state
     * @param sinceNanos when the trouble began: the first of the changes that lead here without readings in between;
     *     for a state without trouble, when the state began
     * @param detail what was said with the latest change; may be empty
     */
    public record Condition(SourceState state, long sinceNanos, String detail) {}

    public SourceHistory {
        events = List.copyOf(events);
    }

    /** No events. */
    public static SourceHistory none() {
        return new SourceHistory(List.of());
    }

    /** The condition of a source at a time, or null when nothing was told of it by then. */
    public @Nullable Condition at(String sourceId, long nanos) {
        Condition condition = null;
        for (SourceEvent event : events) {
            if (event.timeNanos() > nanos) {
                break;
            }
            if (event.sourceId().equals(sourceId)) {
                long since = event.timeNanos();
                if (condition != null && ailing(condition.state()) && ailing(event.state())) {
                    since = condition.sinceNanos();
                }
                condition = new Condition(event.state(), since, event.detail());
            }
        }
        return condition;
    }

    private static boolean ailing(SourceState state) {
        return switch (state) {
            case SILENT, GONE, RETRYING -> true;
            case OPENING, LIVE, FINISHED -> false;
        };
    }
}
