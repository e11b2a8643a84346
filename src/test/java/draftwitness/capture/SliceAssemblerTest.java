package draftwitness.capture;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Decimal;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class SliceAssemblerTest {
    private static final long MS = 1_000_000;
    private static final Channel DRAFT = new Channel(Tap.DRAFT_SWITCH, "a", "pressure", Unit.PASCAL);
    private final List<Slice> slices = new ArrayList<>();
    private final SliceAssembler assembler = new SliceAssembler(List.of(DRAFT), 100_000);

    @Test
    void givenReadingsOfThreeCells_whenTimePasses_thenSlicesWithoutHoles() {
        add(10, "1.0");
        add(99, "2.0");
        add(350, "3.0");
        assembler.emitUntil(400 * MS, slices::add);
        assertThat(slices).extracting(Slice::index).containsExactly(0L, 1L, 2L, 3L);
        assertThat(slices.get(0).blocks()).hasSize(1);
        assertThat(slices.get(0).blocks().get(0).size()).isEqualTo(2);
        assertThat(slices.get(1).isEmpty()).isTrue();
        assertThat(slices.get(3).blocks().get(0).timeNanos(0)).isEqualTo(350 * MS);
    }

    @Test
    void givenSeveralReadingsArrivedTogether_whenAdded_thenTimesStillIncreaseByTheTimeStep() {
        add(10, "1");
        add(10, "2");
        add(10, "3");
        assembler.emitUntil(100 * MS, slices::add);
        Block block = slices.get(0).blocks().get(0);
        assertThat(List.of(block.timeNanos(0), block.timeNanos(1), block.timeNanos(2)))
                .containsExactly(10 * MS, 10 * MS + 100_000, 10 * MS + 200_000);
    }

    @Test
    void givenInstrumentThatDropsTrailingZeros_whenAdded_thenTheFinestStepIsKept() {
        add(10, "1.25");
        add(20, "1.5");
        assembler.emitUntil(100 * MS, slices::add);
        Block block = slices.get(0).blocks().get(0);
        assertThat(block.step()).isEqualTo(new Step(Unit.PASCAL, 2));
        assertThat(block.count(1)).isEqualTo(150);
    }

    @Test
    void givenInstrumentSwitchedToAnotherUnit_whenAdded_thenBlocksOfEachUnit() {
        add(10, "249.1");
        assembler.add(0, at(20), new Decimal(100, 2), Unit.INCH_OF_WATER);
        assembler.emitUntil(100 * MS, slices::add);
        List<Block> blocks = slices.get(0).blocks();
        assertThat(blocks).extracting(b -> b.step().unit()).containsExactly(Unit.PASCAL, Unit.INCH_OF_WATER);
        assertThat(blocks.get(1).value(0)).isEqualTo(249.08891);
    }

    @Test
    void givenHugeValueAfterFineOnes_whenItDoesNotFitTheFineStep_thenItKeepsItsOwn() {
        add(10, "0.000000001");
        add(20, "123456789012345678");
        assembler.emitUntil(100 * MS, slices::add);
        assertThat(slices.get(0).blocks()).hasSize(2);
        assertThat(slices.get(0).blocks().get(1).count(0)).isEqualTo(123456789012345678L);
    }

    @Test
    void givenReadingOfACellAlreadyHandedOn_whenAdded_thenItTravelsInTheNextWithItsOwnTime() {
        add(10, "1");
        assembler.emitUntil(100 * MS, slices::add);
        assertThat(assembler.add(0, at(90), new Decimal(2, 0), Unit.PASCAL)).isFalse();
        assembler.emitUntil(200 * MS, slices::add);
        assertThat(slices.get(1).blocks().get(0).timeNanos(0)).isEqualTo(90 * MS);
    }

    @Test
    void givenEventsAndReadingsLeft_whenFinished_thenAllAreHandedOn() {
        add(250, "1");
        assembler.event(new SourceEvent("a", 430 * MS, SourceState.FINISHED, ""));
        assembler.finish(Long.MAX_VALUE, slices::add);
        assertThat(slices).hasSize(5);
        assertThat(slices.get(4).events()).hasSize(1);
    }

    private void add(long ms, String text) {
        assembler.add(0, at(ms), Decimal.parse(text).orElseThrow(), Unit.PASCAL);
    }

    private static Stamp at(long ms) {
        return Stamp.arrived(ms * MS, Block.NO_COUNTER);
    }

    @Test
    void givenComputedTimes_whenHandedOn_thenArrivalsAndCountersStandBesideThem() {
        assembler.add(0, new Stamp(10 * MS, 17 * MS, true, 65535), new Decimal(1, 0), Unit.PASCAL);
        assembler.add(0, new Stamp(30 * MS, 37 * MS + 40_000, true, 0), new Decimal(2, 0), Unit.PASCAL);
        assembler.emitUntil(100 * MS, slices::add);
        Block block = slices.get(0).blocks().get(0);
        assertThat(block.hasArrivals()).isTrue();
        assertThat(block.timeNanos(1)).isEqualTo(30 * MS);
        assertThat(block.arrivalNanos(0)).isEqualTo(17 * MS);
        assertThat(block.arrivalNanos(1)).isEqualTo(37 * MS); // on the grid of 0.1 ms, as times are
        assertThat(List.of(block.counter(0), block.counter(1))).containsExactly(65535L, 0L);
    }

    @Test
    void givenTimesThatTurnFromComputedToArrivals_whenHandedOn_thenEachBlockIsOfOneKind() {
        assembler.add(0, new Stamp(10 * MS, 17 * MS, true, Block.NO_COUNTER), new Decimal(1, 0), Unit.PASCAL);
        add(40, "2");
        assembler.emitUntil(100 * MS, slices::add);
        List<Block> blocks = slices.get(0).blocks();
        assertThat(blocks).extracting(Block::hasArrivals).containsExactly(true, false);
        assertThat(blocks).extracting(Block::hasCounters).containsExactly(false, false);
        assertThat(blocks.get(1).arrivalNanos(0)).isEqualTo(40 * MS);
    }

    /** A reading or event that came late, right before the end, was lost once. */
    @Test
    void givenLateReadingAndEvent_whenFinishedRightAfter_thenTheyTravelInTheLastSlice() {
        add(10, "1");
        assembler.emitUntil(300 * MS, slices::add);
        add(90, "2");
        assembler.event(new SourceEvent("a", 20 * MS, SourceState.LIVE, ""));
        assembler.finish(Long.MAX_VALUE, slices::add);
        assertThat(slices).hasSize(4);
        assertThat(slices.get(3).blocks().get(0).timeNanos(0)).isEqualTo(90 * MS);
        assertThat(slices.get(3).events()).hasSize(1);
    }
}
