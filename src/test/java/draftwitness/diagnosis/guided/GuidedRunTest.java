package draftwitness.diagnosis.guided;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.reading.ZeroOffset;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Each guided measurement on channels drawn by hand, and the machine that runs them. */
class GuidedRunTest {
    private static final String SWITCH =
            "[switch]\nset-point = \"150 Pa\"\ndifferential = \"20 Pa\"\ntolerance = \"12 Pa\"\n";
    private static final String GAS = """
            [gas]
            manifold = "3.5 inH2O"
            low-fire-manifold = "1.7 inH2O"
            inlet-min = "5 inH2O"
            inlet-max = "10.5 inH2O"
            """;
    private static final double INCH = 249.08891;
    private final Random random = new Random(1);

    private double noise(double sigma) {
        return sigma * random.nextGaussian();
    }

    private static double value(GuidedRun run, String figure) {
        return run.result().figure(figure).orElseThrow().value();
    }

    private static double uncertainty(GuidedRun run, String figure) {
        return run.result().figure(figure).orElseThrow().uncertainty();
    }

    // ---- leak-down

    /** Suction pulled over two seconds, held for three, then pinched off. */
    private MadeRun pulled(double tau) {
        return new MadeRun()
                .channel(Tap.DRAFT_SWITCH, 50, t -> {
                    double p = t < 2 ? 150 * t : t < 5 ? 300 : 300 * Math.exp(-(t - 5) / tau);
                    return -p + noise(0.5);
                })
                .terms(Terms.of(MadeRun.plate(SWITCH)));
    }

    @Test
    void givenALeakOfTwoSeconds_whenMeasured_thenItsTimeConstantWithinTheUncertainty_andAWarning() {
        MadeRun made = pulled(1.5);
        GuidedRun run = made.start(GuidedKind.LEAK_DOWN);
        made.take("decay", 60);
        assertThat(run.isComplete()).isTrue();
        assertThat(value(run, "time-constant")).isCloseTo(1.5, within(uncertainty(run, "time-constant") + 0.01));
        assertThat(uncertainty(run, "time-constant")).isLessThan(0.05);
        assertThat(run.result().grade()).isEqualTo(Grade.FAULT);
        assertThat(run.result().verdict()).startsWith("It leaks: time constant 1.5");
        // V/tau of 20 mL, and as room air at the set point.
        assertThat(value(run, "conductance")).isCloseTo(20e-6 / 1.5, within(1e-7));
        assertThat(value(run, "air-at-set-point")).isCloseTo(20e-6 / 1.5 * 150 / 101_325, within(1e-10));
    }

    @Test
    void givenATightTube_whenMeasured_thenItHoldsAndOnlyALeastTimeConstantIsTold() {
        MadeRun made = pulled(1e9);
        GuidedRun run = made.start(GuidedKind.LEAK_DOWN);
        made.take("decay", 60);
        assertThat(run.result().grade()).isEqualTo(Grade.FINE);
        assertThat(run.result().verdict()).startsWith("It holds: no loss could be measured in 5");
        assertThat(uncertainty(run, "time-constant")).isNaN();
        assertThat(value(run, "time-constant")).isGreaterThan(1000);
    }

    @Test
    void givenASlowLeak_whenMeasured_thenTightEnough() {
        MadeRun made = pulled(40);
        GuidedRun run = made.start(GuidedKind.LEAK_DOWN);
        made.take("decay", 60);
        assertThat(value(run, "time-constant")).isCloseTo(40, within(0.5));
        assertThat(run.result().grade()).isEqualTo(Grade.FINE);
    }

    @Test
    void givenHardlyAnySuction_whenMeasured_thenNothingIsDecided() {
        MadeRun made = new MadeRun().channel(Tap.DRAFT_SWITCH, 50, t -> -10 * Math.exp(-t / 3));
        GuidedRun run = made.start(GuidedKind.LEAK_DOWN);
        made.take("decay", 60);
        assertThat(run.result().grade()).isEqualTo(Grade.UNDECIDED);
        assertThat(run.result().verdict()).contains("too little");
    }

