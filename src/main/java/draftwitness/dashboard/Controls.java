package draftwitness.dashboard;

import org.jspecify.annotations.Nullable;

/**
 * What the bars around the strips show at one moment; texts ready to show.
 *
 * @param title what is being looked at
 * @param state where recording or replay stands, one line
 * @param stateTone how that is shown
 * @param recording true while readings go into a file
 * @param canRecord true when recording may start
 * @param canStop true when there is a recording to finish
 * @param replay true when a recording is being looked at
 * @param playing true while its playhead moves
 * @param speed replay speed
 * @param position where the head is, as time of day and time from the start
 * @param following true while the strips follow the head
 * @param span the length shown, or null when it was zoomed freely
 * @param spanText length shown, in words
 * @param banner one line about trouble, or null
 * @param measuring true while dragging over the strips measures
 * @param opened true when there is something to look at
 * @param atStart true while the start screen is shown
 * @param settings what was chosen
 */
public record Controls(
        String title,
        String state,
        Tone stateTone,
        boolean recording,
        boolean canRecord,
        boolean canStop,
        boolean replay,
        boolean playing,
        double speed,
        String position,
        boolean following,
        @Nullable SpanChoice span,
        String spanText,
        @Nullable String banner,
        boolean measuring,
        boolean opened,
        boolean atStart,
        Settings settings) {}
