package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.testkit.Cable;
import draftwitness.testkit.Program;
import java.nio.file.Path;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The model house as a fake serial sensor, read by the program at the other end of a cable. */
@Timeout(60)
class ServedSimulationTest {

    @TempDir
    Path folder;

    @Test
    void givenSimulationServedOverASerialCable_whenRecordedAtTheOtherEnd_thenTheSimulationsOwnValuesInOrder()
            throws Exception {
        try (Cable cable = new Cable(folder)) {
            String recording = folder.resolve("a.dwrec").toString();
            CompletableFuture<Program.Result> recorded = CompletableFuture.supplyAsync(() -> Program.run(
                    "record",
                    "--for",
                    "8s",
                    "--out",
                    recording,
                    "--source",
                    "draft.switch=ascii-line@serial:" + cable.near()));
            Program.Result served = Program.run(
                    "simulate",
                    "demo-house",
                    "--for",
                    "40s",
                    "--speed",
                    "10",
                    "--tap",
                    "draft.switch",
                    "--serve",
                    "serial:" + cable.far());
            assertThat(served.code()).as(served.err()).isZero();
            assertThat(served.err()).contains("sent 2000 lines");
            assertThat(recorded.get(30, TimeUnit.SECONDS).code()).isZero();

            String twin = folder.resolve("twin.dwrec").toString();
            assertThat(Program.run("simulate", "demo-house", "--for", "40s", "--out", twin)
                            .code())
                    .isZero();
            List<String> truth = values(twin);
            List<String> got = values(recording);
            // The recorder may have come to the cable a little late, drops the line that it came in the middle of, and
            // may leave before the end on a slow machine.
            assertThat(got).hasSizeBetween(500, truth.size());
            assertThat(Collections.indexOfSubList(truth, got)).isNotNegative();
        }
    }

    private static List<String> values(String recording) {
        List<String> lines =
                Program.run("export", recording, "--out", "-").out().lines().toList();
        int column = List.of(lines.get(0).split(",", -1)).indexOf("draft.switch [Pa]");
        return lines.stream()
                .skip(1)
                .map(l -> l.split(",", -1)[column])
                .filter(v -> !v.isEmpty())
                .toList();
    }
}
