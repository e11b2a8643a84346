package draftwitness.recording;

import org.jspecify.annotations.Nullable;

/**
 * Turns what stands beside a run's times, arrivals and the instrument's counters, into bytes and back. One owner
 * thread.
 *
 * <p>A run with neither takes no byte. Channels that are read out of the same messages share both, so that a run may
 * refer to the one before it in the row. The layout is drawn in {@link StretchCodec}.
 */
final class BesideCodec {
    /** Flags in a run's kind of times. */
    static final int ARRIVALS = 2;

    static final int COUNTERS = 4;
    static final int AS_BEFORE = 8;

    private long[] scratch = new long[1024];

    /** Numbers that say how a run's streams are to be read; they stand before its body. */
    private record Plan(boolean asDelays, long arrivalBase, long counterFirst, long counterStep) {
        static final Plan NONE = new Plan(true, 0, 0, 0);
    }

    private Plan plan = Plan.NONE;

    /** The flags that belong to a run. */
    static int flags(Run run, @Nullable Run before) {
        int flags = (run.arrivals == null ? 0 : ARRIVALS) | (run.counters == null ? 0 : COUNTERS);
        return flags != 0 && before != null && sameBeside(run, before) ? flags | AS_BEFORE : flags;
    }

    private static boolean sameBeside(Run a, Run b) {
        return a.size == b.size && same(a.arrivals, b.arrivals, a.size) && same(a.counters, b.counters, a.size);
    }

    private static boolean same(long @Nullable [] a, long @Nullable [] b, int n) {
        if (a == null || b == null) {
            return a == b;
        }
        for (int i = 0; i < n; i++) {
            if (a[i] != b[i]) {
                return false;
            }
        }
        return true;
    }

    /** Writes the numbers before the body, and remembers them for {@link #writeStreams}. */
    void writePlan(Run run, int flags, BitWriter out) {
        plan = Plan.NONE;
        if ((flags & AS_BEFORE) != 0) {
            return;
        }
        if (scratch.length < run.size) {
            scratch = new long[2 * run.size];
        }
        boolean asDelays = run.arrivals == null || delaysAreShorter(run.arrivals, run.times, run.size);
        long base = run.arrivals == null
                ? 0
                : asDelays ? leastDelay(run.arrivals, run.times, run.size) : run.arrivals[0] - run.times[0];
        long first = run.counters == null ? 0 : run.counters[0];
        plan = new Plan(asDelays, base, first, run.counters == null ? 0 : usualStep(run.counters, run.size));
        if (run.arrivals != null) {
            out.varint(asDelays ? 0 : 1);
            out.signed(base);
        }
        if (run.counters != null) {
            out.signed(first);
            out.signed(plan.counterStep());
        }
    }

    private static long leastDelay(long[] arrivals, long[] times, int n) {
        long least = arrivals[0] - times[0];
        for (int i = 1; i < n; i++) {
            least = Math.min(least, arrivals[i] - times[i]);
        }
        return least;
    }

    private boolean delaysAreShorter(long[] arrivals, long[] times, int n) {
        delays(arrivals, times, n, leastDelay(arrivals, times, n));
        double asDelays = IntegerCoder.roughBits(scratch, n);
        IntegerCoder.differences(arrivals, n, 0, scratch);
        return asDelays <= IntegerCoder.roughBits(scratch, n - 1);
    }

    private void delays(long[] arrivals, long[] times, int n, long least) {
        for (int i = 0; i < n; i++) {
            scratch[i] = arrivals[i] - times[i] - least;
        }
    }

    /**
     * The difference that most neighbours have, if most have one (R. S. Boyer and J S. Moore, "MJRTY - A fast majority
     * vote algorithm", 1981); else some difference.
     */
    private static long usualStep(long[] counters, int n) {
        long candidate = 1;
        int lead = 0;
        for (int i = 1; i < n; i++) {
            long step = counters[i] - counters[i - 1];
            if (lead == 0) {
                candidate = step;
            }
            lead += step == candidate ? 1 : -1;
        }
        return candidate;
    }

    void writeStreams(Run run, int flags, BitWriter body, IntegerCoder coder) {
        if ((flags & AS_BEFORE) != 0) {
            return;
        }
        int n = run.size;
        if (run.arrivals != null && plan.asDelays()) {
            delays(run.arrivals, run.times, n, plan.arrivalBase());
            coder.encode(body, scratch, n);
        } else if (run.arrivals != null) {
            IntegerCoder.differences(run.arrivals, n, 0, scratch);
            coder.encode(body, scratch, n - 1);
        }
        if (run.counters != null) {
            IntegerCoder.differences(run.counters, n, plan.counterStep(), scratch);
            coder.encode(body, scratch, n - 1);
        }
    }

    /**
     * Reads the numbers before the body, and remembers them for {@link #readStreams}.
     *
     * @throws IndexOutOfBoundsException if they cannot have come from {@link #writePlan}
     */
    void readPlan(int flags, BitReader in) {
        plan = Plan.NONE;
        boolean here = (flags & AS_BEFORE) == 0;
        if (!here && (flags & (ARRIVALS | COUNTERS)) == 0) {
            throw new IndexOutOfBoundsException("nothing to be as before");
        }
        boolean arrivals = here && (flags & ARRIVALS) != 0;
        boolean counters = here && (flags & COUNTERS) != 0;
        boolean asDelays = !arrivals || in.varint(0, 1) == 0;
        long base = arrivals ? in.signed() : 0;
        long first = counters ? in.signed() : 0;
        plan = new Plan(asDelays, base, first, counters ? in.signed() : 0);
    }

    /**
     * Fills in a run whose times were read already.
     *
     * @param before the run before it in the row, or null
     * @throws IndexOutOfBoundsException if the bytes cannot have come from {@link #writeStreams}
     */
    void readStreams(Run run, int flags, @Nullable Run before, BitReader in, IntegerCoder coder) {
        if ((flags & AS_BEFORE) != 0) {
            if (before == null || before.size != run.size || (flags(before, null) | AS_BEFORE) != flags) {
                throw new IndexOutOfBoundsException("no run to be as");
            }
            run.arrivals = before.arrivals;
            run.counters = before.counters;
            return;
        }
        int n = run.size;
        if ((flags & ARRIVALS) != 0) {
            run.arrivals = arrivals(run, in, coder);
        }
        if ((flags & COUNTERS) != 0) {
            long[] counters = new long[n];
            coder.decode(in, counters, n - 1);
            sum(counters, n, plan.counterFirst(), plan.counterStep());
            run.counters = counters;
        }
    }

    private long[] arrivals(Run run, BitReader in, IntegerCoder coder) {
        int n = run.size;
        long[] arrivals = new long[n];
        if (plan.asDelays()) {
            coder.decode(in, arrivals, n);
            for (int i = 0; i < n; i++) {
                arrivals[i] += run.times[i] + plan.arrivalBase();
            }
        } else {
            coder.decode(in, arrivals, n - 1);
            sum(arrivals, n, run.times[0] + plan.arrivalBase(), 0);
        }
        return arrivals;
    }

    /** Turns n - 1 differences into n numbers, in place. */
    private static void sum(long[] numbers, int n, long first, long usual) {
        long number = first;
        for (int i = 0; i < n; i++) {
            long next = i + 1 < n ? number + usual + BitWriter.unzigzag(numbers[i]) : 0;
            numbers[i] = number;
            number = next;
        }
    }
}