    @Test
    void givenAKnownVolumeAndRise_whenReckonedAsFlow_thenTheRulesOwnExample() {
        // 40 CFR 1065.644: 2.000 L from 25.300 to 50.600 kPa in 70 s at 293.15 K; as a p-V flow 0.722857 Pa m3/s, and
        // with R = 8.314472 J/(mol K) 2.9657e-4 mol/s (the rule prints 0.00030).
        double flow = LeakDown.pressureVolumeFlow(2.000e-3, (50_600.0 - 25_300.0) / 70);
        assertThat(flow).isCloseTo(0.722857, within(1e-6));
        assertThat(flow / 8.314472 / 293.15).isCloseTo(2.9657e-4, within(1e-8));
    }

    // ---- switch points

    /** Triangles of suction, 0 to 250 Pa at 10 Pa/s; the switch makes and breaks as told, 20 ms bounce at each make. */
    private MadeRun ramps(double make, double breaks) {
        boolean[] closed = {false};
        double[] since = {-1};
        return new MadeRun()
                .channel(Tap.DRAFT_SWITCH, 20, t -> -triangle(t) + noise(0.3))
                .channel(Tap.CONTACT_SWITCH, 100, t -> {
                    double p = triangle(t);
                    boolean next = closed[0] ? p > breaks : p >= make;
                    since[0] = next != closed[0] ? t : since[0];
                    closed[0] = next;
                    boolean bouncing = closed[0] && t - since[0] > 0.005 && t - since[0] < 0.015;
                    return closed[0] && !bouncing ? 1 : 0;
                })
                .terms(Terms.of(MadeRun.plate(SWITCH)));
    }

    private static double triangle(double t) {
        double phase = t % 50;
        return phase < 25 ? 10 * phase : 10 * (50 - phase);
    }

    @Test
    void givenThreeRampsOfAGoodSwitch_whenMeasured_thenMakeBreakAndDifferential_andItEndsByItself() {
        MadeRun made = ramps(152, 131);
        GuidedRun run = made.start(GuidedKind.SWITCH_POINTS);
        made.take("ramps", 600);
        assertThat(made.nowNanos()).isLessThan(150 * MadeRun.SECOND);
        assertThat(value(run, "make")).isCloseTo(152, within(1.0));
        assertThat(value(run, "break")).isCloseTo(131, within(1.0));
        assertThat(value(run, "differential")).isCloseTo(21, within(1.0));
        assertThat(value(run, "ramps")).isEqualTo(3);
        assertThat(run.result().grade()).isEqualTo(Grade.FINE);
        assertThat(run.result().verdict()).contains("The switch tells the truth");
    }

    @Test
    void givenADriftedSwitch_whenMeasured_thenFarOffItsRating() {
        MadeRun made = ramps(190, 170);
        GuidedRun run = made.start(GuidedKind.SWITCH_POINTS);
        made.take("ramps", 600);
        assertThat(run.result().grade()).isEqualTo(Grade.FAULT);
        assertThat(value(run, "off-set-point")).isCloseTo(40, within(1.0));
    }

    @Test
    void givenAContactThatChangesWithoutARamp_whenMeasured_thenThoseAreLeftOutAndTold() {
        MadeRun made = new MadeRun()
                .channel(Tap.DRAFT_SWITCH, 20, t -> -200 + noise(0.1))
                .channel(Tap.CONTACT_SWITCH, 20, t -> (long) t % 4 < 2 ? 1 : 0);
        GuidedRun run = made.start(GuidedKind.SWITCH_POINTS);
        run.begin("ramps", 0);
        made.play(20);
        run.stop(made.nowNanos());
        assertThat(run.result().grade()).isEqualTo(Grade.UNDECIDED);
        assertThat(run.result().verdict()).contains("changes without a ramp");
    }

    // ---- two taps

