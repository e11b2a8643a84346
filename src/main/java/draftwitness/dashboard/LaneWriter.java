package draftwitness.dashboard;

import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.SourceState;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import java.time.Instant;
import java.time.ZoneId;
import org.jspecify.annotations.Nullable;

/** Writes what stands beside a strip. Pure; one moment of one session. */
final class LaneWriter {
    /** A reading older than this is told of, even when the source says nothing. */
    private static final long STALE_NANOS = 3_000_000_000L;

    /** Nearer to zero than this, a draft is said to point neither way. */
    private static final double STILL_PASCALS = 5;

    private final ShownSession session;
    private final Setup setup;
    private final long atNanos;
    private final ZoneId zone;

    /**
     * A writer for one moment.
     *
     * @param atNanos the moment: now, or the playhead
     */
    LaneWriter(ShownSession session, Setup setup, long atNanos, ZoneId zone) {
        this.session = session;
        this.setup = setup;
        this.atNanos = atNanos;
        this.zone = zone;
    }

    /** The texts of one channel's lane, in the unit given. */
    LaneHeader write(Channel channel, Unit unit) {
        Tap tap = channel.tap();
        Sample sample = session.windows().readingAt(tap, atNanos);
        boolean contact = tap.quantity() == Quantity.CONTACT;
        Ailment ailment = ailment(channel, sample, contact);
        Step step = session.windows().step(tap);
        String figure = "\u2013";
        PlateNotes.Note note = PlateNotes.Note.NONE;
        if (sample != null) {
            int decimals = Figures.decimals(step, unit);
            figure = contact ? state(tap, sample.value()) : Figures.number(sample.value(), unit, decimals);
            note = new PlateNotes(setup, unit, decimals).note(tap, sample.value(), reference());
        }
        return new LaneHeader(
                tap,
                LaneTitles.of(tap),
                figure,
                Figures.symbol(unit),
                sense(tap, sample),
                sample == null || ailment.stale() ? Tone.QUIET : Tone.NORMAL,
                ailment.stale() ? "" : note.text(),
                note.tone(),
                ailment.text(),
                ailment.tone());
    }

    private static String sense(Tap tap, @Nullable Sample sample) {
        if (sample == null || !tap.role().startsWith("draft.") || Math.abs(sample.value()) < STILL_PASCALS) {
            return "";
        }
        return Words.get(sample.value() < 0 ? "sense.suction" : "sense.pressure");
    }

    /** The state of a contact in a word. */
    static String state(Tap tap, double value) {
        String kind = tap == Tap.CONTACT_SWITCH ? "contact" : "output";
        return Words.get(kind + (value >= 0.5 ? ".closed" : ".open"));
    }

    /** Pressure at the other side of a two-port switch, 0 when it is open to air or not measured. */
    private double reference() {
        Setup.PressureSwitch rating = setup.pressureSwitch();
        if (rating == null || rating.reference() != Setup.Reference.BURNER_BOX) {
            return 0;
        }
        Sample sample = session.windows().readingAt(Tap.DRAFT_BURNER_BOX, atNanos);
        return sample == null ? 0 : sample.value();
    }

    private record Ailment(String text, Tone tone, boolean stale) {}

    private Ailment ailment(Channel channel, @Nullable Sample sample, boolean contact) {
        SourceHistory.Condition condition = session.sources().at(channel.sourceId(), atNanos);
        SourceState state = condition == null ? SourceState.LIVE : condition.state();
        String since = condition == null ? "" : timeOfDay(condition.sinceNanos());
        return switch (state) {
            case GONE -> new Ailment(Words.get("source.gone", since), Tone.DANGER, true);
            case RETRYING -> new Ailment(Words.get("source.retrying", since), Tone.DANGER, true);
            case SILENT -> new Ailment(Words.get("source.silent", since), Tone.ATTENTION, !contact);
            case FINISHED -> new Ailment(Words.get("source.finished", since), Tone.QUIET, true);
            case OPENING -> new Ailment(Words.get("source.opening"), Tone.QUIET, true);
            case LIVE -> stillness(sample, contact);
        };
    }

    private Ailment stillness(@Nullable Sample sample, boolean contact) {
        if (sample == null) {
            return new Ailment(Words.get("source.waiting"), Tone.QUIET, true);
        }
        long age = atNanos - sample.timeNanos();
        return contact || age <= STALE_NANOS
                ? new Ailment("", Tone.NORMAL, false)
                : new Ailment(Words.get("source.stale", Figures.duration(age)), Tone.ATTENTION, true);
    }

    private String timeOfDay(long nanos) {
        Instant start = session.header().start();
        return Figures.timeOfDay(start, nanos, zone);
    }
}
