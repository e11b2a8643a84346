package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.diagnosis.Answer;
import draftwitness.diagnosis.guided.GuidedKind;
import draftwitness.diagnosis.guided.GuidedResult;
import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The screen of guided measurements without a screen: what a person presses and what they read. */
class GuidedModelTest {
    private static final long SECOND = 1_000_000_000L;

    private final List<String> failures = new ArrayList<>();
    private final List<GuidedResult> kept = new ArrayList<>();
    private final GuidedModel model = new GuidedModel(Runnable::run, Runnable::run, failures::add);
    private final FurnaceFeed house = FurnaceFeed.usual();
    private final GuidedFeed feed = new GuidedFeed();

    private void live() {
        feed.begin(house.header());
        model.live(feed, (result, told) -> {
            kept.add(result);
            told.accept("kept");
        });
    }

    private void play(int from, int to) {
        for (int cell = from; cell < to; cell++) {
            feed.slice(house.slice(cell));
        }
    }

    private GuidedScreen screen() {
        return model.screen(UnitChoice.PASCAL);
    }

    @Test
    void givenALiveSession_whenTwoTapsAreCompared_thenStepsFiguresVerdictNoteAndAnswer() {
        live();
        model.open(MadeSetups.usual(), new TimeSpan(0, SECOND));
        assertThat(screen().choices()).hasSize(GuidedKind.values().length);
        assertThat(screen().choices().stream().filter(GuidedScreen.Choice::usable))
                .extracting(GuidedScreen.Choice::kind)
                .contains(GuidedKind.TWO_TAPS, GuidedKind.SWITCH_POINTS, GuidedKind.GAS)
                .doesNotContain(GuidedKind.STATIC_PRESSURE);
        assertThat(model.choose(GuidedKind.TWO_TAPS)).isTrue();
        assertThat(screen().hoses()).containsExactly(Tap.DRAFT_SWITCH, Tap.DRAFT_INDUCER);
        assertThat(screen().go()).isEqualTo(GuidedScreen.Go.GO);
        assertThat(screen().cautions()).anyMatch(c -> c.contains("Carbon monoxide"));
        model.go();
        play(0, 300);
        GuidedScreen half = screen();
        assertThat(half.go()).isEqualTo(GuidedScreen.Go.STOP);
        assertThat(half.progress()).isBetween(0.45, 0.55);
        assertThat(half.figure()).startsWith("\u22122").endsWith("Pa");
        assertThat(half.verdict()).contains("of the suction arrives");
        play(300, 620);
        GuidedScreen done = screen();
        assertThat(done.go()).isEqualTo(GuidedScreen.Go.AGAIN);
        assertThat(done.verdict()).startsWith("switch against inducer: 80");
        assertThat(done.verdictTone()).isEqualTo(Tone.DANGER);
        assertThat(done.rows()).extracting(GuidedScreen.Row::label).contains("Result", "Arrives", "Late by");
        assertThat(screen().kept()).isEqualTo("kept");
        assertThat(kept).hasSize(1);
        assertThat(model.answers()).extracting(Answer::check).containsExactly("two-tap");
        assertThat(model.answers().get(0).outcome()).isEqualTo("fraction");
    }

    @Test
    void givenARunningStep_whenStopped_thenItEndsAndWhatWasReadCounts() {
        live();
        model.open(MadeSetups.usual(), new TimeSpan(0, SECOND));
        model.choose(GuidedKind.VENT_ON_OFF);
        play(0, 300);
        model.go();
        play(300, 400);
        model.go();
        assertThat(screen().go()).isEqualTo(GuidedScreen.Go.GO);
        assertThat(screen().steps()).extracting(GuidedScreen.Step::taken).containsExactly(true, false);
        assertThat(screen().steps()).extracting(GuidedScreen.Step::chosen).containsExactly(false, true);
        assertThat(kept).isEmpty();
        model.back();
        assertThat(screen().kind()).isNull();
        model.back();
        assertThat(model.isOpen()).isFalse();
    }

    @Test
    void givenANextCheck_whenStarted_thenItsMeasurementOpens_andAChoiceWhenItIsALook() {
        assertThat(model.startGuided("two-tap", MadeSetups.usual(), new TimeSpan(0, SECOND)))
                .isFalse();
        live();
        assertThat(model.startGuided("two-tap", MadeSetups.usual(), new TimeSpan(0, SECOND)))
                .isTrue();
        assertThat(screen().kind()).isEqualTo(GuidedKind.TWO_TAPS);
        assertThat(model.startGuided("manifold", MadeSetups.usual(), new TimeSpan(0, SECOND)))
                .isTrue();
        assertThat(screen().kind()).isEqualTo(GuidedKind.GAS);
        assertThat(model.startGuided("look-vent", MadeSetups.usual(), new TimeSpan(0, SECOND)))
                .isFalse();
        assertThat(model.isOpen()).isTrue();
    }

    @Test
    void givenARecording_whenASpanIsRead_thenTheSameVerdictAsLive_andAnEmptySpanIsRefused() {
        model.recording(
                house.header(),
                (run, part, span, cancelled) -> {
                    run.begin(part, span.fromNanos(), span.toNanos());
                    for (int cell = 0; cell < span.toNanos() / SECOND * 10; cell++) {
                        run.slice(house.slice(cell));
                    }
                    run.stop(span.toNanos());
                },
                (result, told) -> kept.add(result));
        model.open(MadeSetups.usual(), new TimeSpan(0, 60 * SECOND));
        model.choose(GuidedKind.TWO_TAPS);
        assertThat(screen().span()).isEqualTo(new GuidedScreen.SpanText("0:00:00", "0:01:00"));
        model.span("1:00", "0:30");
        model.go();
        assertThat(failures).hasSize(1);
        model.span("0", "1:00");
        model.go();
        assertThat(screen().verdict()).startsWith("switch against inducer: 80");
        assertThat(kept).hasSize(1);
    }
}
