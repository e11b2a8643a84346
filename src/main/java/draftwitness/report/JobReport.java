package draftwitness.report;

import draftwitness.cycle.CycleReport;
import draftwitness.cycle.Episode;
import draftwitness.cycle.SessionSummary;
import draftwitness.diagnosis.DiagnosisReport;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import java.time.Instant;
import java.util.List;

/**
 * Everything that a job report tells, before any layout. Immutable.
 *
 * @param file the recording's name
 * @param checksum SHA-256 of the recording's file when the report was made, in hexadecimal
 * @param software name and version of the program that makes the report
 * @param recordedBy name and version of the program that made the recording
 * @param made when the report was made
 * @param unit in which pressures are shown
 * @param setup what is known of the appliance
 * @param summary what the recording holds
 * @param cycles what the furnace did
 * @param diagnosis what is likely wrong
 * @param done checks that were done, one line each
 * @param measured guided measurements, one line each
 * @param notes what people wrote, one line each, with their time
 * @param thinned what the recording no longer holds at full rate or lost, one line each
 * @param worst the episodes to show, with the readings around them, worst first
 */
public record JobReport(
        String file,
        String checksum,
        String software,
        String recordedBy,
        Instant made,
        Unit unit,
        Setup setup,
        SessionSummary summary,
        CycleReport cycles,
        DiagnosisReport diagnosis,
        List<String> done,
        List<String> measured,
        List<String> notes,
        List<String> thinned,
        List<Shown> worst) {
    public JobReport {
        done = List.copyOf(done);
        measured = List.copyOf(measured);
        notes = List.copyOf(notes);
        thinned = List.copyOf(thinned);
        worst = List.copyOf(worst);
    }

    /**
     * An episode with the readings around it.
     *
     * @param cycle index of its cycle
     * @param fromNanos begin of the span shown, session time
     * @param toNanos its end
     * @param traces of the channels that matter, the episode's own first
     */
    public record Shown(int cycle, Episode episode, long fromNanos, long toNanos, List<Trace> traces) {
        public Shown {
            traces = List.copyOf(traces);
        }
    }
}
