package draftwitness.app;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.Episode;
import draftwitness.cycle.EpisodeKind;
import draftwitness.cycle.LiveSnapshot;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Tells when a live session gives cause for the alarm: once for each lockout and each new flutter. One thread. */
final class AlarmJudge {

    /** What the alarm is about. */
    enum Alarm {
        LOCKOUT,
        FLUTTER
    }

    private long seen;
    private @Nullable Long lockedSince;
    private long flutterTo = Long.MIN_VALUE;

    /** What is new in a snapshot; a lockout goes before flutter. */
    Optional<Alarm> news(LiveSnapshot snapshot) {
        if (snapshot.number() == seen) {
            return Optional.empty();
        }
        seen = snapshot.number();
        Long locked = snapshot.now().lockedOutSinceNanos();
        boolean newLockout = locked != null && lockedSince == null;
        lockedSince = locked;
        long latest = latestFlutter(snapshot);
        boolean newFlutter = latest > flutterTo;
        flutterTo = Math.max(flutterTo, latest);
        if (newLockout) {
            return Optional.of(Alarm.LOCKOUT);
        }
        return newFlutter ? Optional.of(Alarm.FLUTTER) : Optional.empty();
    }

    /** When the latest flutter began. */
    private static long latestFlutter(LiveSnapshot snapshot) {
        long latest = Long.MIN_VALUE;
        for (Cycle cycle : snapshot.report().cycles()) {
            for (Episode episode : cycle.episodes()) {
                if (episode.kind() == EpisodeKind.FLUTTER) {
                    latest = Math.max(latest, episode.startNanos());
                }
            }
        }
        return latest;
    }
}
