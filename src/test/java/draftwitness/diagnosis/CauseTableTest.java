package draftwitness.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the table itself must hold, and what it must lead to. */
class CauseTableTest {
    private static final CauseTable TABLE = CauseTable.standard();

    private static Evidence seen(String kind, String outcome) {
        return new Evidence(kind, outcome, kind + " " + outcome, List.of());
    }

    private static DiagnosisReport of(List<Evidence> seen, Answer... answers) {
        return Diagnosis.of(TABLE, seen, List.of(answers));
    }

    @Test
    void givenTheTable_thenThePageInTheDocumentationIsMadeFromIt() throws IOException {
        String page = Files.readString(Path.of("docs/causes.md"), StandardCharsets.UTF_8);
        assertThat(page).as("run CausesPage docs/causes.md").isEqualTo(CausesPage.text());
    }

    @Test
    void givenEveryCause_thenSomeCheckOrEvidenceSpeaksOfIt() {
        for (Cause cause : TABLE.causes()) {
            assertThat(TABLE.kinds().values())
                    .as(cause.id())
                    .anyMatch(k -> k.byCause().containsKey(cause.id()));
        }
    }

    @Test
    void givenChecksThatTouchGasContactsOrCombustion_thenTheyCarryCautions() {
        for (Check c : Check.all()) {
            String words = (c.title() + " " + c.text() + " " + c.hose()).toLowerCase(java.util.Locale.ROOT);
            if (words.contains("gas ")
                    || words.contains("contact")
                    || words.contains("vent")
                    || words.contains("exchanger")) {
                assertThat(c.cautions()).as(c.id()).isNotEmpty();
            }
        }
        assertThat(String.join(" ", Check.ofId("manifold").orElseThrow().cautions()))
                .contains("Shut the gas");
        assertThat(String.join(" ", Check.ofId("contact-channel").orElseThrow().cautions()))
                .contains("isolated", "Never bypass");
    }

    @Test
    void givenAConstantFractionOfTheInducer_thenTubeAndDiaphragmStayLevelUntilEachIsTriedAlone() {
        List<Evidence> seen = List.of(seen("switch-to-inducer", "fraction"));
        DiagnosisReport open = of(seen);
        assertThat(open.probability("tube-leaking")).isCloseTo(open.probability("diaphragm-pinhole"), within(1e-12));
        assertThat(open.level()).extracting(Cause::id).containsExactlyInAnyOrder("tube-leaking", "diaphragm-pinhole");
        assertThat(open.nextChecks().get(0).check().id()).isEqualTo("leak-down-parts");
        DiagnosisReport tried = of(seen, new Answer("leak-down-parts", "switch-falls", "hand pump"));
        assertThat(tried.first().cause().id()).isEqualTo("diaphragm-pinhole");
        assertThat(tried.first().probability()).isGreaterThan(0.9);
        assertThat(tried.nextChecks()).isEmpty();
    }

    @Test
    void givenAContactThatOpensByItself_thenNobodyIsToldToReplaceTheSwitchWhileOtherCausesAreOpen() {
        DiagnosisReport report = of(List.of(seen("contact", "opens-by-itself")));
        assertThat(report.first().cause().id()).isEqualTo("switch-faulty");
        assertThat(report.first().probability()).isLessThan(0.9);
        assertThat(report.conclusion())
                .contains("Do not replace the pressure switch")
                .doesNotContain("fit a switch");
    }

    @Test
    void givenEvidenceThatContradictsEachOther_thenTheAnswerIsLessCertainThanWithEither() {
        DiagnosisReport one = of(List.of(seen("movement", "periodic"), seen("course", "fades")));
        DiagnosisReport both = of(
                List.of(seen("movement", "periodic"), seen("course", "fades")),
                new Answer("look-vent", "clear", "looked"));
        assertThat(both.first().probability()).isLessThan(one.first().probability());
        assertThat(Information.entropyBits(chances(both))).isGreaterThan(Information.entropyBits(chances(one)));
    }

    private static double[] chances(DiagnosisReport report) {
        return report.causes().stream().mapToDouble(RankedCause::probability).toArray();
    }

    @Test
    void givenOnePieceOfEvidence_thenItsLogOddsAreWhatTheProbabilityMovedBy() {
        DiagnosisReport report = of(List.of(seen("movement", "periodic")));
        RankedCause first = report.first();
        int c = TABLE.causes().indexOf(first.cause());
        double prior = TABLE.prior().get(c);
        double bits = Math.log(first.probability() / (1 - first.probability()) / (prior / (1 - prior))) / Math.log(2);
        assertThat(first.supporting().get(0).bits()).isCloseTo(bits, within(1e-9));
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # evidence, outcome, the cause that it speaks for most
            movement, periodic, condensate-in-vent
            movement, gusty, wind-at-terminal
            contact, chatters, contact-wiring
            contact, off-rating, switch-drifted
            blower, step, heat-exchanger-breached
            burner-box, deep, intake-restricted
            vent-pressure, high, vent-restricted
            switch-to-inducer, slow, tube-blocked
            collector-to-inducer, bubbling, trap-dry
            inlet, sags, gas-supply-sag
            manifold, high, manifold-high
            manifold, low, manifold-low
            manifold, swings, regulator-hunting
            lighting, no-flame, ignition-or-flame-sense
            course, fades, drain-blocked
            """)
    void givenASignature_thenItsCauseGainsMost(String kind, String outcome, String cause) {
        DiagnosisReport report = of(List.of(seen(kind, outcome)));
        String most = report.causes().stream()
                .max(java.util.Comparator.comparingDouble(r ->
                        r.supporting().isEmpty() ? 0 : r.supporting().get(0).bits()))
                .orElseThrow()
                .cause()
                .id();
        assertThat(most).isEqualTo(cause);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # what is wrong, what the message says
            usual-sum, must make 100
            no-reason, is missing
            mark, must be one of
            unknown, no such evidence
            """)
    void givenAMistakeInATable_thenTheMessageSaysWhereAndWhat(String mistake, String message) {
        String table = """
                [evidence.e]
                title = "t"
                [evidence.e.outcomes]
                a = "a"
                b = "b"
                [evidence.e.usual]
                a = 60
                b = %s
                from = "%s"
                %s
                [cause.none]
                name = "n"
                meaning = "m"
                remedy = "r"
                prior = 1
                prior-why = "w"
                [cause.none.shows]
                %s = { a = 50, b = 50, from = "memory", why = "w" }
                """.formatted(
                        mistake.equals("usual-sum") ? "50" : "40",
                        mistake.equals("mark") ? "hearsay" : "memory",
                        mistake.equals("no-reason") ? "" : "why = \"w\"",
                        mistake.equals("unknown") ? "f" : "e");
        assertThatThrownBy(() -> CauseTableReader.read("test.toml", table))
                .hasMessageContaining("test.toml:")
                .hasMessageContaining(message);
    }
}
