package draftwitness.time;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.groups.Tuple.tuple;

import draftwitness.time.AwakeTicker.Jump;
import draftwitness.time.AwakeTicker.Why;
import java.time.Duration;
import java.time.Instant;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class AwakeTickerTest {
    private static final long SECOND = 1_000_000_000;

    /** A computer whose three clocks are turned by hand. */
    private static final class Computer implements Ticker {
        private long nanos = 77;
        private Instant wall = Instant.parse("2026-01-17T22:10:00Z");
        private OptionalLong boot = OptionalLong.of(5000 * SECOND);

        void runs(double seconds) {
            nanos += Math.round(seconds * SECOND);
            sleeps(seconds);
        }

        void sleeps(double seconds) {
            wall = wall.plusNanos(Math.round(seconds * SECOND));
            if (boot.isPresent()) {
                boot = OptionalLong.of(boot.getAsLong() + Math.round(seconds * SECOND));
            }
        }

        @Override
        public long nanos() {
            return nanos;
        }

        @Override
        public Instant wallClock() {
            return wall;
        }

        @Override
        public long realNanos(long tickerNanos) {
            return tickerNanos;
        }

        @Override
        public boolean hasMachinesWallClock() {
            return true;
        }

        @Override
        public OptionalLong sinceBootNanos() {
            return boot;
        }
    }

    private final Computer computer = new Computer();

    @Test
    void givenComputerThatSleepsForANight_whenAsked_thenTheClockJumpsAheadByTheNight_andItIsTold() {
        AwakeTicker ticker = new AwakeTicker(computer);
        long start = ticker.nanos();
        computer.runs(10);
        computer.sleeps(8 * 3600);
        assertThat(ticker.nanos() - start).isEqualTo((8 * 3600 + 10) * SECOND);
        computer.runs(1);
        assertThat(ticker.nanos() - start).isEqualTo((8 * 3600 + 11) * SECOND);
        Jump jump = ticker.takeJumps().get(0);
        assertThat(jump.why()).isEqualTo(Why.SLEPT);
        assertThat(jump.atNanos() - start).isEqualTo(10 * SECOND);
        assertThat(jump.ahead()).isEqualTo(Duration.ofHours(8));
        assertThat(ticker.takeJumps()).isEmpty();
    }

    @Test
    void givenWallClockThatIsSet_whenAsked_thenNothingJumps_andBothReadingsAreTold() {
        AwakeTicker ticker = new AwakeTicker(computer);
        long start = ticker.nanos();
        computer.runs(10);
        computer.wall = computer.wall.plus(Duration.ofHours(7));
        assertThat(ticker.nanos() - start).isEqualTo(10 * SECOND);
        computer.wall = computer.wall.minus(Duration.ofHours(9));
        assertThat(ticker.nanos() - start).isEqualTo(10 * SECOND);
        assertThat(ticker.takeJumps())
                .extracting(Jump::why, Jump::ahead)
                .containsExactly(tuple(Why.SET, Duration.ofHours(7)), tuple(Why.SET, Duration.ofHours(-9)));
    }

    @Test
    void givenNothingThatCountsSleep_whenTheWallClockIsAhead_thenToldAsUnknown_andNothingJumps() {
        computer.boot = OptionalLong.empty();
        AwakeTicker ticker = new AwakeTicker(computer);
        long start = ticker.nanos();
        computer.sleeps(3600);
        assertThat(ticker.nanos() - start).isZero();
        assertThat(ticker.takeJumps().get(0).why()).isEqualTo(Why.UNKNOWN);
    }

    @Test
    void givenClocksThatPartALittle_whenAsked_thenNothingIsTold() {
        AwakeTicker ticker = new AwakeTicker(computer);
        computer.sleeps(1.9);
        long unused = ticker.nanos();
        assertThat(ticker.takeJumps()).isEmpty();
    }

    @Test
    void givenTheMachinesOwnClock_whenAsked_thenTimeSinceItsStartIsKnownOnLinux() {
        boolean linux = System.getProperty("os.name", "").startsWith("Linux");
        assertThat(Ticker.system().sinceBootNanos().isPresent()).isEqualTo(linux);
        assertThat(Ticker.system().fromZero().sinceBootNanos().isPresent()).isEqualTo(linux);
    }
}
