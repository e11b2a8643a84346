package draftwitness.cycle;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class SessionSummarizerTest {
    private static final long MS = 1_000_000;
    private static final Channel DRAFT = new Channel(Tap.DRAFT_SWITCH, "a", "pressure", Unit.PASCAL);
    private static final Channel CONTACT = new Channel(Tap.CONTACT_SWITCH, "b", "contact", Unit.CONTACT);

    @Test
    void givenPauseOverFivePeriodsAndOverASecond_whenSummarised_thenAGap() {
        // The rule: over five sample periods and over one second.
        List<Long> times = new ArrayList<>();
        every(times, 0, 10_000, 100);
        every(times, 12_500, 20_000, 100);
        assertThat(summary(times, new Random(1)).channels().get(0).gaps())
                .containsExactly(new Gap(10_000 * MS, 12_500 * MS));
    }

    @Test
    void givenPauseOfExactlyASecond_whenSummarised_thenNoGap() {
        List<Long> times = new ArrayList<>();
        every(times, 0, 10_000, 100);
        every(times, 11_000, 20_000, 100);
        assertThat(summary(times, new Random(1)).channels().get(0).gaps()).isEmpty();
    }

    @Test
    void givenSlowInstrument_whenItsPauseIsUnderFivePeriods_thenNoGap() {
        List<Long> times = new ArrayList<>();
        every(times, 0, 100_000, 2_000);
        every(times, 108_000, 200_000, 2_000);
        assertThat(summary(times, new Random(1)).channels().get(0).gaps()).isEmpty();
    }

    @Test
    void givenSameReadings_whenCutDifferently_thenSameSummary() {
        List<Long> times = new ArrayList<>();
        Random jitter = new Random(5);
        for (long t = 0; t < 600_000; t += 90 + jitter.nextInt(20)) {
            if (t % 97_000 > 3_000) {
                times.add(t);
            }
        }
        SessionSummary first = summary(times, new Random(1));
        assertThat(first.channels().get(0).gaps()).hasSizeGreaterThan(3);
        for (int seed = 2; seed < 20; seed++) {
            assertThat(summary(times, new Random(seed))).isEqualTo(first);
        }
    }

    @Test
    void givenQuietContact_whenItsSourceStays_thenNoGap_andWhenItIsAwayOverASecond_thenAGap() {
        SessionSummarizer summarizer = new SessionSummarizer();
        summarizer.begin(header());
        summarizer.slice(new Slice(
                0,
                List.of(
                        new Block(DRAFT, new Step(Unit.PASCAL, 0), new long[] {0}, new long[] {1}),
                        new Block(CONTACT, new Step(Unit.CONTACT, 0), new long[] {0}, new long[] {1})),
                List.of()));
        summarizer.slice(
                new Slice(500, List.of(), List.of(new SourceEvent("b", 50_000 * MS, SourceState.GONE, "unplugged"))));
        summarizer.slice(
                new Slice(530, List.of(), List.of(new SourceEvent("b", 53_000 * MS, SourceState.LIVE, "back"))));
        summarizer.slice(new Slice(
                600,
                List.of(new Block(CONTACT, new Step(Unit.CONTACT, 0), new long[] {60_000 * MS}, new long[] {0})),
                List.of()));
        assertThat(summarizer.summary().channels().get(1).gaps()).containsExactly(new Gap(50_000 * MS, 53_000 * MS));
    }

    private static void every(List<Long> times, long fromMs, long toMs, long stepMs) {
        for (long t = fromMs; t <= toMs; t += stepMs) {
            times.add(t);
        }
    }

    private static SessionHeader header() {
        return new SessionHeader(null, "", MS, List.of(DRAFT, CONTACT), List.of(), "");
    }

    private static SessionSummary summary(List<Long> timesMs, Random cuts) {
        SessionSummarizer summarizer = new SessionSummarizer();
        summarizer.begin(header());
        int i = 0;
        long index = 0;
        while (i < timesMs.size()) {
            int n = Math.min(1 + cuts.nextInt(50), timesMs.size() - i);
            long[] times = new long[n];
            for (int k = 0; k < n; k++) {
                times[k] = timesMs.get(i + k) * MS;
            }
            summarizer.slice(new Slice(
                    index++, List.of(new Block(DRAFT, new Step(Unit.PASCAL, 1), times, new long[n])), List.of()));
            i += n;
        }
        summarizer.end();
        return summarizer.summary();
    }
}
