package draftwitness.recording;

import draftwitness.reading.Step;
import java.util.ArrayList;
import java.util.List;

/**
 * One channel's readings summed up in buckets of equal width, in order of time. A bucket whose readings changed their
 * step has an entry for each step. One owner thread.
 */
final class Buckets {

    /** What one bucket saw in one step; changes as readings come in. */
    static final class Entry {
        final long bucket;
        final Step step;
        long readings;
        long first;
        long last;
        long min;
        long max;
        /** Times of the first and last reading, in time steps. */
        long firstTime;

        long lastTime;

        Entry(long bucket, Step step) {
            this.bucket = bucket;
            this.step = step;
        }

        private void add(Entry later) {
            readings += later.readings;
            last = later.last;
            lastTime = later.lastTime;
            min = Math.min(min, later.min);
            max = Math.max(max, later.max);
        }

        boolean same(Entry e) {
            return bucket == e.bucket
                    && step.equals(e.step)
                    && readings == e.readings
                    && first == e.first
                    && last == e.last
                    && min == e.min
                    && max == e.max;
        }
    }

    final List<Entry> entries = new ArrayList<>();

    /** Sums up a run's readings from position {@code from} to before {@code to}. */
    void add(Run run, int from, int to, long timeStepNanos, long widthNanos) {
        int i = from;
        while (i < to) {
            long bucket = Math.floorDiv(run.times[i] * timeStepNanos, widthNanos);
            long end = Math.floorDiv((bucket + 1) * widthNanos - 1, timeStepNanos); // last time inside
            Entry entry = new Entry(bucket, run.step);
            long min = run.counts[i];
            long max = min;
            entry.first = min;
            entry.firstTime = run.times[i];
            int begin = i;
            for (; i < to && run.times[i] <= end; i++) {
                min = Math.min(min, run.counts[i]);
                max = Math.max(max, run.counts[i]);
            }
            entry.readings = (long) i - begin;
            entry.min = min;
            entry.max = max;
            entry.last = run.counts[i - 1];
            entry.lastTime = run.times[i - 1];
            add(entry);
        }
    }

    /** Adds what came later, joined with the last entry where both belong to the same bucket and step. */
    void add(Entry later) {
        if (!entries.isEmpty()) {
            Entry last = entries.get(entries.size() - 1);
            if (last.bucket == later.bucket && last.step.equals(later.step)) {
                last.add(later);
                return;
            }
        }
        entries.add(later);
    }

    /** Adds finer buckets, so many to one of these. */
    void addFiner(Buckets finer, int factor) {
        for (Entry e : finer.entries) {
            Entry wider = new Entry(Math.floorDiv(e.bucket, factor), e.step);
            wider.readings = e.readings;
            wider.first = e.first;
            wider.last = e.last;
            wider.min = e.min;
            wider.max = e.max;
            wider.firstTime = e.firstTime;
            wider.lastTime = e.lastTime;
            add(wider);
        }
    }
}
