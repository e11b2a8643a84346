package draftwitness.capture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** All delays are injected by {@link Arrivals}; the true times are known. */
class SampleClockTest {
    private static final long MS = 1_000_000;

    static Stream<Function<Random, Arrivals.Delay>> links() {
        return Stream.of(Arrivals::plain, Arrivals::adapter, Arrivals::radio);
    }

    @ParameterizedTest
    @MethodSource("links")
    void givenAnyLinkAndAnyLosses_whenTimed_thenTimesIncreaseAndAreNeverLaterThanArrival(
            Function<Random, Arrivals.Delay> link) {
        for (int seed = 0; seed < 20; seed++) {
            Random random = new Random(seed);
            Arrivals all = Arrivals.of(3000, 50, 1e-3 * (random.nextDouble() - 0.5), link.apply(random));
            SampleClock clock = new SampleClock(all.periodNanos);
            long last = Long.MIN_VALUE;
            for (int k = 0; k < all.size(); k++) {
                if (random.nextDouble() < 0.05) {
                    continue;
                }
                long time = clock.sampleNanos(k, all.arrived[k]);
                assertThat(time).as("seed %d, message %d", seed, k).isGreaterThan(last);
                // Messages that arrive together while the line is sought may follow by single nanoseconds.
                assertThat(time - all.arrived[k])
                        .as("seed %d, message %d", seed, k)
                        .isLessThan(100);
                last = time;
            }
        }
    }

    @Test
    void givenNoDelayAtAll_whenTimed_thenTimesAreTheArrivals() {
        SampleClock clock = new SampleClock(20 * MS);
        for (int k = 0; k < 5000; k++) {
            assertThat(clock.sampleNanos(100 + k, 7 * MS + k * 20L * MS)).isEqualTo(7 * MS + k * 20L * MS);
        }
        assertThat(clock.skew()).isZero();
    }

    @Test
    void givenClockOffBy200Millionths_whenSettled_thenTheSlopeFindsIt() {
        Arrivals all = Arrivals.of(3000, 50, 200e-6, Arrivals.plain(new Random(3)));
        SampleClock clock = new SampleClock(all.periodNanos);
        for (int k = 0; k < all.size(); k++) {
            clock.sampleNanos(k, all.arrived[k]);
        }
        assertThat(clock.isSettled()).isTrue();
        assertThat(clock.skew()).isCloseTo(200e-6, within(10e-6));
    }

    @Test
    void givenStallOf800Milliseconds_whenItsMessagesArriveTogether_thenTheyKeepTheirPace() {
        Arrivals all = Arrivals.of(1000, 50, 0, (k, t) -> k >= 500 && k < 540 ? 3.3e9 + 540 * 20e6 : t + 0.1e6);
        SampleClock clock = new SampleClock(all.periodNanos);
        for (int k = 0; k < all.size(); k++) {
            long time = clock.sampleNanos(k, all.arrived[k]);
            assertThat(all.errorMillis(k, (double) time)).isCloseTo(0, within(0.001));
        }
        assertThat(all.errorMillis(500, (double) all.arrived[500])).isGreaterThan(799); // what arrivals alone would say
    }

    @Test
    void givenOneSecondOfOddlyEarlyBlocks_whenTimed_thenTheLowerQuartileDoesNotHangOnIt() {
        // Arrivals cannot be early; a step of the machine's clock or a wrong counter can make them look so.
        SampleClock clock = new SampleClock(20 * MS);
        long time = 0;
        for (int k = 0; k < 1500; k++) {
            boolean odd = k >= 700 && k < 750;
            time = clock.sampleNanos(k, 1000 * MS + k * 20L * MS - (odd ? 15 * MS : 0));
        }
        assertThat(time).isEqualTo(1000 * MS + 1499L * 20 * MS);
    }

    @Test
    void givenInjectedDelays_whenTimedFor10Minutes_thenErrorsAreWhatTheTableOfTheDocumentsSays() {
        // Limits about twice what the seeded table shows, so that another random generator's stream still passes.
        SampleTimesTable.Row plain = row("plain", 0);
        assertThat(plain.settled().std()).isLessThan(0.05);
        assertThat(plain.settled().max()).isLessThan(0.2);
        assertThat(plain.arrival().std()).isGreaterThan(50 * plain.settled().std());
        SampleTimesTable.Row radio = row("radio", 0);
        assertThat(radio.settled().std()).isLessThan(2);
        assertThat(radio.settled().max()).isLessThan(5);
        assertThat(radio.arrival().std()).isGreaterThan(30 * radio.settled().std());
    }

    private static SampleTimesTable.Row row(String link, double lost) {
        for (SampleTimesTable.Row row : SampleTimesTable.rows()) {
            if (row.link().equals(link) && row.lost() == lost && row.hertz() == 50 && row.skew() == 100e-6) {
                return row;
            }
        }
        throw new AssertionError("no row for " + link);
    }

    @Test
    void givenRestart_whenAnotherCounterBegins_thenTimesGoOnIncreasing() {
        SampleClock clock = new SampleClock(20 * MS);
        long before = clock.sampleNanos(5000, 1000 * MS);
        clock.restart();
        long after = clock.sampleNanos(0, 1000 * MS);
        assertThat(after).isEqualTo(before + 1);
    }

    @Test
    void givenThePageOfSampleTimes_whenItsTableIsMadeAnew_thenEachRowIsThere() throws IOException {
        String page = Files.readString(Path.of("docs/sample-times.md"));
        for (SampleTimesTable.Row row : SampleTimesTable.rows()) {
            assertThat(page).containsOnlyOnce(SampleTimesTable.text(row).strip());
        }
    }
}