    /** The inducer starts at 5 s; the switch sees a share of it, through a first-order lag. */
    private MadeRun twoTaps(double share, double lagSeconds) {
        double[] held = {0, 0};
        return new MadeRun()
                .channel(Tap.DRAFT_INDUCER, 20, t -> inducer(t) + noise(0.5))
                .channel(Tap.DRAFT_SWITCH, 20, t -> {
                    double step = 0.05;
                    held[0] += (share * inducer(t) - held[0]) * Math.min(1, step / Math.max(step, lagSeconds));
                    return held[0] + noise(0.5);
                });
    }

    private static double inducer(double t) {
        double on = t < 5 ? 0 : -250 * (1 - Math.exp(-(t - 5) / 0.8));
        return on * (1 + 0.03 * Math.sin(2 * Math.PI * 0.7 * t) + 0.02 * Math.sin(2 * Math.PI * 0.23 * t));
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # share, lag, grade, what the verdict must say
            1.00, 0.0, FINE,  passes on
            0.70, 0.0, FAULT, leak
            1.00, 3.0, FAULT, narrowed
            """)
    void givenSwitchAndInducer_whenCompared_thenTheTubeIsJudged(double share, double lag, Grade grade, String says) {
        MadeRun made = twoTaps(share, lag);
        GuidedRun run = made.start(GuidedKind.TWO_TAPS);
        made.take("both", 70);
        assertThat(value(run, "ratio")).isCloseTo(share, within(0.02));
        assertThat(value(run, "lag")).isCloseTo(lag, within(lag == 0 ? 0.1 : 1.5));
        assertThat(run.result().grade()).isEqualTo(grade);
        assertThat(run.result().verdict()).contains(says);
        if (lag == 0) {
            assertThat(value(run, "coherence")).isGreaterThan(0.5);
        }
    }

    @Test
    void givenNoInducer_whenCompared_thenNothingIsDecided() {
        MadeRun made = new MadeRun()
                .channel(Tap.DRAFT_INDUCER, 20, t -> noise(0.5))
                .channel(Tap.DRAFT_SWITCH, 20, t -> noise(0.5));
        GuidedRun run = made.start(GuidedKind.TWO_TAPS);
        made.take("both", 70);
        assertThat(run.result().grade()).isEqualTo(Grade.UNDECIDED);
        assertThat(run.result().verdict()).contains("does not run");
    }

    // ---- gas

    @ParameterizedTest
    @CsvSource(textBlock = """
            # manifold over plate, change of input: orifice law, flow with the root of the pressure
            # (NFPA 54 Annex E); twice the pressure is +41 %
            2.00, 0.414214
            1.00, 0.0
            0.81, -0.1
            """)
    void givenAManifold_whenComparedWithThePlate_thenInputGoesWithTheRoot(double times, double change) {
        assertThat(GasPressures.inputChange(times * 870, 870)).isCloseTo(change, within(1e-6));
    }

    @Test
    void givenTwiceTheManifoldPressure_whenMeasured_thenFortyOnePercentMoreInput_andAFault() {
        MadeRun made = new MadeRun()
                .channel(Tap.GAS_MANIFOLD, 20, t -> 7 * INCH + noise(2))
                .terms(Terms.of(MadeRun.plate(GAS)).in(Unit.INCH_OF_WATER));
        GuidedRun run = made.start(GuidedKind.GAS);
        made.take("manifold", 40);
        assertThat(value(run, "input-change")).isCloseTo(0.4142, within(0.001));
        assertThat(run.result().grade()).isEqualTo(Grade.FAULT);
        assertThat(run.result().verdict()).contains("3.50 inH2O on the plate: input +41");
    }

    @Test
    void givenAnInletThatSagsAndARegulatorThatCreeps_whenMeasured_thenBothAreTold() {
        MadeRun made = new MadeRun()
                .channel(Tap.GAS_INLET, 20, t -> {
                    double inches = t < 10 ? 7 : t < 40 ? 5.5 : 7 + 0.01 * (t - 40);
                    return inches * INCH + noise(1);
                })
                .terms(Terms.of(MadeRun.plate(GAS)).in(Unit.INCH_OF_WATER));
        GuidedRun run = made.start(GuidedKind.GAS);
        made.take("standing", 20).take("firing", 40).take("lock-up", 40);
        assertThat(run.isComplete()).isTrue();
        assertThat(value(run, "inlet-drop")).isCloseTo(1 - 5.5 / 7, within(0.01));
        assertThat(value(run, "creep-a-minute")).isCloseTo(0.6 / 7.15, within(0.005));
        assertThat(run.result().verdict()).contains("sags by 21").contains("creeps up");
        assertThat(run.result().grade()).isEqualTo(Grade.FAULT);
    }

    // ---- static pressure, vent, before and after

    @Test
    void givenReturnSupplyFilterAndCoil_whenMeasured_thenTotalAndShares() {
        MadeRun made = new MadeRun()
                .channel(Tap.STATIC_RETURN, 10, t -> -40 + noise(0.5))
                .channel(Tap.STATIC_AFTER_FILTER, 10, t -> -90 + noise(0.5))
                .channel(Tap.STATIC_SUPPLY, 10, t -> 110 + noise(0.5))
                .channel(Tap.STATIC_BEFORE_COIL, 10, t -> 110 + noise(0.5))
                .channel(Tap.STATIC_AFTER_COIL, 10, t -> 50 + noise(0.5))
                .terms(Terms.of(MadeRun.plate("[air]\nexternal-static-max = \"0.5 inH2O\"\n")));
        GuidedRun run = made.start(GuidedKind.STATIC_PRESSURE);
        made.take("blower", 40);
        assertThat(value(run, "external-static")).isCloseTo(150, within(1.0));
        assertThat(value(run, "filter-share")).isCloseTo(0.25, within(0.01));
        assertThat(value(run, "coil-share")).isCloseTo(0.30, within(0.01));
        assertThat(run.result().grade()).isEqualTo(Grade.FAULT);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # suction with the vent on and off, grade
            200, 205, FINE
            200, 236, ATTENTION
            120, 240, FAULT
            """)
    void givenAVent_whenTakenOff_thenWhatItCostsIsTold(double on, double off, Grade grade) {
        MadeRun made = new MadeRun().channel(Tap.DRAFT_INDUCER, 20, t -> -(t < 20 ? on : off) + noise(2));
        GuidedRun run = made.start(GuidedKind.VENT_ON_OFF);
        made.take("on", 30).take("off", 30);
        assertThat(value(run, "gain")).isCloseTo(off / on - 1, within(0.02));
        assertThat(run.result().grade()).isEqualTo(grade);
    }

