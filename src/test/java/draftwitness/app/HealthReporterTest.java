package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.capture.SourceHealth;
import draftwitness.driver.Fault;
import draftwitness.reading.SourceState;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class HealthReporterTest {
    private static final long SECOND = 1_000_000_000L;
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final HealthReporter reporter = new HealthReporter(new PrintStream(out, true, StandardCharsets.UTF_8));

    private static SourceHealth health(Map<Fault, Long> faults, OptionalInt battery) {
        return new SourceHealth(
                "draft.switch",
                SourceState.LIVE,
                "",
                0,
                1234,
                100,
                faults,
                17,
                2,
                0,
                OptionalLong.of(1_500_000),
                OptionalLong.empty(),
                battery,
                "arrival");
    }

    private String said() {
        String text = out.toString(StandardCharsets.UTF_8);
        out.reset();
        return text;
    }

    @Test
    void givenRefusedBytes_whenTheyGrow_thenToldByReasonAndOnceIn10Seconds() {
        reporter.look(0, List.of(health(Map.of(), OptionalInt.empty())));
        assertThat(said()).isEmpty();
        List<SourceHealth> grown =
                List.of(health(Map.of(Fault.GARBLED, 3L, Fault.BAD_CHECKSUM, 1L), OptionalInt.empty()));
        reporter.look(9 * SECOND, grown);
        assertThat(said()).isEmpty();
        reporter.look(10 * SECOND, grown);
        assertThat(said()).contains("draft.switch: not taken: 3 x garbled bytes, 1 x checksum wrong (17 bytes)");
        reporter.look(20 * SECOND, grown);
        assertThat(said()).isEmpty();
    }

    @Test
    void givenAllFigures_whenTheSessionIsOver_thenOneLineHasThem() {
        assertThat(HealthReporter.line(health(Map.of(Fault.NO_ANSWER, 1L), OptionalInt.of(80))))
                .isEqualTo(
                        "draft.switch: 100 readings of 1234 bytes; not taken: 1 x no answer (17 bytes); opened again 2"
                                + " times; times by arrival; decoded within 1.5 ms; battery 80 %");
    }
}
