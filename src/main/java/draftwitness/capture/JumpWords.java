package draftwitness.capture;

import draftwitness.time.AwakeTicker;
import java.time.Duration;
import java.time.temporal.ChronoUnit;
import java.util.Locale;

/** What a jump of the computer's clock is called. */
final class JumpWords {
    private JumpWords() {}

    static String of(AwakeTicker.Jump jump) {
        String both = "it showed " + jump.shown().truncatedTo(ChronoUnit.SECONDS) + " where "
                + jump.expected().truncatedTo(ChronoUnit.SECONDS) + " was expected";
        return switch (jump.why()) {
            case SLEPT ->
                "the computer slept for " + length(Duration.ofSeconds(Math.round(jump.jumpedNanos() / 1e9)))
                        + "; nothing was read meanwhile";
            case SET -> "the computer's clock was set: " + both + "; the session's times go on as before";
            case UNKNOWN ->
                "the computer slept or its clock was set: " + both + "; the session's times go on as before";
        };
    }

    private static String length(Duration d) {
        return String.format(Locale.ROOT, "%d:%02d:%02d", d.toHours(), d.toMinutesPart(), d.toSecondsPart());
    }
}
