package draftwitness.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import draftwitness.cycle.CycleReport;
import draftwitness.setup.Setup;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Properties that hold whatever stands in the table. */
class DiagnosisTest {
    private static final CauseTable TABLE = CauseTable.standard();

    private static DiagnosisReport of(List<Answer> answers) {
        return Diagnosis.of(List.of(), Setup.defaults(), new CycleReport(List.of(), List.of(), List.of()), answers);
    }

    private static List<Answer> randomAnswers(Random random) {
        List<Answer> out = new ArrayList<>();
        for (Check c : Check.all()) {
            if (random.nextBoolean()) {
                out.add(new Answer(
                        c.id(),
                        c.outcomes().get(random.nextInt(c.outcomes().size())).id(),
                        "test"));
            }
        }
        return out;
    }

    @Test
    void givenNoEvidence_thenCausesAreAsCommonAsTheyAre() {
        DiagnosisReport report = of(List.of());
        for (int i = 0; i < TABLE.causes().size(); i++) {
            assertThat(report.probability(TABLE.causes().get(i).id()))
                    .isCloseTo(TABLE.prior().get(i), within(1e-12));
        }
    }

    @Test
    void givenAnyAnswers_thenProbabilitiesSumToOneAndTheirOrderDoesNotMatter() {
        for (int seed = 1; seed <= 200; seed++) {
            Random random = new Random(seed);
            List<Answer> answers = randomAnswers(random);
            DiagnosisReport one = of(answers);
            Collections.shuffle(answers, random);
            DiagnosisReport other = of(answers);
            double sum = 0;
            for (RankedCause c : one.causes()) {
                sum += c.probability();
                assertThat(other.probability(c.cause().id()))
                        .as("seed %d", seed)
                        .isCloseTo(c.probability(), within(1e-9));
            }
            assertThat(sum).as("seed %d", seed).isCloseTo(1, within(1e-9));
        }
    }

    @Test
    void givenAnyAnswers_thenChecksAreRankedByBitsAMinuteAndMissingOnlyWhenOneCauseIsCertain() {
        for (int seed = 1; seed <= 200; seed++) {
            DiagnosisReport report = of(randomAnswers(new Random(seed)));
            assertThat(report.nextChecks().stream().map(n -> -n.bitsPerMinute()).toList())
                    .isSorted();
            if (report.first().probability() >= DiagnosisReport.CERTAIN) {
                assertThat(report.nextChecks()).as("seed %d", seed).isEmpty();
            }
        }
        assertThat(of(List.of()).nextChecks()).isNotEmpty();
    }

    @Test
    void givenAnUnknownCheckOrOutcome_thenTheMessageNamesThoseKnown() {
        assertThatThrownBy(() -> new Answer("no-such", "x", "")).hasMessageContaining("two-tap");
        assertThatThrownBy(() -> new Answer("two-tap", "x", "")).hasMessageContaining("fraction");
    }
}
