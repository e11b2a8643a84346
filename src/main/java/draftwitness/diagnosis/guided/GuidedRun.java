package draftwitness.diagnosis.guided;

import draftwitness.reading.Block;
import draftwitness.reading.Quantity;
import draftwitness.reading.Slice;
import draftwitness.reading.Tap;
import draftwitness.reading.Zeros;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * One measurement being made. One owner thread.
 *
 * <p>States: between parts it waits; {@link #begin} starts a part, which ends when its length is over, when it has all
 * it needs, or by {@link #stop}. A part may be taken again: the new readings take the place of the old. The result is
 * judged anew from whatever parts there are, so it says something as soon as it can. Live readings and those of a
 * recording come the same way, as slices.
 */
public final class GuidedRun {
    private static final long JUDGE_EVERY_NANOS = 500_000_000;
    private static final double STEADY_SECONDS = 5;
    private static final double STEADY_PASCALS = 1;
    private static final double STEADY_SHARE = 0.01;
    private static final int TRACE_POINTS = 300;

    private final GuidedPlan plan;
    private final Terms terms;
    private Zeros zeros;
    private final Map<String, PartReadings> taken = new LinkedHashMap<>();
    private final Map<Tap, Lead> leads = new EnumMap<>(Tap.class);
    private @Nullable PartReadings running;
    private @Nullable PartReadings last;
    private long endNanos;
    private boolean untilEnough;
    private long nowNanos = Long.MIN_VALUE;
    private long judgedNanos = Long.MIN_VALUE;
    private @Nullable GuidedResult judged;

    /** The newest reading of a contact, so that its state is known when a part begins. */
    private record Lead(long timeNanos, double value, double step) {}

    /**
     * A measurement that waits for its first part.
     *
     * @param zeros offsets to take off; the caller keeps it up to date with the session's events
     */
    public GuidedRun(GuidedPlan plan, Terms terms, Zeros zeros) {
        this.plan = plan;
        this.terms = terms;
        this.zeros = zeros;
    }

    public GuidedPlan plan() {
        return plan;
    }

    /**
     * Begins a part, live: it ends by itself.
     *
     * @param nanos session time
     * @throws IllegalArgumentException if the plan has no such part
     */
    public void begin(String partId, long nanos) {
        Part part = part(partId);
        double limit = Math.min(part.seconds(), 24 * 3600.0);
        begin(part, nanos, nanos + (long) (limit * 1e9), true);
    }

    /**
     * Begins a part over a given span, whatever its usual length.
     *
     * @param fromNanos inclusive
     * @param toNanos exclusive
     * @throws IllegalArgumentException if the plan has no such part, or the span is empty
     */
    public void begin(String partId, long fromNanos, long toNanos) {
        if (toNanos <= fromNanos) {
            throw new IllegalArgumentException("an empty span: " + fromNanos + " to " + toNanos + " ns");
        }
        begin(part(partId), fromNanos, toNanos, false);
    }

    /**
     * The readings from now on are those of another session, such as a second recording.
     *
     * @param others its offsets, kept up to date by the caller
     */
    public void continueWith(Zeros others) {
        finish(nowNanos);
        zeros = others;
        leads.clear();
        nowNanos = Long.MIN_VALUE;
    }

    private Part part(String id) {
        return plan.part(id)
                .orElseThrow(() -> new IllegalArgumentException(plan.kind().id() + " has no part " + id));
    }

    private void begin(Part part, long fromNanos, long toNanos, boolean live) {
        finish(Math.max(nowNanos, fromNanos));
        PartReadings readings = new PartReadings(part, fromNanos);
        for (Tap tap : part.taps()) {
            Lead lead = leads.get(tap);
            if (lead != null) {
                readings.at(tap).add(lead.timeNanos(), lead.value(), lead.step());
            }
        }
        taken.remove(part.id());
        taken.put(part.id(), readings);
        running = readings;
        last = readings;
        endNanos = toNanos;
        untilEnough = live;
        judged = null;
    }

    /** Ends the part that is running; what was read so far counts. */
    public void stop(long nanos) {
        finish(nanos);
    }

    private void finish(long nanos) {
        PartReadings part = running;
        if (part != null) {
            part.reached(Math.min(nanos, endNanos));
            running = null;
            judged = null;
        }
    }

    /** Whether a part is taking readings. */
    public boolean isRunning() {
        return running != null;
    }

    /** Whether every part was taken and none is running. */
    public boolean isComplete() {
        return running == null && taken.size() == plan.parts().size();
    }

    /** The next part that was not taken yet; null when all were. */
    public @Nullable Part next() {
        return plan.parts().stream()
                .filter(p -> !taken.containsKey(p.id()))
                .findFirst()
                .orElse(null);
    }

    /** Takes what a session brought. Slices come in order. */
    public void slice(Slice slice) {
        nowNanos = slice.endNanos();
        for (Block block : slice.blocks()) {
            take(block);
        }
        PartReadings part = running;
        if (part != null) {
            part.reached(Math.min(nowNanos, endNanos));
            boolean second = slice.index() % 10 == 0;
            if (nowNanos >= endNanos
                    || (untilEnough && second && plan.kind().judge().enough(part, terms))) {
                finish(nowNanos);
            }
        }
    }

    private void take(Block block) {
        Tap tap = block.channel().tap();
        PartReadings part = running;
        boolean wanted = part != null && part.part().taps().contains(tap);
        double step = block.step().inBase(1);
        for (int i = 0; i < block.size(); i++) {
            long time = block.timeNanos(i);
            double value = zeros.value(block, i);
            if (wanted && part != null && time >= part.fromNanos() && time < endNanos) {
                add(part.at(tap), time, value, step);
            }
            if (tap.quantity() == Quantity.CONTACT && (part == null || time < part.fromNanos())) {
                leads.put(tap, new Lead(time, value, step));
                if (wanted && part != null) {
                    add(part.at(tap), time, value, step); // a span's lead-in comes after its beginning was told
                }
            }
        }
    }

    /** Readings that come out of order, such as a late one after a newer lead, are left out. */
    private static void add(Samples samples, long time, double value, double step) {
        if (samples.size() == 0 || time > samples.time(samples.size() - 1)) {
            samples.add(time, value, step);
        }
    }

    /** What the readings say now. */
    public GuidedResult result() {
        GuidedResult known = judged;
        if (known == null || (running != null && nowNanos - judgedNanos >= JUDGE_EVERY_NANOS)) {
            known = judge();
            judged = known;
            judgedNanos = nowNanos;
        }
        return known;
    }

    private GuidedResult judge() {
        Judgement j = plan.kind().judge().judge(taken, terms);
        Grade grade = j.grade();
        List<String> remarks = new ArrayList<>(j.remarks());
        for (PartReadings part : taken.values()) {
            if (part != running && part.seconds() < part.part().leastSeconds()) {
                grade = Grade.UNDECIDED;
                remarks.add(
                        0,
                        part.part().id() + " is too short: " + Telling.seconds(part.seconds()) + ", at least "
                                + Telling.seconds(part.part().leastSeconds()) + ".");
            }
        }
        List<GuidedResult.Span> spans = taken.values().stream()
                .map(p -> new GuidedResult.Span(p.part().id(), p.fromNanos(), p.toNanos()))
                .toList();
        return new GuidedResult(plan.kind(), grade, j.verdict(), j.figures(), remarks, spans);
    }

    /** How it stands. */
    public GuidedNow now() {
        PartReadings part = running;
        PartReadings shown = part == null ? last : part;
        List<GuidedNow.TapNow> taps = new ArrayList<>();
        if (part != null) {
            part.part().taps().forEach(tap -> taps.add(tapNow(part.at(tap))));
        }
        double elapsed = part == null ? 0 : part.seconds();
        double progress = part == null
                ? 0
                : untilEnough && part.part().seconds() > 300
                        ? Double.NaN
                        : Math.min(1, elapsed / ((endNanos - part.fromNanos()) / 1e9));
        return new GuidedNow(
                part == null ? null : part.part(),
                List.copyOf(taken.keySet()),
                elapsed,
                progress,
                taps,
                shown == null ? GuidedNow.Trace.NONE : trace(shown),
                result());
    }

    private GuidedNow.TapNow tapNow(Samples samples) {
        int n = samples.size();
        if (n == 0) {
            return new GuidedNow.TapNow(samples.tap(), Double.NaN, false, Double.POSITIVE_INFINITY);
        }
        double silent = Math.max(0, (nowNanos - samples.time(n - 1)) / 1e9);
        return new GuidedNow.TapNow(samples.tap(), samples.value(n - 1), steady(samples), silent);
    }

    private static boolean steady(Samples samples) {
        int n = samples.size();
        Samples recent = samples.part(samples.at(samples.time(n - 1) - (long) (STEADY_SECONDS * 1e9)), n);
        if (recent.length() < 0.8 * STEADY_SECONDS || recent.size() < 4) {
            return false;
        }
        int half = recent.size() / 2;
        double first = mean(recent, 0, half);
        double second = mean(recent, half, recent.size());
        return Math.abs(second - first) <= Math.max(STEADY_PASCALS, STEADY_SHARE * Math.abs(second));
    }

    private static double mean(Samples samples, int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += samples.value(i);
        }
        return sum / (to - from);
    }

    private static GuidedNow.Trace trace(PartReadings part) {
        Samples samples = part.main().thinned(TRACE_POINTS);
        List<GuidedNow.Point> points = new ArrayList<>();
        for (int i = 0; i < samples.size(); i++) {
            points.add(new GuidedNow.Point((samples.time(i) - part.fromNanos()) / 1e9, samples.value(i)));
        }
        return new GuidedNow.Trace(points);
    }
}
