package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SeriesStoreTest {
    private static final Channel SWITCH = new Channel(Tap.DRAFT_SWITCH, "s", "p", Unit.PASCAL);
    private static final Step TENTHS = new Step(Unit.PASCAL, 1);
    private static final long MILLI = 1_000_000;
    private static final long PLENTY = 1L << 30;

    /** Readings of a test, with the plain truth about any column. */
    private static final class Series {
        private final long[] times;
        private final long[] counts;

        Series(long[] times, long[] counts) {
            this.times = times;
            this.counts = counts;
        }

        static Series random(int n, long seed) {
            SplittableRandom random = new SplittableRandom(seed);
            long[] times = new long[n];
            long[] counts = new long[n];
            long t = random.nextLong(1000) * MILLI;
            for (int i = 0; i < n; i++) {
                t += random.nextLong(1, 40) * MILLI;
                times[i] = t;
                counts[i] = random.nextLong(-3000, 100);
            }
            return new Series(times, counts);
        }

        SeriesStore stored(long cap) {
            SeriesStore store = new SeriesStore(false, cap);
            for (int from = 0; from < times.length; from += 1000) {
                int to = Math.min(times.length, from + 1000);
                store.append(new Block(
                        SWITCH, TENTHS, Arrays.copyOfRange(times, from, to), Arrays.copyOfRange(counts, from, to)));
            }
            return store;
        }

        /** count, min, max, first, last of the readings in a span. */
        double[] truth(long from, long to) {
            double[] truth = {0, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, 0, 0};
            int i = Arrays.binarySearch(times, from);
            for (i = i < 0 ? -i - 1 : i; i < times.length && times[i] < to; i++) {
                double value = TENTHS.inBase(counts[i]);
                truth[3] = truth[0] == 0 ? value : truth[3];
                truth[4] = value;
                truth[0]++;
                truth[1] = Math.min(truth[1], value);
                truth[2] = Math.max(truth[2], value);
            }
            return truth;
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void givenRandomReadings_whenSummedUpByAnyGrid_thenEachColumnIsExact(long seed) {
        Series series = Series.random(40_000, seed);
        SeriesSnapshot snapshot = series.stored(PLENTY).snapshot();
        SplittableRandom random = new SplittableRandom(seed);
        long length = series.times[39_999];
        for (int round = 0; round < 40; round++) {
            long from = random.nextLong(-length / 4, length);
            long width = 1 + random.nextLong(length / 3) / (1 + random.nextInt(2000));
            ColumnGrid grid = new ColumnGrid(from, width, random.nextInt(1, 400));
            Columns columns = snapshot.columns(grid);
            for (int i = 0; i < grid.count(); i++) {
                double[] truth = series.truth(grid.startOf(i), grid.startOf(i + 1));
                assertThat(columns.count(i))
                        .as("seed %d, %s, column %d", seed, grid, i)
                        .isEqualTo((int) truth[0]);
                if (truth[0] > 0) {
                    assertThat(new double[] {columns.min(i), columns.max(i), columns.first(i), columns.last(i)})
                            .as("seed %d, %s, column %d", seed, grid, i)
                            .containsExactly(truth[1], truth[2], truth[3], truth[4]);
                }
            }
        }
    }

    @Test
    void givenOneDipAmongAMillion_whenDrawnInAHundredColumns_thenTheDipIsThere() {
        int n = 1_000_000;
        long[] times = new long[n];
        long[] counts = new long[n];
        for (int i = 0; i < n; i++) {
            times[i] = i * 10L * MILLI;
            counts[i] = -2000;
        }
        counts[123_457] = -3;
        Columns columns =
                new Series(times, counts).stored(PLENTY).snapshot().columns(new ColumnGrid(0, 100_000L * MILLI, 100));
        assertThat(columns.max(12)).isEqualTo(-0.3);
        assertThat(columns.max(11)).isEqualTo(-200);
        assertThat(columns.extremes()).containsExactly(-200, -0.3);
    }

    @Test
    void givenMoreReadingsThanTheCap_whenThinned_thenMemoryStaysBelowItAndNoExtremeIsLost() {
        long cap = 2 << 20;
        Series series = Series.random(600_000, 11);
        SeriesStore store = series.stored(cap);
        SeriesSnapshot snapshot = store.snapshot();
        assertThat(store.bytes()).isLessThanOrEqualTo(cap);
        assertThat(snapshot.firstFullRate()).isGreaterThan(500_000);
        long end = series.times[599_999] + 1;
        double[] truth = series.truth(0, end);
        assertThat(snapshot.columns(new ColumnGrid(0, end / 50 + 1, 50)).extremes())
                .containsExactly(truth[1], truth[2]);
        for (int i = 0; i < 50; i++) {
            long from = end / 50 * i;
            double[] inside = series.truth(from, from + end / 50);
            Columns column = snapshot.columns(new ColumnGrid(from, end / 50, 1));
            assertThat(column.min(0)).isLessThanOrEqualTo(inside[1]);
            assertThat(column.max(0)).isGreaterThanOrEqualTo(inside[2]);
        }
    }

    @Test
    void givenThinnedReadings_whenTheNewestAreDrawn_thenTheyAreExact() {
        Series series = Series.random(600_000, 12);
        SeriesSnapshot snapshot = series.stored(2 << 20).snapshot();
        long from = series.times[598_000];
        long to = series.times[599_999];
        ColumnGrid grid = ColumnGrid.covering(new TimeSpan(from, to), 900);
        Columns columns = snapshot.columns(grid);
        for (int i = 0; i < grid.count(); i++) {
            double[] truth = series.truth(grid.startOf(i), grid.startOf(i + 1));
            assertThat(columns.count(i)).isEqualTo((int) truth[0]);
        }
    }

    @Test
    void givenASnapshot_whenMoreIsAppendedAndThinned_thenItStaysAsItWas() {
        Series series = Series.random(100_000, 13);
        SeriesStore store = series.stored(1 << 20);
        ColumnGrid grid = new ColumnGrid(0, 1 + series.times[99_999] / 300, 300);
        SeriesSnapshot before = store.snapshot();
        double[] extremes = before.columns(grid).extremes();
        Series more = Series.random(200_000, 14);
        long shift = series.times[99_999];
        long[] times = Arrays.stream(more.times).map(t -> t + shift + MILLI).toArray();
        for (int from = 0; from < times.length; from += 1000) {
            store.append(new Block(
                    SWITCH,
                    TENTHS,
                    Arrays.copyOfRange(times, from, from + 1000),
                    Arrays.copyOfRange(more.counts, from, from + 1000)));
        }
        assertThat(before.size()).isEqualTo(100_000);
        assertThat(before.columns(grid).extremes()).isEqualTo(extremes);
    }

    @Test
    void givenReadings_whenAskedForTheOneAtATime_thenTheLatestNotLaterIsGiven() {
        Series series = Series.random(5_000, 15);
        SeriesSnapshot snapshot = series.stored(PLENTY).snapshot();
        assertThat(snapshot.readingAt(series.times[0] - 1)).isNull();
        for (int i = 0; i < 4_999; i += 7) {
            Sample expected = new Sample(series.times[i], TENTHS.inBase(series.counts[i]));
            assertThat(snapshot.readingAt(series.times[i])).isEqualTo(expected);
            assertThat(snapshot.readingAt(series.times[i + 1] - 1)).isEqualTo(expected);
        }
        assertThat(snapshot.readingAt(Long.MAX_VALUE)).isNotNull();
    }

    @Test
    void givenAReadingThatIsNotLater_whenAppended_thenItIsLeftOutAndCounted() {
        SeriesStore store = new SeriesStore(false, PLENTY);
        store.append(new Block(SWITCH, TENTHS, new long[] {5, 6}, new long[] {1, 2}));
        store.append(new Block(SWITCH, TENTHS, new long[] {6, 7}, new long[] {3, 4}));
        assertThat(store.outOfOrder()).isEqualTo(1);
        assertThat(store.latest()).isEqualTo(new Sample(7, 0.4));
        assertThat(store.snapshot().size()).isEqualTo(3);
    }

    @Test
    void givenASilenceOfMoreThanFivePeriodsAndASecond_whenDrawn_thenItIsAGapAndTheLineIsInterrupted() {
        long[] times = new long[200];
        for (int i = 0; i < 200; i++) {
            times[i] = (i * 20 + (i >= 100 ? 1500 : 0)) * MILLI;
        }
        Columns columns =
                new Series(times, new long[200]).stored(PLENTY).snapshot().columns(new ColumnGrid(0, 10 * MILLI, 600));
        assertThat(columns.gaps()).containsExactly(new TimeSpan(1980 * MILLI, 3500 * MILLI));
        assertThat(columns.interrupted(1980 * MILLI, 3500 * MILLI)).isTrue();
        assertThat(columns.interrupted(1960 * MILLI, 1980 * MILLI)).isFalse();
    }

    @Test
    void givenAContactThatSaysNothing_whenDrawn_thenItsStateHoldsAndThereIsNoGap() {
        SeriesStore store = new SeriesStore(true, PLENTY);
        store.append(new Block(SWITCH, TENTHS, new long[] {0, MILLI, 2 * MILLI}, new long[3]));
        store.append(new Block(SWITCH, TENTHS, new long[] {60_000 * MILLI}, new long[1]));
        assertThat(store.snapshot()
                        .columns(new ColumnGrid(0, 100_000 * MILLI, 1))
                        .gaps())
                .isEmpty();
    }

    @Test
    void givenAnInterruptedSource_whenItComesBackAtOnce_thenThereIsStillAGap() {
        SeriesStore store = new SeriesStore(false, PLENTY);
        store.append(new Block(SWITCH, TENTHS, new long[] {0, 20 * MILLI}, new long[2]));
        store.interrupt(25 * MILLI);
        store.append(new Block(SWITCH, TENTHS, new long[] {40 * MILLI}, new long[1]));
        assertThat(store.snapshot().columns(new ColumnGrid(0, 100 * MILLI, 1)).gaps())
                .containsExactly(new TimeSpan(20 * MILLI, 40 * MILLI));
    }
}
