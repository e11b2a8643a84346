package draftwitness.dashboard;

import draftwitness.cycle.CycleReport;
import draftwitness.cycle.LiveSnapshot;
import draftwitness.reading.SessionHeader;
import draftwitness.setup.Setup;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What the furnace did in the session that is looked at: marks for the strips and the row of cycles, the sequence in
 * words, and stepping from one event to the next. User-interface thread.
 */
public final class StoryModel {
    /** An event is shown with at least so much around it. */
    private static final long LEAST_SHOWN = 20_000_000_000L;

    private static final int AROUND = 3;

    private final ZoneId zone;
    private Story story = Story.none();
    private @Nullable CycleReport report;
    private @Nullable UnitChoice units;
    private Happenings happenings = Happenings.NONE;
    private boolean knowsBeginning;
    private @Nullable Notice notice;
    private LiveSnapshot snapshot = story.snapshot();
    private @Nullable SessionHeader header;
    private Setup setup = Setup.defaults();

    StoryModel(ZoneId zone) {
        this.zone = zone;
    }

    /** Another session is looked at. */
    void follow(Story next) {
        story = next;
        report = null;
        header = null;
        happenings = Happenings.NONE;
        knowsBeginning = false;
        notice = null;
        snapshot = next.snapshot();
    }

    /**
     * Takes in what is new.
     *
     * @param live whether new episodes are news
     */
    Happenings look(SessionHeader newHeader, Setup newSetup, UnitChoice newUnits, boolean live) {
        snapshot = story.snapshot();
        boolean same = snapshot.report().equals(report) && newUnits == units && newHeader.equals(header);
        header = newHeader;
        setup = newSetup;
        if (same) {
            return happenings;
        }
        report = snapshot.report();
        units = newUnits;
        Happenings before = happenings;
        happenings = new HappeningsWriter(newHeader, newUnits, zone).write(snapshot.report());
        if (live) {
            announce(before);
        }
        return happenings;
    }

    /** The first look tells what was there already; after that, what calls for a person is news. */
    private void announce(Happenings before) {
        if (!knowsBeginning) {
            knowsBeginning = true;
            return;
        }
        for (EpisodeMark e : happenings.episodes()) {
            if (e.calls() && before.episodes().stream().noneMatch(e::sameAs)) {
                notice = new Notice(Words.get("notice.news", e.word(), time(e), e.text()), e.tone(), e, true);
            }
        }
    }

    private String time(EpisodeMark e) {
        return Figures.timeOfDay(
                header == null ? null : header.start(), e.span().fromNanos(), zone);
    }

    /** What was looked at last. */
    public Happenings happenings() {
        return happenings;
    }

    CycleReport report() {
        return snapshot.report();
    }

    /** True once what is known is all there will be. */
    boolean isComplete() {
        return snapshot.ended() && snapshot.number() > 0;
    }

    /** The sequence at the head. */
    SequenceLine sequence(long headNanos, boolean live) {
        SessionHeader h = header;
        if (h == null) {
            return SequenceLine.NONE;
        }
        SequenceWriter writer =
                new SequenceWriter(h.start(), zone, setup.sequence().attempts());
        return live ? writer.live(snapshot, headNanos) : writer.at(snapshot.report(), headNanos);
    }

    // ---- notices

    public Optional<Notice> notice() {
        return Optional.ofNullable(notice);
    }

    /** Takes the notice away; true when there was one. */
    public boolean dismiss() {
        boolean was = notice != null;
        notice = null;
        return was;
    }

    // ---- stepping

    /** How many episodes one can step to. */
    public int episodeCount() {
        return calling().size();
    }

    private List<EpisodeMark> calling() {
        return happenings.episodes().stream().filter(EpisodeMark::calls).toList();
    }

    /** The episode after (or before) a moment, or the one beside the notice when that is what is shown. */
    Optional<EpisodeMark> episode(long fromNanos, boolean forward) {
        List<EpisodeMark> all = calling();
        int shown = notice == null ? -1 : all.indexOf(notice.episode());
        if (shown >= 0 && Math.abs(all.get(shown).middleNanos() - fromNanos) < 2_000_000) {
            int next = shown + (forward ? 1 : -1);
            return next >= 0 && next < all.size() ? Optional.of(all.get(next)) : Optional.empty();
        }
        Comparator<EpisodeMark> byMiddle = Comparator.comparingLong(EpisodeMark::middleNanos);
        return forward
                ? all.stream().filter(e -> e.middleNanos() > fromNanos).min(byMiddle)
                : all.stream().filter(e -> e.middleNanos() < fromNanos).max(byMiddle);
    }

    /** The cycle after (or before) the one at a moment. */
    Optional<CycleMark> cycle(long fromNanos, boolean forward) {
        List<CycleMark> all = happenings.cycles();
        return forward
                ? all.stream()
                        .filter(c -> middle(c.span()) > fromNanos + 2_000_000)
                        .findFirst()
                : all.stream()
                        .filter(c -> middle(c.span()) < fromNanos - 2_000_000)
                        .reduce((a, b) -> b);
    }

    private static long middle(TimeSpan span) {
        return span.fromNanos() + span.lengthNanos() / 2;
    }

    /** The episode that asks most for a person: the gravest tone, then the longest. */
    Optional<EpisodeMark> worst() {
        return calling().stream()
                .max(Comparator.comparing((EpisodeMark e) -> e.tone() == Tone.DANGER)
                        .thenComparingLong(e -> e.span().lengthNanos()));
    }

    /** Says which episode is shown. */
    void stepped(EpisodeMark e) {
        List<EpisodeMark> all = calling();
        String text = Words.get(
                "notice.stepped",
                String.valueOf(all.indexOf(e) + 1),
                String.valueOf(all.size()),
                e.word(),
                time(e),
                e.text());
        notice = new Notice(text, e.tone(), e, false);
    }

    /** The part of time that shows an event with what is around it, the event in the middle. */
    static TimeSpan around(TimeSpan event) {
        long length = Math.max(LEAST_SHOWN, AROUND * event.lengthNanos());
        long from = middle(event) - length / 2;
        return new TimeSpan(from, from + length);
    }

    /** The part of time that a cycle fills, with a little at either side. */
    static TimeSpan filled(TimeSpan cycle) {
        long side = Math.max(1_000_000_000L, cycle.lengthNanos() / 20);
        return new TimeSpan(cycle.fromNanos() - side, cycle.toNanos() + side);
    }
}
