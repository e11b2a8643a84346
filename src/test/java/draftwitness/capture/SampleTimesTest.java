package draftwitness.capture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.driver.SampleRate;
import draftwitness.reading.Block;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SampleTimesTest {
    private static final long MS = 1_000_000;

    private static SampleTimes times(double hertz, SampleRate.By by) {
        SampleTimes times = new SampleTimes(Optional.of(new SampleRate(hertz, by)));
        times.restart();
        return times;
    }

    @Test
    void givenNothingDeclared_whenTimed_thenArrivals() {
        SampleTimes times = new SampleTimes(Optional.empty());
        times.restart();
        assertThat(times.timeNanos(123, 7, 8)).isEqualTo(123);
        assertThat(times.isComputed()).isFalse();
        assertThat(times.words()).isEqualTo("arrival");
    }

    @ParameterizedTest
    @ValueSource(ints = {8, 16, 32, 62})
    void givenCounterThatWrapsAround_whenSomeAreLostAndSomeStall_thenTimesAreStillRight(int bits) {
        Random random = new Random(bits);
        Arrivals all = Arrivals.of(20_000, 50, 50e-6, Arrivals.radio(random));
        SampleTimes times = times(50, SampleRate.By.COUNTER);
        long start = (1L << bits) - 1000; // wraps around after 1000 messages
        for (int k = 0; k < all.size(); k++) {
            if (random.nextDouble() < 0.03) {
                continue;
            }
            long time = times.timeNanos(all.arrived[k], (start + k) & ((1L << bits) - 1), bits);
            assertThat(times.isComputed()).isTrue();
            if (k > 500) {
                assertThat(all.errorMillis(k, (double) time))
                        .as("message %d", k)
                        .isCloseTo(0, within(8.0));
            }
        }
    }

    @Test
    void givenInstrumentThatStartsCountingAnew_whenTimed_thenTheLineBeginsAnewToo() {
        for (int at :
                new int[] {40, 500, 20_000, 40_000}) { // for 16 bits: shortly, far, half a turn, beyond half a turn
            SampleTimes times = times(50, SampleRate.By.COUNTER);
            for (int k = 0; k < at; k++) {
                long unused = times.timeNanos(k * 20L * MS, k, 16);
            }
            long gap = 3000 * MS;
            for (int k = 0; k < 500; k++) {
                long arrival = at * 20L * MS + gap + k * 20L * MS;
                assertThat(times.timeNanos(arrival, k, 16))
                        .as("counter 0 after %d, message %d", at, k)
                        .isEqualTo(arrival);
            }
        }
    }

    @Test
    void givenMessageWithoutCounter_whenTimed_thenItsArrival() {
        SampleTimes times = times(50, SampleRate.By.COUNTER);
        assertThat(times.timeNanos(100 * MS, Block.NO_COUNTER, 0)).isEqualTo(100 * MS);
        assertThat(times.isComputed()).isFalse();
    }

    @Test
    void givenPaceFarFromTheDeclaredOne_whenNoticed_thenArrivalsUntilOpenedAgain() {
        SampleTimes times = times(50, SampleRate.By.COUNTER);
        for (int k = 0; k < 300; k++) {
            long unused = times.timeNanos(k * 25L * MS, k, 16); // 40 a second
        }
        assertThat(times.timeNanos(300L * 25 * MS, 300, 16)).isEqualTo(300L * 25 * MS);
        assertThat(times.isComputed()).isFalse();
        assertThat(times.words()).contains("arrival").contains("pace");
        times.restart();
        assertThat(times.words()).contains("counter");
    }

    @Test
    void givenMissingMessagesThatNothingCounts_whenNoticed_thenArrivals() {
        SampleTimes times = times(50, SampleRate.By.ORDER);
        for (int k = 0; k < 2000; k++) {
            if (k == 1000) {
                assertThat(times.isComputed()).isTrue();
            }
            if (k != 1000) {
                long unused = times.timeNanos(k * 20L * MS, Block.NO_COUNTER, 0);
            }
        }
        assertThat(times.isComputed()).isFalse();
        assertThat(times.words()).contains("missing");
    }

    @Test
    void givenBytesKnownToBeLost_whenCountedByOrder_thenTheLineBeginsAnewAndNothingIsGivenUp() {
        SampleTimes times = times(50, SampleRate.By.ORDER);
        for (int k = 0; k < 2000; k++) {
            if (k == 1000) {
                times.lost();
            } else {
                assertThat(times.timeNanos(k * 20L * MS, Block.NO_COUNTER, 0)).isEqualTo(k * 20L * MS);
                assertThat(times.isComputed()).isTrue();
            }
        }
    }

    @Test
    void givenStallsOnly_whenCountedByOrder_thenNothingIsGivenUp() {
        Arrivals all = Arrivals.of(30_000, 50, 100e-6, Arrivals.radio(new Random(5)));
        SampleTimes times = times(50, SampleRate.By.ORDER);
        for (int k = 0; k < all.size(); k++) {
            long unused = times.timeNanos(all.arrived[k], Block.NO_COUNTER, 0);
        }
        assertThat(times.isComputed()).isTrue();
    }
}
