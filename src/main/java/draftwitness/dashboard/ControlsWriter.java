package draftwitness.dashboard;

import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Writes what the bars around the strips show. Pure. */
final class ControlsWriter {
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE d MMM yyyy, HH:mm", Locale.ENGLISH);

    private final ZoneId zone;

    ControlsWriter(ZoneId zone) {
        this.zone = zone;
    }

    /** The controls of one moment; {@code appliance} is the setup's title, empty when there is none. */
    Controls write(
            @Nullable Stage stage,
            @Nullable ShownSession session,
            String appliance,
            Viewport viewport,
            TimeSpan window,
            @Nullable String banner,
            boolean measuring,
            boolean atStart,
            Settings settings) {
        RecordControl record = stage == null ? null : stage.record();
        ReplayControl replay = stage == null ? null : stage.replay();
        RecordControl.Status status = record == null ? null : record.status();
        ReplayControl.Status at = replay == null ? null : replay.status();
        RecordControl.State state = status == null ? RecordControl.State.UNAVAILABLE : status.state();
        return new Controls(
                title(stage, session, appliance),
                state(stage, session, status),
                tone(state),
                state == RecordControl.State.RECORDING,
                state == RecordControl.State.IDLE || state == RecordControl.State.FAILED,
                state == RecordControl.State.RECORDING,
                at != null,
                at != null && at.playing(),
                at == null ? 1 : at.speed(),
                position(stage, session, viewport, window),
                viewport.isFollowing(),
                choice(viewport),
                Figures.duration(window.lengthNanos()),
                banner,
                measuring,
                stage != null,
                atStart,
                settings);
    }

    private static @Nullable SpanChoice choice(Viewport viewport) {
        for (SpanChoice choice : SpanChoice.values()) {
            if (choice.nanos() == viewport.lengthNanos()) {
                return choice;
            }
        }
        return null;
    }

    private static String title(@Nullable Stage stage, @Nullable ShownSession session, String appliance) {
        if (stage == null) {
            return Words.get("title.nothing");
        }
        String title = session == null ? "" : session.header().title();
        if (!title.isEmpty()) {
            return title;
        }
        return appliance.isEmpty() ? stage.name() : appliance;
    }

    private String state(@Nullable Stage stage, @Nullable ShownSession session, RecordControl.@Nullable Status status) {
        if (stage == null) {
            return Words.get("state.nothing");
        }
        return status == null ? replayState(stage, session) : recordState(status);
    }

    private String replayState(Stage stage, @Nullable ShownSession session) {
        if (session == null) {
            return Words.get("state.replay", stage.name(), "", "");
        }
        Instant start = session.header().start();
        String when = start == null ? Words.get("start.unknown") : DAY.format(start.atZone(zone));
        String length = Figures.duration(session.windows().extent().lengthNanos());
        return Words.get("state.replay", stage.name(), when, length);
    }

    private static String recordState(RecordControl.Status status) {
        Path file = status.file();
        String name = file == null ? "" : String.valueOf(file.getFileName());
        String elapsed = Figures.elapsed(status.elapsedNanos());
        String size = Figures.size(status.bytes());
        return switch (status.state()) {
            case UNAVAILABLE -> Words.get("state.unavailable");
            case IDLE -> file == null ? Words.get("state.live") : Words.get("state.kept", name, elapsed, size);
            case STARTING -> Words.get("state.starting", name);
            case RECORDING -> Words.get("state.recording", name, elapsed, size);
            case STOPPING -> Words.get("state.stopping", name);
            case FAILED -> Words.get("state.failed", name, elapsed, size);
        };
    }

    private static Tone tone(RecordControl.State state) {
        return switch (state) {
            case FAILED -> Tone.DANGER;
            case RECORDING, STOPPING, STARTING -> Tone.NORMAL;
            case UNAVAILABLE, IDLE -> Tone.QUIET;
        };
    }

    private String position(@Nullable Stage stage, @Nullable ShownSession session, Viewport viewport, TimeSpan window) {
        if (stage == null || session == null) {
            return "";
        }
        long head = stage.headNanos(session);
        long from = session.windows().extent().fromNanos();
        String elapsed = Figures.elapsed(head - from);
        Instant start = session.header().start();
        if (stage.replay() == null && !viewport.isFollowing()) {
            return Words.get(
                    "position.held",
                    Figures.timeOfDay(start, window.fromNanos(), zone),
                    Figures.timeOfDay(start, window.toNanos(), zone));
        }
        return start == null ? elapsed : Words.get("position", Figures.timeOfDay(start, head, zone), elapsed);
    }
}
