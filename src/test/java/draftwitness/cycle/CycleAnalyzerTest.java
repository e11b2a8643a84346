package draftwitness.cycle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.reading.Tap;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

class CycleAnalyzerTest {
    private static final double NANOS = 1e9;

    private static double two(double t) {
        return MadeSession.cycle(t, 20, 200) + MadeSession.cycle(t, 400, 600);
    }

    private static double gas(double t) {
        return (t > 54 && t < 200) || (t > 434 && t < 600) ? 870 : 0;
    }

    private static MadeSession session(DoubleUnaryOperator draft) {
        return new MadeSession(700)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(draft))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(draft))
                .channel(Tap.GAS_MANIFOLD, 10, CycleAnalyzerTest::gas);
    }

    /** Sloshing that takes the draft below the break point several times, 1.25 a second, from 150 s to 158 s. */
    private static double sloshing(double t) {
        return t > 150 && t < 158 ? two(t) + 150 * Math.max(0, Math.sin(2 * Math.PI * 1.25 * (t - 150))) : two(t);
    }

    private static List<Episode> of(CycleReport report, EpisodeKind kind) {
        return report.cycles().stream()
                .flatMap(c -> c.episodes().stream())
                .filter(e -> e.kind() == kind)
                .toList();
    }

    @Test
    void givenTwoPlainCycles_whenRead_thenTwoHeatedCyclesWithTheirEdgesAndMargins() {
        CycleReport report = session(CycleAnalyzerTest::two).report();
        assertThat(report.cycles()).extracting(Cycle::outcome).containsExactly(Outcome.HEATED, Outcome.HEATED);
        Cycle first = report.cycles().get(0);
        assertThat(first.startNanos() / NANOS).isCloseTo(20, within(0.5));
        // exp(-t/1.2) of 370 Pa is at 1 % of the plateau after 5.5 s
        assertThat(first.endNanos() / NANOS).isCloseTo(215 + 5.5, within(0.7));
        assertThat(first.attempts()).isEqualTo(1);
        assertThat(first.phases())
                .extracting(PhaseSpan::phase)
                .containsExactly(Phase.SPIN_UP, Phase.PRE_PURGE, Phase.IGNITER_WARM_UP, Phase.RUN, Phase.POST_PURGE);
        assertThat(first.margin()).isNotNull();
        assertThat(first.margin().minPascals()).isCloseTo(340.3 - MadeSession.SET, within(2.0));
        assertThat(first.margin().band()).isEqualTo(Band.MODEST);
        assertThat(first.episodes()).isEmpty();
        assertThat(report.cycles()).allMatch(c -> c.index() == 1 || !c.complete() || c.index() == 2);
    }

    @Test
    void givenDraftAlone_whenRead_thenTheSameOutcomes_andNoPhaseThatItCannotTell() {
        CycleReport report = new MadeSession(700)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(CycleAnalyzerTest::two))
                .report();
        assertThat(report.cycles()).extracting(Cycle::outcome).containsExactly(Outcome.HEATED, Outcome.HEATED);
        assertThat(report.cycles().get(0).phases())
                .extracting(PhaseSpan::phase)
                .doesNotContain(Phase.TRIAL, Phase.IGNITER_WARM_UP)
                .contains(Phase.RUN);
    }

    @Test
    void givenSloshing_whenTheContactFlutters_thenOnePeriodicFlutterWithItsFrequency() {
        CycleReport report = session(CycleAnalyzerTest::sloshing).report();
        assertThat(of(report, EpisodeKind.FLUTTER)).hasSize(1);
        Episode flutter = of(report, EpisodeKind.FLUTTER).get(0);
        assertThat(flutter.startNanos() / NANOS).isCloseTo(150.2, within(0.3));
        assertThat(flutter.endNanos() / NANOS).isCloseTo(157.9, within(0.5));
        assertThat(flutter.evidence().transitions()).isEqualTo(20); // ten swings, out and back
        assertThat(flutter.evidence().frequencyHertz()).isCloseTo(1.25, within(0.05));
        assertThat(flutter.evidence().character()).isEqualTo("periodic");
        assertThat(flutter.evidence().source()).isEqualTo("contact");
        assertThat(flutter.text()).contains("into run").contains("set point 240 Pa");
    }

    @Test
    void givenNoContact_whenTheDraftSloshes_thenTheModelledSwitchFlutters() {
        CycleReport report = new MadeSession(700)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(CycleAnalyzerTest::sloshing))
                .channel(Tap.GAS_MANIFOLD, 10, CycleAnalyzerTest::gas)
                .report();
        assertThat(of(report, EpisodeKind.FLUTTER))
                .singleElement()
                .satisfies(e -> assertThat(e.evidence().source()).isEqualTo("modelled"));
    }

    @Test
    void givenAnyCuts_whenRead_thenTheSameReportToTheLastDigit() {
        MadeSession session = session(CycleAnalyzerTest::sloshing);
        CycleReport whole = session.report();
        assertThat(of(whole, EpisodeKind.FLUTTER)).isNotEmpty();
        for (int seed = 1; seed <= 12; seed++) {
            assertThat(session.report(MadeSession.setup(MadeSession.SET, 1), new Random(seed), 0, 1))
                    .as("cuts of seed %d", seed)
                    .isEqualTo(whole);
        }
    }

    @Test
    void givenAllTimesShifted_whenRead_thenAllResultsShiftWithThem() {
        MadeSession session = session(CycleAnalyzerTest::sloshing);
        CycleReport plain = session.report();
        CycleReport shifted = session.report(MadeSession.setup(MadeSession.SET, 1), new Random(0), 1000, 1);
        assertThat(shifted.cycles()).hasSameSizeAs(plain.cycles());
        for (int i = 0; i < plain.cycles().size(); i++) {
            Cycle a = plain.cycles().get(i);
            Cycle b = shifted.cycles().get(i);
            assertThat(b.startNanos() - a.startNanos()).isEqualTo(1_000_000_000_000L);
            assertThat(b.endNanos() - a.endNanos()).isEqualTo(1_000_000_000_000L);
            assertThat(b.margin()).isEqualTo(a.margin());
            assertThat(b.episodes())
                    .extracting(e -> e.startNanos() - 1_000_000_000_000L)
                    .isEqualTo(a.episodes().stream().map(Episode::startNanos).toList());
        }
    }

    @Test
    void givenPressuresAndRatingScaled_whenRead_thenTimesStay_andMarginsScale() {
        MadeSession session = new MadeSession(700)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(CycleAnalyzerTest::sloshing))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(CycleAnalyzerTest::sloshing));
        CycleReport plain = session.report();
        CycleReport tripled = session.report(MadeSession.setup(MadeSession.SET, 3), new Random(0), 0, 3);
        for (int i = 0; i < plain.cycles().size(); i++) {
            Cycle a = plain.cycles().get(i);
            Cycle b = tripled.cycles().get(i);
            assertThat(b.startNanos()).isEqualTo(a.startNanos());
            assertThat(b.endNanos()).isEqualTo(a.endNanos());
            assertThat(b.outcome()).isEqualTo(a.outcome());
            assertThat(b.margin().minPascals()).isCloseTo(3 * a.margin().minPascals(), within(1e-6));
            assertThat(b.margin().p01Pascals()).isCloseTo(3 * a.margin().p01Pascals(), within(1e-6));
        }
        assertThat(of(tripled, EpisodeKind.FLUTTER)).hasSameSizeAs(of(plain, EpisodeKind.FLUTTER));
    }

    @Test
    void givenGapInTheSecondCycle_whenRead_thenTheFirstIsUntouched_andTheGapIsTold() {
        CycleReport plain = session(CycleAnalyzerTest::two).report();
        CycleReport gapped = new MadeSession(700)
                .channel(
                        Tap.DRAFT_SWITCH,
                        20,
                        t -> t > 500 && t < 507
                                ? Double.NaN
                                : MadeSession.noisy(CycleAnalyzerTest::two).applyAsDouble(t))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(CycleAnalyzerTest::two))
                .channel(Tap.GAS_MANIFOLD, 10, CycleAnalyzerTest::gas)
                .report();
        assertThat(gapped.cycles().get(0)).isEqualTo(plain.cycles().get(0));
        assertThat(gapped.cycles().get(1).outcome()).isEqualTo(Outcome.HEATED);
        assertThat(of(gapped, EpisodeKind.READING_GAP)).hasSize(1);
    }

    @Test
    void givenReversedSensor_whenRead_thenItIsSaid_andTheMarginIsTheSame() {
        CycleReport plain = session(CycleAnalyzerTest::two).report();
        CycleReport reversed = new MadeSession(700)
                .channel(
                        Tap.DRAFT_SWITCH,
                        20,
                        t -> -MadeSession.noisy(CycleAnalyzerTest::two).applyAsDouble(t))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(CycleAnalyzerTest::two))
                .channel(Tap.GAS_MANIFOLD, 10, CycleAnalyzerTest::gas)
                .report();
        assertThat(reversed.findings()).extracting(Finding::kind).contains("reversed-sign");
        assertThat(plain.findings()).extracting(Finding::kind).doesNotContain("reversed-sign");
        assertThat(reversed.cycles().get(0).margin().minPascals())
                .isCloseTo(plain.cycles().get(0).margin().minPascals(), within(1e-6));
    }

    @Test
    void givenZeroOffset_whenRead_thenItIsTakenOffTheMargin() {
        CycleReport plain = session(CycleAnalyzerTest::two).report();
        CycleReport offset = new MadeSession(700)
                .channel(
                        Tap.DRAFT_SWITCH,
                        20,
                        t -> 25 + MadeSession.noisy(CycleAnalyzerTest::two).applyAsDouble(t))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(CycleAnalyzerTest::two))
                .channel(Tap.GAS_MANIFOLD, 10, CycleAnalyzerTest::gas)
                .report();
        assertThat(offset.cycles().get(0).margin().minPascals())
                .isCloseTo(plain.cycles().get(0).margin().minPascals(), within(0.1));
    }

    @Test
    void givenHoseBumpedAndSpikesAtIdle_whenRead_thenNoCycle() {
        DoubleUnaryOperator bumped = t -> (t > 100 && t < 100.6) || Math.abs(t - 300) < 0.03 ? -250 : 0;
        CycleReport report = new MadeSession(500)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(bumped))
                .report();
        assertThat(report.cycles()).isEmpty();
    }

    @Test
    void givenGustsBothWaysBetweenCycles_whenRead_thenStillTwoCycles() {
        DoubleUnaryOperator gusty = t -> {
            double gust = t > 280 && t < 290 ? 60 : t > 310 && t < 320 ? -60 : 0;
            return two(t) + gust;
        };
        CycleReport report = session(gusty).report();
        assertThat(report.cycles()).extracting(Cycle::outcome).containsExactly(Outcome.HEATED, Outcome.HEATED);
    }

    @Test
    void givenAskedWhileItGoesOn_whenRead_thenTheLastCycleIsProvisional_andTheEarlierOnesAreFinal() {
        CycleReport part = new MadeSession(500)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(CycleAnalyzerTest::two))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(CycleAnalyzerTest::two))
                .channel(Tap.GAS_MANIFOLD, 10, CycleAnalyzerTest::gas)
                .report();
        CycleReport whole = session(CycleAnalyzerTest::two).report();
        assertThat(part.cycles().get(0)).isEqualTo(whole.cycles().get(0));
        assertThat(part.cycles().get(0).complete()).isTrue();
        assertThat(part.cycles().get(1).complete()).isFalse();
    }

    @Test
    void givenSuctionShortOfTheSetPointThreeTimes_whenRead_thenLockoutBecauseItDidNotProve() {
        DoubleUnaryOperator weak = t -> {
            for (int i = 0; i < 3; i++) {
                double start = 20 + i * 100;
                if (t >= start && t < start + 60) {
                    return -Math.min(180, 90 * (t - start));
                }
                if (t >= start + 60 && t < start + 100) {
                    return -180 * Math.exp(-(t - start - 60));
                }
            }
            return 0;
        };
        CycleReport report = new MadeSession(600)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(weak))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(weak))
                .report();
        assertThat(report.cycles()).singleElement().satisfies(c -> {
            assertThat(c.outcome()).isEqualTo(Outcome.LOCKOUT);
            assertThat(c.reason()).isEqualTo(Outcome.FAILED_TO_PROVE);
            assertThat(c.attempts()).isEqualTo(3);
            assertThat(c.margin()).isNull();
        });
        assertThat(of(report, EpisodeKind.NO_PROVING)).hasSize(3);
        assertThat(report.lockouts()).hasSize(1);
    }

    @Test
    void givenWeakHalfSecondInTheRun_whenRead_thenOneSagWithDepthAndPhase() {
        DoubleUnaryOperator sagging = t -> t > 150 && t < 150.8 ? two(t) + 80 : two(t);
        Episode sag = of(session(sagging).report(), EpisodeKind.SAG).get(0);
        assertThat(of(session(sagging).report(), EpisodeKind.SAG)).hasSize(1);
        assertThat(sag.startNanos() / NANOS).isCloseTo(150, within(0.1));
        assertThat((sag.endNanos() - sag.startNanos()) / NANOS).isCloseTo(0.8, within(0.1));
        assertThat(sag.evidence().depthPascals()).isCloseTo(80, within(3.0));
        assertThat(sag.phase()).isEqualTo(Phase.RUN);
    }

    @Test
    void givenContactOpenWithFullSuction_whenRead_thenContactAndPressureDisagree() {
        DoubleUnaryOperator good = MadeSession.contactOn(CycleAnalyzerTest::two);
        CycleReport report = new MadeSession(700)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(CycleAnalyzerTest::two))
                .channel(
                        Tap.CONTACT_SWITCH,
                        50,
                        t -> t > 120 && t < 123 ? 0 * good.applyAsDouble(t) : good.applyAsDouble(t))
                .channel(Tap.GAS_MANIFOLD, 10, CycleAnalyzerTest::gas)
                .report();
        assertThat(of(report, EpisodeKind.CONTACT_DISAGREES)).singleElement().satisfies(e -> {
            assertThat(e.startNanos() / NANOS).isCloseTo(120, within(0.1));
            assertThat(e.text()).contains("open").contains("set point 240 Pa");
        });
    }

    @Test
    void givenContactClosedInStandby_whenRead_thenAFindingAndNoCycle() {
        CycleReport report = new MadeSession(200)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(t -> 0))
                .channel(Tap.CONTACT_SWITCH, 50, t -> 1)
                .report();
        assertThat(report.cycles()).isEmpty();
        assertThat(report.findings())
                .filteredOn(f -> f.kind().equals("contact-closed-in-standby"))
                .singleElement()
                .satisfies(f -> assertThat(f.severity()).isEqualTo(Severity.DANGER));
    }

    @Test
    void givenRecordingThatEndsMidRun_whenRead_thenIncomplete() {
        CycleReport report = new MadeSession(150)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(CycleAnalyzerTest::two))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(CycleAnalyzerTest::two))
                .channel(Tap.GAS_MANIFOLD, 10, CycleAnalyzerTest::gas)
                .report();
        assertThat(report.cycles()).singleElement().satisfies(c -> {
            assertThat(c.outcome()).isEqualTo(Outcome.INCOMPLETE);
            assertThat(c.complete()).isFalse();
        });
    }

    @Test
    void givenNoSetPoint_whenRead_thenNoMargin_andItIsSaid() {
        CycleReport report =
                session(CycleAnalyzerTest::two).report(draftwitness.setup.Setup.defaults(), new Random(0), 0, 1);
        assertThat(report.cycles()).allMatch(c -> c.margin() == null);
        assertThat(report.findings()).extracting(Finding::kind).contains("no-set-point");
    }
}
