package draftwitness.dashboard;

import draftwitness.reading.Unit;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Two cycles laid over each other from the inducer's start, of one recording or of two: before and after a repair.
 * User-interface thread.
 */
public final class CompareModel {
    /** How much of what was before the inducer's start is shown. */
    public static final long BEFORE_NANOS = 5_000_000_000L;

    /** One step of the second cycle's shift. */
    public static final long NUDGE_NANOS = 100_000_000L;

    private static final String NONE = "\u2013";

    private List<ComparedCycle> cycles = List.of();
    private int first;
    private int second;
    private long shiftNanos;
    private boolean open;

    /**
     * A line of the table.
     *
     * @param what what was measured
     * @param a of the first cycle
     * @param b of the second
     * @param difference second less first, with its sign
     */
    public record Row(String what, String a, String b, String difference) {}

    /** Whether the comparison is shown in place of the strips. */
    public boolean isOpen() {
        return open;
    }

    /** Goes back to the strips; what was chosen stays. */
    public void close() {
        open = false;
    }

    /** Lays cycles over each other: at first the first, and the first of another recording or else the next one. */
    public void show(List<ComparedCycle> found) {
        cycles = List.copyOf(found);
        first = 0;
        second = Math.max(0, Math.min(1, cycles.size() - 1));
        for (int i = cycles.size() - 1; i > 0; i--) {
            if (!cycles.get(i).recording().equals(cycles.get(0).recording())) {
                second = i;
            }
        }
        shiftNanos = 0;
        open = true;
    }

    /** All cycles there are to choose from. */
    public List<ComparedCycle> cycles() {
        return cycles;
    }

    public @Nullable ComparedCycle a() {
        return cycles.isEmpty() ? null : cycles.get(first);
    }

    public @Nullable ComparedCycle b() {
        return cycles.isEmpty() ? null : cycles.get(second);
    }

    /** Chooses the first cycle by its place in the list. */
    public void chooseA(int place) {
        first = checked(place);
    }

    /** Chooses the second cycle by its place in the list. */
    public void chooseB(int place) {
        second = checked(place);
        shiftNanos = 0;
    }

    private int checked(int place) {
        if (place < 0 || place >= cycles.size()) {
            throw new IllegalArgumentException("there is no cycle at place " + place);
        }
        return place;
    }

    /** Shifts the second cycle later (positive) or earlier, by steps of 0.1 s. */
    public void nudge(int steps) {
        shiftNanos += steps * NUDGE_NANOS;
    }

    /** How much later the second cycle is drawn than from its inducer's start. */
    public long shiftNanos() {
        return shiftNanos;
    }

    /** The time shown of the first cycle, in its own session time; the second has the same length. */
    public TimeSpan windowA() {
        ComparedCycle one = a();
        ComparedCycle two = b();
        if (one == null || two == null) {
            return new TimeSpan(0, BEFORE_NANOS);
        }
        long length = Math.max(
                one.draft().grid().span().lengthNanos(),
                two.draft().grid().span().lengthNanos());
        long from = one.cycle().startNanos() - BEFORE_NANOS;
        return new TimeSpan(from, from + length);
    }

    /** The time shown of the second cycle, in its own session time. */
    public TimeSpan windowB() {
        ComparedCycle two = b();
        long from = (two == null ? 0 : two.cycle().startNanos()) - BEFORE_NANOS - shiftNanos;
        return new TimeSpan(from, from + windowA().lengthNanos());
    }

    /** The numbers of both and what lies between them, pressures in a unit. */
    public List<Row> rows(Unit unit) {
        ComparedCycle one = a();
        ComparedCycle two = b();
        if (one == null || two == null) {
            return List.of();
        }
        return List.of(
                pressure("compare.level", one.levelPascals(), two.levelPascals(), unit),
                pressure("compare.margin", one.marginPascals(), two.marginPascals(), unit),
                seconds("compare.spin-up", one.spinUpSeconds(), two.spinUpSeconds()),
                seconds("compare.length", one.lengthSeconds(), two.lengthSeconds()));
    }

    private static Row pressure(String key, double a, double b, Unit unit) {
        int decimals = unit == Unit.INCH_OF_WATER ? 3 : unit.toBase(1) > 50 ? 3 : 1;
        return new Row(
                Words.get(key),
                Double.isNaN(a) ? NONE : Figures.quantity(a, unit, decimals),
                Double.isNaN(b) ? NONE : Figures.quantity(b, unit, decimals),
                Double.isNaN(b - a) ? NONE : plus(b - a) + Figures.quantity(b - a, unit, decimals));
    }

    private static Row seconds(String key, double a, double b) {
        return new Row(Words.get(key), tenths(a), tenths(b), Double.isNaN(b - a) ? NONE : plus(b - a) + tenths(b - a));
    }

    private static String plus(double difference) {
        return difference > 0 ? "+" : "";
    }

    private static String tenths(double seconds) {
        return Double.isNaN(seconds)
                ? NONE
                : Words.get(
                        "compare.seconds",
                        String.valueOf(Math.round(seconds * 10) / 10.0).replace('-', '\u2212'));
    }
}
