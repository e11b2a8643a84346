package draftwitness.cycle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

class LiveReportTest {
    private static final double NANOS = 1e9;

    private static double three(double t) {
        return MadeSession.cycle(t, 20, 200) + MadeSession.cycle(t, 400, 600) + MadeSession.cycle(t, 800, 980);
    }

    private static double gas(double t) {
        return (t > 54 && t < 200) || (t > 434 && t < 600) || (t > 834 && t < 980) ? 870 : 0;
    }

    private static MadeSession session(double seconds) {
        return new MadeSession(seconds)
                .channel(Tap.DRAFT_SWITCH, 20, MadeSession.noisy(LiveReportTest::three))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(LiveReportTest::three))
                .channel(Tap.GAS_MANIFOLD, 10, LiveReportTest::gas);
    }

    /** All snapshots of a session, one for each publication. */
    private static List<LiveSnapshot> snapshots(MadeSession session, Random cuts) {
        LiveReport live = new LiveReport(MadeSession.setup(MadeSession.SET, 1));
        List<LiveSnapshot> out = new ArrayList<>();
        session.feed(live, cuts, 0, 1, () -> {
            LiveSnapshot now = live.snapshot();
            if (out.isEmpty() || now.number() != out.get(out.size() - 1).number()) {
                out.add(now);
            }
        });
        out.add(live.snapshot());
        return out;
    }

    private static Now at(List<LiveSnapshot> all, double seconds) {
        Now found = all.get(0).now();
        for (LiveSnapshot s : all) {
            if (s.now().atNanos() <= seconds * NANOS) {
                found = s.now();
            }
        }
        return found;
    }

    @Test
    void givenSession_whenOver_thenTheLastSnapshotIsTheReportOfTheWhole() {
        List<LiveSnapshot> all = snapshots(session(1100), new Random(1));
        LiveSnapshot last = all.get(all.size() - 1);
        assertThat(last.ended()).isTrue();
        assertThat(last.report().cycles()).hasSize(3);
        assertThat(last.report()).isEqualTo(session(1100).report());
        assertThat(all.get(all.size() - 2).ended()).isFalse();
    }

    @Test
    void givenTwoCyclesDone_whenTheThirdGoesOn_thenPhaseAttemptAndExpectationAreTold() {
        List<LiveSnapshot> all = snapshots(session(1100), new Random(2));

        Now standby = at(all, 700);
        assertThat(standby.phase()).isEqualTo(Phase.STANDBY);
        assertThat(standby.sinceNanos() / NANOS).isCloseTo(615 + 5.5, within(1.0));
        assertThat(standby.attempt()).isZero();
        assertThat(standby.contactMade()).isFalse();
        assertThat(standby.suctionPascals()).isCloseTo(0, within(3.0));

        Now purge = at(all, 810);
        assertThat(purge.phase()).isEqualTo(Phase.PRE_PURGE);
        assertThat(purge.cycle()).isEqualTo(3);
        assertThat(purge.attempt()).isEqualTo(1);
        assertThat(purge.suctionMade()).isTrue();
        assertThat(purge.contactMade()).isTrue();
        assertThat(purge.suctionPascals()).isCloseTo(380, within(4.0));
        assertThat(purge.next().phase()).isEqualTo(Phase.IGNITER_WARM_UP);
        assertThat(purge.next().learnt()).isTrue();

        Now warming = at(all, 830);
        assertThat(warming.next().phase()).isEqualTo(Phase.TRIAL);
        assertThat(warming.next().expectedNanos() / NANOS)
                .isCloseTo(834, within(1.0)); // gas opens 34 s after the start

        Now run = at(all, 900);
        assertThat(run.phase()).isEqualTo(Phase.RUN);
        assertThat(run.sinceNanos() / NANOS).isCloseTo(834, within(0.5));
        assertThat(run.next().phase()).isEqualTo(Phase.POST_PURGE);
        // the two runs before lasted 146 s and 166 s
        assertThat(run.next().expectedNanos() / NANOS).isCloseTo(834 + 156, within(1.5));

        assertThat(at(all, 990).phase()).isEqualTo(Phase.POST_PURGE);
        assertThat(at(all, 1010).phase()).isEqualTo(Phase.STANDBY);
    }

    @Test
    void givenFirstCycle_whenNothingIsLearntYet_thenTheSetupTellsWhatIsExpected() {
        Now purge = at(snapshots(session(100), new Random(3)), 30);
        assertThat(purge.phase()).isEqualTo(Phase.PRE_PURGE);
        assertThat(purge.next().learnt()).isFalse();
        assertThat((purge.next().expectedNanos() - purge.sinceNanos()) / NANOS).isEqualTo(15.0); // setup's pre-purge
    }

    @Test
    void givenAllAttemptsUsedUp_whenNothingMoves_thenLockedOut_untilTheNextStart() {
        DoubleUnaryOperator weak = t -> {
            double draft = 0;
            for (int i = 0; i < 3; i++) {
                double u = t - 20 - 100 * i;
                draft -= u < 0 ? 0 : u < 60 ? Math.min(180, 90 * u) : 180 * Math.exp(-(u - 60));
            }
            return draft + MadeSession.cycle(t, 600, 700);
        };
        MadeSession session = new MadeSession(650)
                .channel(Tap.DRAFT_SWITCH, 20, t -> weak.applyAsDouble(t) + MadeSession.noise(t, 1.5, 1))
                .channel(Tap.CONTACT_SWITCH, 50, MadeSession.contactOn(weak));
        List<LiveSnapshot> all = snapshots(session, new Random(4));
        assertThat(at(all, 110).phase()).isEqualTo(Phase.RECYCLE);
        assertThat(at(all, 110).next().phase()).isEqualTo(Phase.SPIN_UP);
        assertThat(at(all, 150).attempt()).isEqualTo(2);
        assertThat(at(all, 150).phase()).isEqualTo(Phase.SPIN_UP);
        assertThat(at(all, 150).suctionMade()).isFalse();
        assertThat(at(all, 400).phase()).isEqualTo(Phase.LOCKOUT);
        assertThat(at(all, 400).lockedOut()).isTrue();
        assertThat(at(all, 400).attempt()).isEqualTo(3);
        assertThat(at(all, 590).lockedOut()).isTrue();
        assertThat(at(all, 620).lockedOut()).isFalse();
        assertThat(at(all, 620).phase()).isEqualTo(Phase.PRE_PURGE);
    }

    @Test
    void givenLongRun_whenPublished_thenTheReportIsMadeEverMoreSeldom_butWhereItStandsIsNot() {
        MadeSession session = new MadeSession(1800)
                .channel(Tap.DRAFT_SWITCH, 20, t -> MadeSession.cycle(t, 20, 1790) + MadeSession.noise(t, 1.5, 1))
                .channel(Tap.GAS_MANIFOLD, 10, t -> t > 54 && t < 1790 ? 870 : 0);
        List<LiveSnapshot> all = snapshots(session, new Random(5));
        assertThat(all).hasSizeGreaterThan(3500); // twice a second
        long reports = all.stream()
                .filter(s -> s.now().atNanos() > 20 * NANOS && s.now().atNanos() < 1790 * NANOS)
                .map(LiveSnapshot::reportAtNanos)
                .distinct()
                .count();
        // 30 in the first 15 s, then one for each growth by a thirtieth: 30 ln(1770 / 15) = 143
        assertThat(reports).isBetween(100L, 200L);
    }

    @Test
    void givenNothingYet_whenAsked_thenAnEmptySnapshotNumberZero() {
        LiveSnapshot first = new LiveReport(MadeSession.setup(MadeSession.SET, 1)).snapshot();
        assertThat(first.number()).isZero();
        assertThat(first.now().phase()).isNull();
        assertThat(first.report().cycles()).isEmpty();
    }
}
