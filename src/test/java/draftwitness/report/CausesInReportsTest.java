package draftwitness.report;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.cycle.CycleReport;
import draftwitness.cycle.SessionSummary;
import draftwitness.diagnosis.Answer;
import draftwitness.diagnosis.Diagnosis;
import draftwitness.diagnosis.DiagnosisReport;
import draftwitness.setup.Setup;
import java.math.BigDecimal;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Causes and next checks as told to programs and people. */
class CausesInReportsTest {
    private static final CycleReport NOTHING = new CycleReport(List.of(), List.of(), List.of());

    private static String json(DiagnosisReport diagnosis) {
        return AnalysisJson.of("a.dwrec", new SessionSummary(null, 0, 0, List.of()), NOTHING, diagnosis);
    }

    private static DiagnosisReport diagnosis(Answer... answers) {
        return Diagnosis.of(List.of(), Setup.defaults(), NOTHING, List.of(answers));
    }

    @Test
    void givenAnyDiagnosis_whenWrittenAsJson_thenProbabilitiesAsPrintedSumToOne() {
        String json = json(diagnosis(new Answer("look-drain", "backed-up", "looked")));
        List<MatchResult> found = Pattern.compile("\"cause\":\"([a-z-]+)\",\"probability\":([0-9.E-]+)")
                .matcher(json)
                .results()
                .toList();
        BigDecimal sum = found.stream().map(m -> new BigDecimal(m.group(2))).reduce(BigDecimal.ZERO, BigDecimal::add);
        assertThat(sum).isEqualByComparingTo(BigDecimal.ONE);
        assertThat(found.get(0).group(1)).isEqualTo("drain-blocked");
        assertThat(json).contains("\"because\":[\"water stands or drains slowly (looked)\"]");
    }

    @Test
    void givenOpenCauses_whenWrittenAsJson_thenNextChecksHaveGainMinutesAndText() {
        assertThat(json(diagnosis()))
                .containsPattern(
                        "\"next_checks\":\\[\\{\"check\":\"[a-z-]+\",\"gain_bits\":0\\.\\d+,\"minutes\":\\d+,\"text\":\"");
    }

    @Test
    void givenOpenCauses_whenToldAsText_thenTheyAreRankedWithTheNextCheck() {
        DiagnosisReport diagnosis = diagnosis(new Answer("vent-off", "recovers", "tried"));
        String text = AnalysisText.of("a.dwrec", new SessionSummary(null, 0, 0, List.of()), NOTHING, diagnosis);
        assertThat(text).contains("what is likely:", "Not settled.", "next checks, best first by bits a minute:");
    }
}
