package draftwitness.dashboard.view;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.dashboard.AnswerBook;
import draftwitness.dashboard.CycleMark;
import draftwitness.dashboard.EpisodeMark;
import draftwitness.dashboard.Findings;
import draftwitness.dashboard.Theme;
import draftwitness.diagnosis.Answer;
import java.awt.Component;
import java.awt.Rectangle;
import java.awt.event.MouseEvent;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** What the furnace does, pressed and looked at in the real window, with the model house behind it. */
class StoryWindowTest extends OpenWindow {
    private static House demo;

    @BeforeAll
    static void run() {
        Bench.needDisplay();
        demo = House.of("demo-house", Duration.ofSeconds(800));
    }

    private LanesView lanes() {
        return bench.find(LanesView.class, "lanes");
    }

    private Rectangle onContent(Component of, Rectangle area) {
        return Bench.on(() -> SwingUtilities.convertRectangle(
                of, area, bench.window().window().getContentPane()));
    }

    @Test
    void givenTheDemoLive_whenItRunsOn_thenTheSequenceIsToldAndCyclesAppearAndEpisodesAnnounceThemselves() {
        House.Shown shown = demo.begin();
        demo.play(shown, 0, 20);
        bench.showLive(shown);
        SequenceView sequence = bench.find(SequenceView.class, "sequence");
        assertThat(sequence.line().phase()).isEqualTo("Pre-purge");
        assertThat(sequence.line().next()).startsWith("Next: ");
        assertThat(sequence.line().attempt()).isEqualTo("attempt 1 of 3");
        demo.play(shown, 20, 60);
        bench.settle();
        assertThat(sequence.line().phase()).isEqualTo("Burner on");
        assertThat(lanes().frame().happenings().cycles())
                .singleElement()
                .satisfies(c -> assertThat(c.open()).isTrue());
        demo.play(shown, 60, 360);
        bench.settle();
        demo.play(shown, 360, 480);
        bench.settle();
        assertThat(lanes().frame().happenings().cycles()).hasSizeGreaterThan(1);
        assertThat(bench.find(Component.class, "notice").isVisible()).isTrue();
        bench.press("notice.show");
        assertThat(bench.model.controls().following()).isFalse();
        bench.press("notice.dismiss");
        assertThat(bench.find(Component.class, "notice").isVisible()).isFalse();
    }

    @Test
    void givenARecording_whenOpened_thenItStandsOnItsWorstMomentAndItIsMarkedOnTheStrip() {
        bench.showRecording(demo, demo.told());
        EpisodeMark worst = bench.model.story().notice().orElseThrow().episode();
        assertThat(worst.word()).isEqualTo("Flutter");
        assertThat(lanes().frame().headNanos()).isEqualTo(worst.span().fromNanos());
        LanesView lanes = lanes();
        Rectangle plot = Bench.on(() -> lanes.layoutNow().places().get(3).plot());
        assertThat(Pixels.count(
                        bench.picture(),
                        onContent(lanes, plot),
                        Theme.LIGHT.palette().danger()))
                .isGreaterThan(60);
    }

    @Test
    void givenARecording_whenEpisodesAndCyclesAreSteppedThrough_thenEachIsShownInTurnAndTheEndsHold() {
        bench.showRecording(demo, demo.told());
        bench.act(() -> bench.model.goTo(0));
        List<EpisodeMark> seen = new ArrayList<>();
        while (Bench.on(() -> bench.model.stepEpisode(true))) {
            seen.add(bench.model.story().notice().orElseThrow().episode());
            bench.settle();
        }
        assertThat(seen).hasSize(bench.model.story().episodeCount()).doesNotHaveDuplicates();
        bench.act(() -> bench.model.goTo(0));
        bench.press("cycle.after");
        CycleMark first = bench.model.story().happenings().cycles().get(0);
        assertThat(lanes().frame().headNanos()).isEqualTo(first.span().fromNanos());
        assertThat(lanes().frame().window().contains(first.span().toNanos())).isTrue();
    }

    @Test
    void givenTheRowOfCycles_whenACycleIsPressed_thenItFillsTheStrips() {
        bench.showRecording(demo, demo.told());
        OverviewView row = bench.find(OverviewView.class, "overview");
        CycleMark second = bench.model.story().happenings().cycles().get(1);
        int x = (int) row.xOf((second.span().fromNanos() + second.span().toNanos()) / 2);
        bench.act(() -> {
            row.dispatchEvent(new MouseEvent(row, MouseEvent.MOUSE_PRESSED, 1, 0, x, 20, 1, false, 1));
            row.dispatchEvent(new MouseEvent(row, MouseEvent.MOUSE_RELEASED, 1, 0, x, 20, 1, false, 1));
        });
        double share =
                second.span().lengthNanos() / (double) lanes().frame().window().lengthNanos();
        assertThat(share).isBetween(0.85, 0.95);
        Rectangle whole = new Rectangle(0, 0, row.getWidth(), row.getHeight());
        assertThat(Pixels.count(
                        bench.picture(),
                        onContent(row, whole),
                        Theme.LIGHT.palette().danger()))
                .isGreaterThan(100);
    }

    @Test
    void givenFindings_whenWhyIsOpenedAndACheckAnsweredAndTakenBack_thenCausesFollowAndTheAnswerIsKept() {
        List<String> kept = new ArrayList<>();
        bench.showRecording(demo, demo.told(), new Kept(kept));
        bench.press("findings");
        bench.settle();
        Findings before = Bench.on(bench.model::found);
        assertThat(before.seen()).isNotEmpty();
        assertThat(before.causes()).isNotEmpty();
        assertThat(before.checks()).isNotEmpty();
        String cause = before.causes().get(0).id();
        bench.press("cause." + cause + ".why");
        assertThat(bench.find(Component.class, "cause." + cause + ".why.0").isShowing())
                .isTrue();
        Findings.Check check = before.checks().get(0);
        bench.press("answer." + check.id() + "." + check.outcomes().get(0).id());
        bench.settle();
        Findings after = Bench.on(bench.model::found);
        assertThat(after.answers()).hasSize(1);
        assertThat(after.causes()).isNotEqualTo(before.causes());
        assertThat(kept).containsExactly("keep " + check.id());
        bench.press("findings.undo");
        bench.settle();
        assertThat(Bench.on(bench.model::found).causes()).isEqualTo(before.causes());
        assertThat(kept).containsExactly("keep " + check.id(), "remove " + check.id());
        bench.press("seen.0.go");
        assertThat(lanes().isShowing()).isTrue();
    }

    private record Kept(List<String> log) implements AnswerBook {
        @Override
        public List<Answer> kept() {
            return List.of();
        }

        @Override
        public void keep(Answer answer) {
            log.add("keep " + answer.check());
        }

        @Override
        public void remove(String check) {
            log.add("remove " + check);
        }
    }
}
