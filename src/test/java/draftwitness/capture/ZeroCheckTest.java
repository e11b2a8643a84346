package draftwitness.capture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import draftwitness.reading.ZeroOffset;
import draftwitness.reading.Zeros;
import java.util.List;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;

class ZeroCheckTest {
    private static final long MS = 1_000_000;

    /** Readings at 50 a second for 5 s. */
    private static ZeroCheck.Result judge(IntToDoubleFunction pascals) {
        ZeroCheck check = new ZeroCheck(Tap.DRAFT_SWITCH, 1000 * MS);
        for (int i = 0; i < 250; i++) {
            double value = pascals.applyAsDouble(i);
            if (!Double.isNaN(value)) {
                check.add(1000 * MS + i * 20L * MS, value);
            }
        }
        return check.judge();
    }

    @Test
    void givenQuietInstrument_whenJudged_thenItsMedianIsTheZero() {
        Random random = new Random(1);
        ZeroOffset zero = judge(i -> -1.3 + 0.2 * random.nextGaussian()).zero().orElseThrow();
        assertThat(zero.pascals()).isCloseTo(-1.3, within(0.06));
        assertThat(zero.spreadPascals()).isCloseTo(0.2, within(0.06)); // 1.4826 MAD estimates the deviation
        assertThat(zero.readings()).isEqualTo(250);
        assertThat(zero.timeNanos()).isEqualTo(6000 * MS);
    }

    @Test
    void givenAnythingNotSteady_whenJudged_thenRefusedWithItsReason() {
        Random random = new Random(2);
        assertThat(judge(i -> 3 * random.nextGaussian()).why()).startsWith("not steady");
        assertThat(judge(i -> 0.01 * i).why()).startsWith("drifting");
        assertThat(judge(i -> i == 100 ? -20 : 0).why()).contains("strayed");
        assertThat(judge(i -> -250).why()).contains("open to air");
        assertThat(judge(i -> i > 100 ? Double.NaN : 0).why()).startsWith("too few");
        assertThat(judge(i -> i > 20 && i < 120 ? Double.NaN : 0).why()).startsWith("too few");
        assertThat(judge(i -> Double.NaN).zero()).isEmpty();
    }

    private static Slice slice(ZeroOffset zero) {
        return new Slice(0, List.of(), List.of(zero.event("a", SourceState.LIVE)));
    }

    @Test
    void givenTwoZeros_whenUndoneStepByStep_thenTheOneBefore_andThenNone() {
        Zeros zeros = new Zeros();
        zeros.slice(slice(new ZeroOffset(Tap.DRAFT_SWITCH, -1.25, 10, 0.1, 0, 250)));
        zeros.slice(slice(new ZeroOffset(Tap.DRAFT_SWITCH, 2.5, 20, 0.1, 0, 250)));
        assertThat(zeros.pascals(Tap.DRAFT_SWITCH)).isEqualTo(2.5);
        assertThat(zeros.pascals(Tap.GAS_INLET)).isZero();
        zeros.slice(slice(zeros.undo(Tap.DRAFT_SWITCH, 30)));
        assertThat(zeros.pascals(Tap.DRAFT_SWITCH)).isEqualTo(-1.25);
        zeros.slice(slice(zeros.undo(Tap.DRAFT_SWITCH, 40)));
        assertThat(zeros.pascals(Tap.DRAFT_SWITCH)).isZero();
    }

    @Test
    void givenEvents_whenReadBack_thenTheVeryOffset_andOtherWordsAreNone() {
        ZeroOffset zero = new ZeroOffset(Tap.GAS_MANIFOLD, -1.0 / 3, 77, 1e-9, -0.1, 12);
        assertThat(ZeroOffset.in(zero.event("a", SourceState.SILENT))).contains(zero);
        for (String words : List.of(
                "opened",
                "zero of x: 1 Pa",
                "zero of draft.switch: ? Pa (spread 0 Pa, drift 0 Pa, 1 readings)",
                "zero of contact.switch: 1 Pa (spread 0 Pa, drift 0 Pa, 1 readings)")) {
            assertThat(ZeroOffset.in(new SourceEvent("a", 0, SourceState.LIVE, words)))
                    .isEmpty();
        }
    }
}
