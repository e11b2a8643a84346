package draftwitness.cycle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.input.InputException;
import draftwitness.reading.Tap;
import draftwitness.setup.Setup;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** One trace drawn by hand for each kind of episode, and for the awkward ways in which sessions come. */
class EpisodeTest {
    private static final double NANOS = 1e9;

    /** A cycle from 20 s to about 240 s: cold plateau 380 Pa, gas from 54 s to 200 s, hot plateau 340 Pa. */
    private static double plain(double t) {
        return MadeSession.cycle(t, 20, 200);
    }

    private static double plainGas(double t) {
        return t > 54 && t < 200 ? 870 : 0;
    }

    private static MadeSession session(double seconds, DoubleUnaryOperator draft, DoubleUnaryOperator manifold) {
        return new MadeSession(seconds)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(draft))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(draft))
                .channel(Tap.GAS_MANIFOLD, 10, manifold);
    }

    private static MadeSession plainSession() {
        return session(300, EpisodeTest::plain, EpisodeTest::plainGas);
    }

    private static List<Episode> of(CycleReport report, EpisodeKind kind) {
        return report.cycles().stream()
                .flatMap(c -> c.episodes().stream())
                .filter(e -> e.kind() == kind)
                .toList();
    }

    private static Setup setup(String more) {
        try {
            return Setup.parse(
                    "test",
                    "[switch]\nset-point = \"240 Pa\"\ndifferential = \"20 Pa\"\ntolerance = \"12 Pa\"\n"
                            + "[sequence]\nretry-max = 60\n" + more);
        } catch (InputException e) {
            throw new IllegalStateException(e);
        }
    }

    private static CycleReport report(MadeSession session, String more) {
        return session.report(setup(more), new Random(0), 0, 1);
    }

    @Test
    void givenPlainCycle_whenRead_thenNoEpisodeAtAll() {
        assertThat(plainSession().report().cycles()).singleElement().satisfies(c -> {
            assertThat(c.outcome()).isEqualTo(Outcome.HEATED);
            assertThat(c.episodes()).isEmpty();
        });
    }

    @Test
    void givenInletLowForThreeSeconds_whenRead_thenOneGasSagWithItsDepth_butNoneForHalfASecond() {
        CycleReport sagged = plainSession()
                .channel(Tap.GAS_INLET, 10, t -> t > 100 && t < 103 ? 1300 : 1700)
                .report();
        assertThat(of(sagged, EpisodeKind.GAS_SAG)).singleElement().satisfies(e -> {
            assertThat(e.startNanos() / NANOS).isCloseTo(100, within(0.2));
            assertThat((e.endNanos() - e.startNanos()) / NANOS).isCloseTo(3, within(0.2));
            assertThat(e.evidence().depthPascals()).isCloseTo(400, within(1.0));
            assertThat(e.phase()).isEqualTo(Phase.RUN);
            assertThat(e.text()).contains("1700 Pa").contains("1300 Pa").contains("into run");
        });
        CycleReport brief = plainSession()
                .channel(Tap.GAS_INLET, 10, t -> t > 100 && t < 100.5 ? 1300 : 1700)
                .report();
        assertThat(of(brief, EpisodeKind.GAS_SAG)).isEmpty();
    }

    @Test
    void givenManifoldAFifthTooHigh_whenRead_thenGasOffTarget_andNoneFivePercentOff() {
        String plate = "[gas]\nkind = \"natural\"\nmanifold = \"870 Pa\"\n";
        CycleReport high = report(session(300, EpisodeTest::plain, t -> 1.2 * plainGas(t)), plate);
        assertThat(of(high, EpisodeKind.GAS_OFF_TARGET)).singleElement().satisfies(e -> {
            assertThat(e.evidence().depthPascals()).isCloseTo(174, within(1.0));
            // input goes with the root of the pressure: sqrt(1.2) = 1.095
            assertThat(e.text()).contains("20 % above 870 Pa from the plate").contains("+10 %");
        });
        CycleReport near = report(session(300, EpisodeTest::plain, t -> 1.05 * plainGas(t)), plate);
        assertThat(of(near, EpisodeKind.GAS_OFF_TARGET)).isEmpty();
    }

    @Test
    void givenManifoldSwingingWhileTheDraftIsSteady_whenRead_thenHuntingWithItsFrequency() {
        CycleReport hunting = session(
                        300, EpisodeTest::plain, t -> plainGas(t) * (1 + 0.06 * Math.sin(2 * Math.PI * 0.5 * t)))
                .report();
        assertThat(of(hunting, EpisodeKind.GAS_HUNTING)).singleElement().satisfies(e -> {
            assertThat(e.evidence().frequencyHertz()).isCloseTo(0.5, within(0.03));
            assertThat(e.evidence().depthPascals()).isCloseTo(2 * 0.06 * 870, within(6.0));
        });
        assertThat(of(plainSession().report(), EpisodeKind.GAS_HUNTING)).isEmpty();
    }

    @Test
    void givenSuctionFadingOverTwoMinutesOfARun_whenRead_thenDrift_andNoSag() {
        DoubleUnaryOperator fading =
                t -> MadeSession.cycle(t, 20, 500) + (t < 500 ? Math.max(0, Math.min(70, (t - 250) * 0.5)) : 0);
        CycleReport report =
                session(600, fading, t -> t > 54 && t < 500 ? 870 : 0).report();
        assertThat(of(report, EpisodeKind.DRIFT)).singleElement().satisfies(e -> {
            assertThat(e.evidence().depthPascals()).isCloseTo(70, within(4.0));
            assertThat(e.phase()).isEqualTo(Phase.RUN);
        });
        assertThat(of(report, EpisodeKind.SAG)).isEmpty();
    }

    @Test
    void givenDraftSteppingWhenTheBlowerStarts_whenRead_thenBlowerStep_andNoneWithoutTheStep() {
        DoubleUnaryOperator stepping = t -> plain(t) + (t > 130 && t < 200 ? 25 : 0);
        CycleReport report = session(300, stepping, EpisodeTest::plainGas)
                .channel(Tap.CONTACT_BLOWER, 10, t -> t > 130 ? 1 : 0)
                .report();
        assertThat(of(report, EpisodeKind.BLOWER_STEP)).singleElement().satisfies(e -> {
            assertThat(e.startNanos() / NANOS).isCloseTo(130, within(0.3));
            assertThat(e.evidence().depthPascals()).isCloseTo(25, within(3.0));
            assertThat(e.kind().severity()).isEqualTo(Severity.DANGER);
        });
        CycleReport none = plainSession()
                .channel(Tap.CONTACT_BLOWER, 10, t -> t > 130 ? 1 : 0)
                .report();
        assertThat(of(none, EpisodeKind.BLOWER_STEP)).isEmpty();
    }

    @Test
    void givenThirdStartFarSlowerThanTheOthers_whenRead_thenLateProvingThereOnly() {
        DoubleUnaryOperator slow = t -> {
            double u = t - 800;
            double late = u < 0 ? 0 : u < 20 ? -19 * u : MadeSession.cycle(t - 820 + 22, 20, 200);
            return MadeSession.cycle(t, 20, 200) + MadeSession.cycle(t, 400, 580) + late;
        };
        CycleReport report = new MadeSession(1200)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(slow))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(slow))
                .report();
        assertThat(of(report, EpisodeKind.LATE_PROVING)).singleElement().satisfies(e -> {
            assertThat(e.startNanos() / NANOS).isCloseTo(800, within(0.6));
            assertThat((e.endNanos() - e.startNanos()) / NANOS).isCloseTo(240 / 19.0, within(0.7));
            assertThat(e.text()).contains("usual in this session");
        });
    }

    @Test
    void givenSuctionShortOfTheSetPointForTheWholeTime_whenRead_thenNoProving_withWhatWasReached() {
        DoubleUnaryOperator weak = t -> t < 20 ? 0 : t < 90 ? -Math.min(200, 100 * (t - 20)) : -200 * Math.exp(90 - t);
        CycleReport report = new MadeSession(300)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(weak))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(weak))
                .report();
        assertThat(of(report, EpisodeKind.NO_PROVING)).singleElement().satisfies(e -> {
            assertThat(e.evidence().levelPascals()).isCloseTo(200, within(3.0));
            assertThat(e.text()).contains("set point 240 Pa");
        });
        assertThat(report.cycles().get(0).outcome()).isEqualTo(Outcome.FAILED_TO_PROVE);
    }

    @Test
    void givenDeepDipAtLightOff_whenRead_thenLightOffDipAndNoSag_andNoneForAnUsualOne() {
        DoubleUnaryOperator puff = t -> plain(t) + (t > 54.2 && t < 54.8 ? 110 : 0);
        CycleReport report = session(300, puff, EpisodeTest::plainGas).report();
        assertThat(of(report, EpisodeKind.LIGHT_OFF_DIP)).singleElement().satisfies(e -> {
            assertThat(e.startNanos() / NANOS).isCloseTo(54, within(0.3));
            assertThat(e.evidence().depthPascals()).isGreaterThan(100);
        });
        assertThat(of(report, EpisodeKind.SAG)).isEmpty();
        assertThat(of(plainSession().report(), EpisodeKind.LIGHT_OFF_DIP)).isEmpty();
    }

    @Test
    void givenSloshingDownToJustAboveTheBreakPoint_whenRead_thenNearFlutterAndNoFlutter() {
        // 340 - 100 = 240 Pa: above the break point of 220 Pa, below 220 + 24.9 Pa (0.1 in w.c.)
        DoubleUnaryOperator sloshing =
                t -> plain(t) + (t > 150 && t < 156 ? 102 * Math.max(0, Math.sin(2 * Math.PI * (t - 150))) : 0);
        CycleReport report = session(300, sloshing, EpisodeTest::plainGas).report();
        assertThat(of(report, EpisodeKind.FLUTTER)).isEmpty();
        assertThat(of(report, EpisodeKind.NEAR_FLUTTER)).singleElement().satisfies(e -> {
            assertThat(e.startNanos() / NANOS).isCloseTo(150.2, within(0.2));
            assertThat(e.evidence().transitions()).isEqualTo(12);
            assertThat(e.evidence().source()).isEqualTo("modelled");
        });
    }

    @Test
    void givenContactOpenForMillisecondsWithSteadySuction_whenRead_thenChatterAndNoFlutter() {
        DoubleUnaryOperator good = MadeSession.contactOn(EpisodeTest::plain);
        CycleReport report = new MadeSession(300)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(EpisodeTest::plain))
                .channel(Tap.CONTACT_SWITCH, 100, t -> {
                    double closed = good.applyAsDouble(t);
                    boolean opens = t > 150 && t < 154.5 && (t - 150) % 1 < 0.02;
                    return opens ? 0 : closed;
                })
                .channel(Tap.GAS_MANIFOLD, 10, EpisodeTest::plainGas)
                .report();
        assertThat(of(report, EpisodeKind.FLUTTER)).isEmpty();
        assertThat(of(report, EpisodeKind.CONTACT_CHATTER)).singleElement().satisfies(e -> {
            assertThat(e.evidence().character()).isEqualTo("contact-only");
            assertThat(e.text()).contains("not pressure");
        });
        assertThat(report.cycles().get(0).outcome()).isEqualTo(Outcome.HEATED);
    }

    @Test
    void givenTwoSecondsWithoutReadings_whenRead_thenReadingGap_butNoneForAHalf() {
        assertThat(of(gapped(150, 152), EpisodeKind.READING_GAP))
                .singleElement()
                .satisfies(e -> {
                    assertThat(e.startNanos() / NANOS).isCloseTo(150, within(0.2));
                    assertThat(e.endNanos() / NANOS).isCloseTo(152, within(0.2));
                    assertThat(e.tap()).isEqualTo(Tap.DRAFT_SWITCH);
                });
        assertThat(of(gapped(150, 150.5), EpisodeKind.READING_GAP)).isEmpty();
    }

    private static CycleReport gapped(double from, double to) {
        DoubleUnaryOperator draft = MadeSession.noisy(EpisodeTest::plain);
        return new MadeSession(300)
                .channel(Tap.DRAFT_SWITCH, 20, t -> t > from && t < to ? Double.NaN : draft.applyAsDouble(t))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(EpisodeTest::plain))
                .channel(Tap.GAS_MANIFOLD, 10, EpisodeTest::plainGas)
                .report();
    }

    @Test
    void givenRecordingThatBeginsMidRun_whenRead_thenOneCycleFromTheFirstReading_andNoLateProving() {
        CycleReport report =
                session(200, t -> plain(t + 100), t -> plainGas(t + 100)).report();
        assertThat(report.cycles()).singleElement().satisfies(c -> {
            assertThat(c.startNanos() / NANOS).isCloseTo(0, within(0.1));
            assertThat(c.outcome()).isEqualTo(Outcome.HEATED);
            assertThat(c.margin().minPascals()).isCloseTo(340.3 - MadeSession.SET, within(2.0));
            assertThat(c.episodes()).isEmpty();
        });
    }

    @Test
    void givenRecordingCutJustAfterTheInducerStops_whenRead_thenTheFallingSuctionIsNoSag() {
        CycleReport report =
                session(215.5, EpisodeTest::plain, EpisodeTest::plainGas).report();
        assertThat(of(report, EpisodeKind.SAG)).isEmpty();
    }

    @Test
    void givenTwoStageInducer_whenItGoesFromLowToHigh_thenNeitherSagNorDrift() {
        DoubleUnaryOperator staged = t -> plain(t) + (t > 56 && t < 150 ? 80 : 0);
        CycleReport report = report(session(300, staged, EpisodeTest::plainGas), "[inducer]\nstages = 2\n");
        assertThat(report.cycles()).singleElement().satisfies(c -> {
            assertThat(c.outcome()).isEqualTo(Outcome.HEATED);
            assertThat(c.episodes()).isEmpty();
        });
    }

    @Test
    void givenShortCyclesWithACallContact_whenPausesAreShorterThanARetry_thenEachCallIsACycle() {
        DoubleUnaryOperator draft = t -> {
            double sum = 0;
            for (int i = 0; i < 4; i++) {
                sum += MadeSession.cycle(t, 20 + 140 * i, 20 + 140 * i + 80);
            }
            return sum;
        };
        DoubleUnaryOperator gas = t -> (t - 20) % 140 > 34 && (t - 20) % 140 < 80 && t > 20 && t < 560 ? 870 : 0;
        CycleReport report = session(700, draft, gas)
                .channel(Tap.CONTACT_CALL, 10, t -> (t - 20) % 140 < 80 && t > 20 && t < 560 ? 1 : 0)
                .report();
        assertThat(report.cycles()).hasSize(4).extracting(Cycle::outcome).containsOnly(Outcome.HEATED);
    }

    @Test
    void givenContactStuckClosedAfterALostDraft_whenTheControlWaitsForIt_thenTheNextStartIsTheSameCall() {
        DoubleUnaryOperator draft = t -> MadeSession.cycle(t, 20, 100) + MadeSession.cycle(t, 240, 400);
        DoubleUnaryOperator good = MadeSession.contactOn(draft);
        DoubleUnaryOperator stuck = t -> {
            double state = good.applyAsDouble(t);
            return t > 99.5 && t < 101 ? 0 : t >= 101 && t < 210 ? 1 : state;
        };
        CycleReport report = new MadeSession(520)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(draft))
                .channel(Tap.CONTACT_SWITCH, 50, stuck)
                .channel(Tap.GAS_MANIFOLD, 10, t -> (t > 54 && t < 100) || (t > 274 && t < 400) ? 870 : 0)
                .report();
        // 125 s without the inducer are longer than a retry, but only 30 s of them passed with the contact open.
        assertThat(report.cycles()).singleElement().satisfies(c -> {
            assertThat(c.attempts()).isEqualTo(2);
            assertThat(c.outcome()).isEqualTo(Outcome.HEATED);
        });
    }

    @Test
    void givenThreeWholeTrialsWithoutFlame_whenRead_thenLockoutForIgnition_butGasShutEarlyIsTheEndOfTheCall() {
        DoubleUnaryOperator draft =
                t -> t < 20 ? 0 : t < 170 ? -Math.min(380, 190 * (t - 20)) : -380 * Math.exp(170 - t);
        CycleReport failed = session(
                        400, draft, t -> (t > 54 && t < 59) || (t > 90 && t < 95) || (t > 126 && t < 131) ? 870 : 0)
                .report();
        assertThat(failed.cycles()).singleElement().satisfies(c -> {
            assertThat(c.outcome()).isEqualTo(Outcome.LOCKOUT);
            assertThat(c.reason()).isEqualTo(Outcome.FAILED_TO_LIGHT);
            assertThat(c.attempts()).isEqualTo(3);
        });
        CycleReport ended = session(400, draft, t -> t > 54 && t < 57 ? 870 : 0).report();
        assertThat(ended.cycles())
                .singleElement()
                .satisfies(c -> assertThat(c.outcome()).isEqualTo(Outcome.HEATED));
    }

    @Test
    void givenZeroThatMovesDuringTheRun_whenRead_thenTheMarginIsThatOfTheTrueSuction() {
        DoubleUnaryOperator moving = t -> plain(t) + 8 + 3.0 * t / 60;
        CycleReport report = new MadeSession(300)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(moving))
                .channel(Tap.GAS_MANIFOLD, 10, EpisodeTest::plainGas)
                .report();
        assertThat(report.cycles().get(0).margin().minPascals()).isCloseTo(340.3 - MadeSession.SET, within(2.0));
    }

    @Test
    void givenWindMovingTheIdle_whenRead_thenItsChanceLevelIsNotTakenOffAsAZero() {
        // A slow gust stands at 12 Pa while little is seen of the idle, and has gone when the inducer runs.
        DoubleUnaryOperator windy = t -> plain(t) - (t < 20 ? 9 + 4 * Math.sin(2 * Math.PI * t / 9) : 0);
        CycleReport report = new MadeSession(300)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(windy))
                .channel(Tap.GAS_MANIFOLD, 10, EpisodeTest::plainGas)
                .report();
        assertThat(report.cycles().get(0).margin().minPascals()).isCloseTo(340.3 - MadeSession.SET, within(2.0));
    }

    @Test
    void givenNoisyInstrument_whenRead_thenTheMarginIsNotThatOfTheNoise_andARealDipKeepsItsDepth() {
        DoubleUnaryOperator noise = t -> MadeSession.noise(t, 5, 7); // 2.9 Pa standard deviation
        CycleReport quiet = new MadeSession(300)
                .channel(Tap.DRAFT_SWITCH, 10, t -> plain(t) + noise.applyAsDouble(t))
                .report();
        assertThat(quiet.cycles().get(0).margin().minPascals()).isCloseTo(340.3 - MadeSession.SET, within(3.0));
        CycleReport dipped = new MadeSession(300)
                .channel(Tap.DRAFT_SWITCH, 10, t -> plain(t) + noise.applyAsDouble(t) + (t > 150 && t < 150.6 ? 60 : 0))
                .report();
        assertThat(dipped.cycles().get(0).margin().minPascals()).isCloseTo(340.3 - MadeSession.SET - 60, within(5.0));
    }
}
