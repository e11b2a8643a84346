package draftwitness.dashboard;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Long work that goes on behind the window: what it is, how far it has come, and a way to call it off. Any thread. */
public final class Work {
    private final List<Job> jobs = new ArrayList<>();
    private @Nullable String told; // guarded by jobs

    /** One piece of work; its worker tells how far it is and asks whether it is still wanted. */
    public final class Job implements AutoCloseable {
        private final String name;
        private volatile double share;
        private volatile boolean cancelled;

        private Job(String name) {
            this.name = name;
        }

        /** How much is done, 0 to 1. */
        public void share(double done) {
            share = Math.max(0, Math.min(1, done));
        }

        /** Not wanted any more; the worker ends soon. */
        public void cancel() {
            cancelled = true;
        }

        public boolean isCancelled() {
            return cancelled;
        }

        /** The work has ended, well or not. */
        @Override
        public void close() {
            synchronized (jobs) {
                jobs.remove(this);
            }
        }
    }

    /**
     * What is shown of the work.
     *
     * @param text what is done and how far, one line
     * @param share 0 to 1
     * @param over true when it has ended and only its outcome is told
     */
    public record Shown(String text, double share, boolean over) {}

    /** Begins a piece of work; it is shown until it is closed. */
    public Job begin(String name) {
        Job job = new Job(name);
        synchronized (jobs) {
            jobs.add(job);
            told = null;
        }
        return job;
    }

    /** The work begun last, or null when there is none. */
    public @Nullable Shown shown() {
        Job job = last();
        if (job != null) {
            return new Shown(
                    Words.get("work", job.name, String.valueOf(Math.round(job.share * 100))), job.share, false);
        }
        synchronized (jobs) {
            return told == null ? null : new Shown(told, 1, true);
        }
    }

    /** Tells how work has ended, until it is read or other work begins. */
    public void tell(String outcome) {
        synchronized (jobs) {
            told = outcome;
        }
    }

    /** Calls off the work that is shown, or takes its outcome away. */
    public void cancel() {
        Job job = last();
        if (job != null) {
            job.cancel();
            return;
        }
        synchronized (jobs) {
            told = null;
        }
    }

    private @Nullable Job last() {
        synchronized (jobs) {
            return jobs.isEmpty() ? null : jobs.get(jobs.size() - 1);
        }
    }
}