    @Test
    void givenBeforeAndAfter_whenCompared_thenChangeAndMargin() {
        MadeRun made = new MadeRun()
                .channel(Tap.DRAFT_SWITCH, 20, t -> (t < 60 ? -160 : -260) + noise(2))
                .terms(Terms.of(MadeRun.plate(SWITCH)));
        GuidedRun run = made.start(GuidedKind.BEFORE_AFTER);
        made.take("before", 60).take("after", 60);
        assertThat(value(run, "change")).isCloseTo(-100, within(1.0));
        assertThat(value(run, "margin-before")).isCloseTo(10, within(1.0));
        assertThat(value(run, "margin-after")).isCloseTo(110, within(1.0));
        assertThat(run.result().grade()).isEqualTo(Grade.FINE);
    }

    // ---- the machine

    @Test
    void givenAPartTakenTwice_whenJudged_thenTheSecondCounts() {
        MadeRun made = new MadeRun().channel(Tap.DRAFT_INDUCER, 20, t -> -(t < 20 ? 100 : 200));
        GuidedRun run = made.start(GuidedKind.VENT_ON_OFF);
        made.take("on", 30).take("off", 30);
        assertThat(value(run, "vent-on")).isEqualTo(-100);
        made.take("on", 30);
        assertThat(value(run, "vent-on")).isEqualTo(-200);
    }

