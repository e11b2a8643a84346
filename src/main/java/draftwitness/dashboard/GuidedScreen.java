package draftwitness.dashboard;

import draftwitness.diagnosis.guided.GuidedKind;
import draftwitness.diagnosis.guided.GuidedNow;
import draftwitness.reading.Tap;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the screen of a guided measurement shows at one moment; texts ready to show.
 *
 * @param kind the measurement, or null while one is being chosen
 * @param title what it is called
 * @param choices what can be measured, while one is being chosen
 * @param steps its parts, in order
 * @param instruction what to do now
 * @param hoses where hoses and wires go for the step chosen, the main one first
 * @param cautions what to mind, most pressing first
 * @param go what the big button does now
 * @param goText what the big button says
 * @param progress of the step, 0 to 1; NaN when it has no length
 * @param figure the newest reading, large
 * @param figureText what the figure is, and whether it is steady
 * @param trace the step's readings, in the unit shown
 * @param traceUnit the unit of the trace
 * @param verdict what the readings say so far
 * @param verdictTone how that is shown
 * @param rows figures behind the verdict
 * @param remarks what limits them
 * @param kept where the result went; empty before there is one
 * @param span the span to read, as text from and to; null when live
 */
public record GuidedScreen(
        @Nullable GuidedKind kind,
        String title,
        List<Choice> choices,
        List<Step> steps,
        String instruction,
        List<Tap> hoses,
        List<String> cautions,
        Go go,
        String goText,
        double progress,
        String figure,
        String figureText,
        GuidedNow.Trace trace,
        String traceUnit,
        String verdict,
        Tone verdictTone,
        List<Row> rows,
        List<String> remarks,
        String kept,
        @Nullable SpanText span) {

    /** What the big button does. */
    public enum Go {
        /** Takes the step's readings. */
        GO,
        /** Ends the step. */
        STOP,
        /** Takes the step again. */
        AGAIN,
        /** Nothing now. */
        NONE
    }

    /**
     * A measurement to choose.
     *
     * @param title a few words
     * @param text what it tells; or what is missing
     * @param usable whether what is connected is enough
     */
    public record Choice(GuidedKind kind, String title, String text, boolean usable) {}

    /**
     * A step of the measurement.
     *
     * @param id the part
     * @param text a few words
     * @param taken whether its readings are there
     * @param chosen whether the big button is about it
     */
    public record Step(String id, String text, boolean taken, boolean chosen) {}

    /** A figure in words. */
    public record Row(String label, String value) {}

    /** A span as a person writes it. */
    public record SpanText(String from, String to) {}
}
