package draftwitness.app.cli;

import draftwitness.input.Durations;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.Thinned;
import java.io.PrintStream;
import java.util.List;

/** Tells what a recording no longer holds at full rate, before its rest is played or judged. */
final class ThinnedWords {
    private ThinnedWords() {}

    static void tell(RecordingFile file, PrintStream err) throws RecordingException {
        tell(file, file.thinned(), "thinned away while recording; only their overview is left", err);
        tell(file, file.lost(), "lost in damage before the file was repaired", err);
    }

    private static void tell(RecordingFile file, List<Thinned> spans, String how, PrintStream err) {
        if (spans.isEmpty()) {
            return;
        }
        long nanos = spans.stream().mapToLong(s -> s.toNanos() - s.fromNanos()).sum();
        err.println("draftwitness: " + file.file() + ": readings of " + Durations.length(nanos) + " in " + spans.size()
                + (spans.size() == 1 ? " span were " : " spans were ") + how
                + "; what looks like a gap there is none of the instruments' ('verify' lists the spans)");
    }
}
