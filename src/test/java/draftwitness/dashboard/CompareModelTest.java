package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.cycle.Band;
import draftwitness.cycle.Cycle;
import draftwitness.cycle.Margin;
import draftwitness.cycle.Outcome;
import draftwitness.cycle.Phase;
import draftwitness.cycle.PhaseSpan;
import draftwitness.reading.Unit;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Two cycles over each other, and what lies between them. */
class CompareModelTest {
    private static final long SECOND = 1_000_000_000L;

    private final CompareModel compare = new CompareModel();

    private static ComparedCycle cycle(
            String recording, int index, long startSeconds, double level, double margin, double spinUp) {
        long start = startSeconds * SECOND;
        long end = start + 180 * SECOND;
        List<PhaseSpan> phases = Double.isNaN(spinUp)
                ? List.of()
                : List.of(new PhaseSpan(Phase.SPIN_UP, start, start + Math.round(spinUp * SECOND)));
        Margin m = Double.isNaN(margin) ? null : new Margin(margin - 2, margin, margin + 5, Band.THIN);
        Cycle facts =
                new Cycle(index, start, end, Outcome.HEATED, null, 1, phases, m, Map.of(), level, 0, List.of(), List.of(), true);
        TimeSpan span = new TimeSpan(start - CompareModel.BEFORE_NANOS, end);
        return new ComparedCycle(recording, "22:10:08", facts, Columns.empty(ColumnGrid.covering(span, 100)));
    }

    @Test
    void givenTwoRecordings_whenShown_thenTheFirstCyclesOfBothLieOverEachOther() {
        compare.show(List.of(
                cycle("before.dwrec", 1, 10, 290, 57, 3.0),
                cycle("before.dwrec", 2, 700, 291, 56, 3.1),
                cycle("after.dwrec", 1, 40, 340.5, 104, 2.4),
                cycle("after.dwrec", 2, 800, 341, 105, 2.4)));
        assertThat(compare.isOpen()).isTrue();
        assertThat(compare.a().label()).startsWith("before.dwrec, cycle 1");
        assertThat(compare.b().label()).startsWith("after.dwrec, cycle 1");
        assertThat(compare.windowA().fromNanos()).isEqualTo(5 * SECOND);
        assertThat(compare.windowB().fromNanos()).isEqualTo(35 * SECOND);
        assertThat(compare.rows(Unit.PASCAL))
                .containsExactly(
                        new CompareModel.Row("Level once proved", "290.0 Pa", "340.5 Pa", "+50.5 Pa"),
                        new CompareModel.Row("Margin (first percentile)", "57.0 Pa", "104.0 Pa", "+47.0 Pa"),
                        new CompareModel.Row("Spin-up", "3.0 s", "2.4 s", "\u22120.6 s"),
                        new CompareModel.Row("Length", "180.0 s", "180.0 s", "0.0 s"));
    }

    @Test
    void givenOneRecording_whenShown_thenTheFirstTwoCyclesAreCompared() {
        compare.show(List.of(cycle("a.dwrec", 1, 10, 290, 57, 3), cycle("a.dwrec", 2, 700, 290, 57, 3)));
        assertThat(compare.b().cycle().index()).isEqualTo(2);
    }

    @Test
    void givenTheSecondCycle_whenNudgedLater_thenItsWindowStartsEarlier() {
        compare.show(List.of(cycle("a.dwrec", 1, 10, 290, 57, 3), cycle("a.dwrec", 2, 700, 290, 57, 3)));
        long before = compare.windowB().fromNanos();
        compare.nudge(3);
        assertThat(before - compare.windowB().fromNanos()).isEqualTo(3 * CompareModel.NUDGE_NANOS);
        compare.chooseB(1);
        assertThat(compare.shiftNanos()).isZero();
    }

    @Test
    void givenACycleThatNeverProved_whenCompared_thenWhatIsMissingIsADashAndNotAZero() {
        compare.show(List.of(
                cycle("a.dwrec", 1, 10, 290, 57, 3), cycle("a.dwrec", 2, 700, Double.NaN, Double.NaN, Double.NaN)));
        for (CompareModel.Row row : compare.rows(Unit.PASCAL).subList(0, 3)) {
            assertThat(row.b()).isEqualTo("\u2013");
            assertThat(row.difference()).isEqualTo("\u2013");
        }
    }
}
