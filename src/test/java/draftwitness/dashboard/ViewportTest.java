package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class ViewportTest {
    private static final long SECOND = 1_000_000_000L;
    private static final TimeSpan HOUR = new TimeSpan(0, 3600 * SECOND);

    @Test
    void givenALiveSession_whenFollowed_thenTheNewestIsNearTheRightEdge() {
        TimeSpan shown = Viewport.following(SpanChoice.MINUTES_2).window(HOUR, 3600 * SECOND, true);
        assertThat(shown.lengthNanos()).isEqualTo(120 * SECOND);
        assertThat(shown.contains(3600 * SECOND)).isTrue();
        assertThat(shown.toNanos() - 3600 * SECOND).isLessThan(5 * SECOND);
    }

    @Test
    void givenAShortLiveSession_whenFollowed_thenItFillsFromTheLeft() {
        TimeSpan extent = new TimeSpan(0, 10 * SECOND);
        assertThat(Viewport.following(SpanChoice.MINUTE_1).window(extent, 10 * SECOND, true))
                .isEqualTo(new TimeSpan(0, 60 * SECOND));
    }

    @Test
    void givenARecording_whenItsEndIsFollowed_thenNothingBeyondTheEndIsShown() {
        Viewport view = Viewport.following(SpanChoice.MINUTES_2);
        assertThat(view.window(HOUR, 3600 * SECOND, false).toNanos()).isEqualTo(3600 * SECOND);
        assertThat(view.window(HOUR, 0, false).fromNanos()).isZero();
        TimeSpan middle = view.window(HOUR, 1800 * SECOND, false);
        assertThat(middle.contains(1800 * SECOND)).isTrue();
        assertThat(middle.toNanos()).isEqualTo(1830 * SECOND);
    }

    @Test
    void givenAll_whenTheSessionGrows_thenAllOfItIsShown() {
        assertThat(Viewport.following(SpanChoice.ALL).window(HOUR, 3600 * SECOND, true))
                .isEqualTo(HOUR);
    }

    @Test
    void givenAHeldPart_whenTimeGoesOn_thenItStays() {
        TimeSpan part = new TimeSpan(100 * SECOND, 130 * SECOND);
        Viewport held = Viewport.following(SpanChoice.MINUTE_1).hold(part);
        assertThat(held.isFollowing()).isFalse();
        assertThat(held.window(HOUR, 3600 * SECOND, true)).isEqualTo(part);
        assertThat(held.follow().isFollowing()).isTrue();
        assertThat(held.follow().lengthNanos()).isEqualTo(30 * SECOND);
    }

    @Test
    void givenAnyZoom_whenDone_thenTheMomentAtThePointerStaysThere() {
        SplittableRandom random = new SplittableRandom(5);
        for (int i = 0; i < 200; i++) {
            long from = random.nextLong(1000 * SECOND);
            TimeSpan shown = new TimeSpan(from, from + random.nextLong(SECOND, 1000 * SECOND));
            long anchor = shown.fromNanos() + random.nextLong(shown.lengthNanos());
            Viewport zoomed = Viewport.following(SpanChoice.ALL).zoom(shown, random.nextDouble(0.2, 5), anchor);
            TimeSpan after = zoomed.window(HOUR, 0, true);
            double before = (anchor - shown.fromNanos()) / (double) shown.lengthNanos();
            double now = (anchor - after.fromNanos()) / (double) after.lengthNanos();
            assertThat(Math.abs(now - before)).as("round %d", i).isLessThan(1e-6);
        }
    }

    @Test
    void givenEndlessZooming_whenDone_thenTheLengthStaysWithinItsLimits() {
        TimeSpan shown = HOUR;
        for (int i = 0; i < 100; i++) {
            shown = Viewport.following(SpanChoice.ALL).zoom(shown, 0.5, 0).window(HOUR, 0, true);
        }
        assertThat(shown.lengthNanos()).isEqualTo(Viewport.SHORTEST_NANOS);
        for (int i = 0; i < 100; i++) {
            shown = Viewport.following(SpanChoice.ALL).zoom(shown, 2, 0).window(HOUR, 0, true);
        }
        assertThat(shown.lengthNanos()).isEqualTo(Viewport.LONGEST_NANOS);
    }
}