    @Test
    void givenAPartStoppedAtOnce_whenJudged_thenTooShortIsSaid_andTheNextPartStillWaits() {
        MadeRun made = new MadeRun().channel(Tap.DRAFT_INDUCER, 20, t -> -200 + noise(1));
        GuidedRun run = made.start(GuidedKind.VENT_ON_OFF);
        made.take("on", 2);
        run.stop(made.nowNanos());
        assertThat(run.next()).isEqualTo(run.plan().parts().get(1));
        made.take("off", 30);
        assertThat(run.result().grade()).isEqualTo(Grade.UNDECIDED);
        assertThat(run.result().remarks()).anyMatch(r -> r.startsWith("on is too short: 2.0 s"));
    }

    @Test
    void givenAZeroLearnedBefore_whenMeasured_thenItIsTakenOff() {
        MadeRun made = new MadeRun().channel(Tap.STATIC_SUPPLY, 10, t -> 110).channel(Tap.STATIC_RETURN, 10, t -> -40);
        GuidedRun run = made.start(GuidedKind.STATIC_PRESSURE);
        made.event(new ZeroOffset(Tap.STATIC_SUPPLY, 10, 0, 0.1, 0, 50).event("s", SourceState.LIVE));
        made.take("blower", 40);
        assertThat(value(run, "supply")).isEqualTo(100);
    }

    @Test
    void givenWhileItRuns_whenAsked_thenProgressSteadinessAndTrace() {
        MadeRun made = new MadeRun().channel(Tap.DRAFT_INDUCER, 20, t -> t < 6 ? -40 * t : -240);
        GuidedRun run = made.start(GuidedKind.VENT_ON_OFF);
        run.begin("on", 0);
        made.play(5);
        assertThat(run.now().progress()).isCloseTo(0.25, within(0.01));
        assertThat(run.now().taps().get(0).steady()).isFalse();
        made.play(8);
        assertThat(run.now().taps().get(0).steady()).isTrue();
        assertThat(run.now().taps().get(0).value()).isEqualTo(-240);
        assertThat(run.now().trace().points()).hasSizeBetween(100, 300);
        made.play(10);
        assertThat(run.now().running()).isNull();
    }

    @Test
    void givenTooLittleConnected_whenPlanned_thenWhatIsMissingIsSaid() {
        for (GuidedKind kind : GuidedKind.values()) {
            assertThat(GuidedPlan.of(kind, Set.of(), null)).isEmpty();
            assertThat(GuidedPlan.needs(kind)).isNotBlank();
            assertThat(GuidedKind.ofId(kind.id())).contains(kind);
        }
        assertThatThrownBy(() -> new MadeRun()
                        .channel(Tap.GAS_INLET, 1, t -> 0)
                        .start(GuidedKind.GAS)
                        .begin("manifold", 0))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void givenAResult_whenWrittenAsANoteAndReadBack_thenTheSame() {
        MadeRun made = pulled(1.5);
        GuidedRun run = made.start(GuidedKind.LEAK_DOWN);
        made.take("decay", 60);
        String note = GuidedText.of(run.result());
        assertThat(note).startsWith("Measured leak-down (fault): It leaks");
        assertThat(GuidedText.parse(note)).contains(run.result());
        assertThat(GuidedText.parse("Measured again, all is well")).isEmpty();
        assertThat(GuidedText.parse("")).isEmpty();
    }

    @Test
    void givenHoursOfReadings_whenTaken_thenMemoryStaysBoundedAndLevelsStay() {
        Samples samples = new Samples(Tap.DRAFT_SWITCH);
        for (int i = 0; i < 3 * Samples.MOST; i++) {
            samples.add(i * 10_000_000L, -200 + (i % 2 == 0 ? 5 : -5), 0.1);
        }
        assertThat(samples.size()).isLessThanOrEqualTo(Samples.MOST);
        assertThat(Level.of(samples).mean()).isCloseTo(-200, within(0.01));
    }
}
