package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.dashboard.RibbonParts.Part;
import draftwitness.dashboard.RibbonParts.State;
import org.junit.jupiter.api.Test;

class RibbonPartsTest {
    private static final ColumnGrid GRID = new ColumnGrid(0, 10, 10);

    private static Columns.Builder builder() {
        return new Columns.Builder(GRID);
    }

    @Test
    void givenAStateBeforeAndNoReading_whenDrawn_thenItHoldsAsFarAsKnown() {
        Columns.Builder b = builder();
        b.add(-50, 1);
        assertThat(RibbonParts.of(b.build(), 80)).containsExactly(new Part(-50, 80, State.CLOSED));
    }

    @Test
    void givenManyReadingsOfOneState_whenDrawn_thenTheyAreOneStretch() {
        Columns.Builder b = builder();
        for (int t = 0; t < 100; t += 3) {
            b.add(t, 1);
        }
        assertThat(RibbonParts.of(b.build(), 100)).containsExactly(new Part(0, 100, State.CLOSED));
    }

    @Test
    void givenAChange_whenDrawn_thenTheOldStateHoldsUntilIt() {
        Columns.Builder b = builder();
        b.add(5, 1);
        b.add(42, 0);
        assertThat(RibbonParts.of(b.build(), 100))
                .containsExactly(new Part(5, 42, State.CLOSED), new Part(42, 100, State.OPEN));
    }

    @Test
    void givenChangesWithinAColumn_whenDrawn_thenTheyAreNotHidden() {
        Columns.Builder b = builder();
        b.add(5, 1);
        b.add(42, 0);
        b.add(44, 1);
        assertThat(RibbonParts.of(b.build(), 100))
                .containsExactly(
                        new Part(5, 42, State.CLOSED), new Part(42, 44, State.BOTH), new Part(44, 100, State.CLOSED));
    }

    @Test
    void givenAnInterruption_whenDrawn_thenTheStateIsNotKnownUntilTheNextReading() {
        Columns.Builder b = builder();
        b.add(5, 1);
        b.gap(new TimeSpan(30, 70));
        b.add(70, 1);
        assertThat(RibbonParts.of(b.build(), 100))
                .containsExactly(new Part(5, 30, State.CLOSED), new Part(70, 100, State.CLOSED));
    }
}
