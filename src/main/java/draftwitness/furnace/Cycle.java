package draftwitness.furnace;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One call for heat as it really went. Times in seconds from the start of the run.
 *
 * @param endSeconds when suction was back at idle, or the end of the run
 * @param outcome the word used in files
 * @param reason why a lockout came, else null
 * @param attempts starts of ignition
 */
record Cycle(
        double startSeconds,
        double endSeconds,
        String outcome,
        @Nullable String reason,
        int attempts,
        List<Phase> phases,
        List<Span> flutter,
        List<Sag> sags) {

    /** One phase of the sequence. */
    record Phase(String name, double startSeconds, double endSeconds) {}

    /** From the first to the last transition of a flutter. */
    record Span(double startSeconds, double endSeconds, int transitions) {}

    /** A time during which suction was weaker than its running level. */
    record Sag(double startSeconds, double endSeconds, double depthPascals) {}

    Cycle {
        phases = List.copyOf(phases);
        flutter = List.copyOf(flutter);
        sags = List.copyOf(sags);
    }
}
