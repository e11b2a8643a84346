package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.app.AlarmJudge.Alarm;
import draftwitness.capture.CaptureSession;
import draftwitness.cycle.LiveReport;
import draftwitness.furnace.Scenarios;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The alarm: when it sounds, and what of. */
@Timeout(60)
class AlarmTest {

    /** Asks the judge after every slice, as the program does now and then. */
    private static List<Alarm> alarmsOf(String scenario, long seconds) throws Exception {
        LiveReport report = new LiveReport(Sessions.setupOf(Scenarios.find(scenario)));
        AlarmJudge judge = new AlarmJudge();
        List<Alarm> alarms = new ArrayList<>();
        SessionListener asking = new SessionListener() {
            @Override
            public void begin(SessionHeader header) {}

            @Override
            public void slice(Slice slice) {
                judge.news(report.snapshot()).ifPresent(alarms::add);
            }

            @Override
            public void end() {
                judge.news(report.snapshot()).ifPresent(alarms::add);
            }
        };
        CaptureSession session = Sessions.simulated(scenario, 1, seconds * 1_000_000_000L, List.of(report, asking));
        session.start();
        assertThat(session.awaitEnd(40, TimeUnit.SECONDS)).isTrue();
        assertThat(session.stop()).isTrue();
        return alarms;
    }

    @Test
    void givenAHealthyHouse_whenItHeats_thenTheAlarmIsSilent() throws Exception {
        assertThat(alarmsOf("healthy-calm", 600)).isEmpty();
    }

    @Test
    void givenTheDemoHouse_whenItsSwitchFlutters_thenTheAlarmTells() throws Exception {
        assertThat(alarmsOf("demo-house", 600)).contains(Alarm.FLUTTER);
    }

    @Test
    void givenTheSounds_whenMade_thenTheyAreShortDifferAndDoNotClip() {
        byte[] lockout = AlarmTone.samples(Alarm.LOCKOUT);
        byte[] flutter = AlarmTone.samples(Alarm.FLUTTER);
        assertThat(lockout).isNotEqualTo(flutter);
        for (byte[] sound : List.of(lockout, flutter)) {
            assertThat(sound.length / 2.0 / AlarmTone.RATE).isBetween(0.5, 2.5);
            int loudest = 0;
            for (int i = 0; i + 1 < sound.length; i += 2) {
                loudest = Math.max(loudest, Math.abs((sound[i + 1] << 8) | (sound[i] & 0xFF)));
            }
            assertThat(loudest).isBetween(15_000, 25_000);
            assertThat(sound[0]).isZero(); // begins from silence: no click
        }
    }
}
