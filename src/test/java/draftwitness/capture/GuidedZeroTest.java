package draftwitness.capture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.reading.ZeroControl;
import draftwitness.reading.ZeroControl.State;
import draftwitness.reading.ZeroOffset;
import draftwitness.reading.Zeros;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongUnaryOperator;
import org.junit.jupiter.api.Test;

/** A session of one pressure and one contact, slice by slice; one reading a slice, in tenths of a pascal. */
class GuidedZeroTest {
    private static final Channel DRAFT = new Channel(Tap.DRAFT_SWITCH, "s", "pressure", Unit.PASCAL);
    private static final Channel CONTACT = new Channel(Tap.CONTACT_SWITCH, "c", "contact", Unit.CONTACT);

    private final GuidedZero guided = new GuidedZero(List.of(DRAFT, CONTACT));
    private final Zeros zeros = new Zeros();
    private final List<SourceEvent> coming = new ArrayList<>();
    private final List<Long> shown = new ArrayList<>();
    private long index;

    /** So many slices with those counts. */
    private void pass(int slices, LongUnaryOperator counts) {
        for (int i = 0; i < slices; i++) {
            long[] at = {index * Slice.CELL_NANOS};
            Block block = new Block(DRAFT, new Step(Unit.PASCAL, 1), at, new long[] {counts.applyAsLong(index)});
            Slice slice = new Slice(index++, List.of(block), coming);
            coming.clear();
            zeros.slice(slice);
            guided.slice(slice, zeros).forEach(z -> coming.add(z.event("s", SourceState.LIVE)));
            shown.add(zeros.zeroed(slice).blocks().get(0).count(0));
        }
    }

    private ZeroControl.Status status() {
        return guided.status(Tap.DRAFT_SWITCH);
    }

    @Test
    void givenSteadyReadings_whenZeroIsTaken_thenProgressIsTold_andItIsTakenOffFromThenOn() {
        assertThat(guided.taps()).containsExactly(Tap.DRAFT_SWITCH);
        pass(3, i -> 12);
        assertThat(status().state()).isEqualTo(State.NONE);
        guided.start(Tap.DRAFT_SWITCH);
        assertThat(status().state()).isEqualTo(State.TAKING);
        pass(26, i -> 12);
        assertThat(status().fraction()).isBetween(0.4, 0.6);
        pass(26, i -> 12);
        assertThat(status().state()).isEqualTo(State.TAKEN);
        assertThat(status().words()).startsWith("zero 1.20 Pa");
        assertThat(status().pascals()).isEqualTo(1.2);
        pass(1, i -> -2500);
        assertThat(shown.get(0)).isEqualTo(12);
        assertThat(shown.get(shown.size() - 1)).isEqualTo(-2512);
    }

    @Test
    void givenUnsteadyReadings_whenZeroIsTaken_thenRefusedWithWhy_andNothingIsTakenOff() {
        guided.start(Tap.DRAFT_SWITCH);
        pass(60, i -> i % 2 == 0 ? 40 : -40);
        assertThat(status().state()).isEqualTo(State.REFUSED);
        assertThat(status().words()).startsWith("not steady");
        assertThat(shown).containsOnly(40L, -40L);
    }

    @Test
    void givenTwoZeros_whenUndoneOneByOne_thenTheEarlierHoldsAgain_thenNone() {
        guided.start(Tap.DRAFT_SWITCH);
        pass(55, i -> 10);
        guided.start(Tap.DRAFT_SWITCH);
        pass(55, i -> 30);
        assertThat(status().pascals()).isEqualTo(3);
        guided.undo(Tap.DRAFT_SWITCH);
        pass(3, i -> 30);
        assertThat(status()).isEqualTo(new ZeroControl.Status(State.UNDONE, 1, "the zero was taken back", 1));
        guided.undo(Tap.DRAFT_SWITCH);
        pass(3, i -> 30);
        assertThat(status().pascals()).isZero();
        assertThat(shown.get(shown.size() - 1)).isEqualTo(30);
    }

    @Test
    void givenTaking_whenCancelledOrTheSessionEnds_thenNothingChanges() {
        guided.start(Tap.DRAFT_SWITCH);
        pass(10, i -> 10);
        guided.cancel(Tap.DRAFT_SWITCH);
        pass(60, i -> 10);
        assertThat(status().state()).isEqualTo(State.NONE);
        guided.start(Tap.DRAFT_SWITCH);
        guided.end();
        assertThat(status().words()).contains("end");
        assertThat(shown).containsOnly(10L);
        assertThatThrownBy(() -> guided.start(Tap.CONTACT_SWITCH)).hasMessageContaining("contact.switch");
    }

    @Test
    void givenZeroInTheMiddleOfABlock_whenTakenOff_thenByEachReadingsOwnTime_inWholeCountsOfItsStep() {
        ZeroOffset zero = new ZeroOffset(Tap.DRAFT_SWITCH, 0.26, 25, 0, 0, 9);
        Block block = new Block(
                DRAFT, new Step(Unit.PASCAL, 1), new long[] {10, 20, 30, 40}, new long[] {0, 1, 2, Long.MIN_VALUE});
        Slice slice = new Slice(0, List.of(block), List.of(zero.event("s", SourceState.LIVE)));
        zeros.slice(slice);
        List<Block> zeroed = zeros.zeroed(slice).blocks();
        assertThat(zeroed).hasSize(2);
        assertThat(zeroed.get(0).count(1)).isEqualTo(1);
        assertThat(zeroed.get(1).count(0)).isEqualTo(-1); // 2 less 3 tenths
        assertThat(zeroed.get(1).count(1)).isEqualTo(Long.MIN_VALUE); // beyond what can be counted: as it was
        zeros.slice(slice); // told again, as at a replay
        assertThat(zeros.facts()).hasSize(1);
    }
}
