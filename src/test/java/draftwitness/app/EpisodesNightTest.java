package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.capture.CaptureSession;
import draftwitness.cycle.LiveReport;
import draftwitness.furnace.Scenario;
import draftwitness.furnace.Scenarios;
import draftwitness.furnace.Simulation;
import draftwitness.recording.KeepPolicy;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.Thinned;
import draftwitness.recording.Verifier;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** An unattended night: what failed is there at full rate, with what led up to it; the quiet hours are thinned. */
class EpisodesNightTest {
    private static final long SECOND = 1_000_000_000;
    private static final String NIGHT = "night-one-lockout";
    /** A shorter night whose squall comes early; the whole one with {@code -Dnight.whole=true}. */
    private static final boolean WHOLE = Boolean.getBoolean("night.whole");

    private static final KeepPolicy POLICY = new KeepPolicy(600 * SECOND, 60 * SECOND, Long.MAX_VALUE);

    @TempDir
    Path folder;

    private String shorter() throws Exception {
        String text = new String(
                EpisodesNightTest.class
                        .getResourceAsStream("/scenarios/" + NIGHT + ".toml")
                        .readAllBytes(),
                StandardCharsets.UTF_8);
        text = text.replace("duration = 43200", "duration = 8000")
                .replace("from = 19000", "from = 2000")
                .replace("until = 21500", "until = 4500");
        return Files.writeString(folder.resolve("night.toml"), text).toString();
    }

    private Path record(String night, @Nullable KeepPolicy policy, long nanos) throws Exception {
        Path file = folder.resolve(policy == null ? "all.dwrec" : "episodes.dwrec");
        RecordSwitch recorder = new RecordSwitch();
        RecordSwitch.Run run = recorder.start(file, policy);
        LiveReport report = new LiveReport(Sessions.setupOf(Scenarios.find(night)));
        EpisodeKeeper keeper = new EpisodeKeeper(report::snapshot, run::claim);
        CaptureSession session = Sessions.simulated(night, 1, nanos, List.of(recorder, report, keeper));
        session.start();
        assertThat(LiveRun.run(session, new StopSignal(), run).recordingFailure())
                .isNull();
        return file;
    }

    @Test
    void givenANightWithALockout_whenOnlyEpisodesAreKept_thenEveryFailedCycleIsAtFullRateAndTheFileIsSmall()
            throws Exception {
        String night = WHOLE ? NIGHT : shorter();
        Scenario scenario = Scenarios.find(night);
        long nanos = Math.round(scenario.durationSeconds() * 1e9);
        Path episodes = record(night, POLICY, nanos);
        assertThat(Verifier.verify(episodes).damages()).isEmpty();
        Simulation truth = Simulation.start(scenario, 1);
        truth.advanceTo(nanos, (sensor, time, count) -> {});
        try (RecordingFile file = RecordingFile.open(episodes)) {
            List<Thinned> thinned = file.thinned();
            long quiet =
                    thinned.stream().mapToLong(t -> t.toNanos() - t.fromNanos()).sum();
            assertThat(quiet).isGreaterThan(nanos / 4);
            if (WHOLE) {
                Path all = record(night, null, nanos);
                System.out.println(NIGHT + ": " + nanos / SECOND + " s, " + Files.size(all) + " bytes with everything, "
                        + Files.size(episodes) + " with episodes, " + quiet / SECOND + " s thinned");
                assertThat(Files.size(episodes)).isLessThan(Files.size(all) / 2);
            }
            int failed = 0;
            Matcher cycles = Pattern.compile(
                            "\"start_s\": ([\\d.]+), \"end_s\": ([\\d.]+), \"outcome\": \"([a-z-]+)\"[^\\[]*\"attempts\": (\\d+)")
                    .matcher(truth.truthJson());
            while (cycles.find()) {
                if (cycles.group(3).equals("heated") && cycles.group(4).equals("1")) {
                    continue;
                }
                failed += cycles.group(3).equals("incomplete") ? 0 : 1;
                long from = Math.round(Double.parseDouble(cycles.group(1)) * 1e9) - 60 * SECOND;
                long to = Math.round(Double.parseDouble(cycles.group(2)) * 1e9);
                assertThat(thinned)
                        .as("%s from %s s", cycles.group(3), cycles.group(1))
                        .noneMatch(t -> t.fromNanos() < to && t.toNanos() > from + SECOND);
            }
            assertThat(failed).isPositive();
        }
    }
}
