package draftwitness.capture;

import draftwitness.link.ByteLink;
import draftwitness.reading.Chunk;
import draftwitness.reading.ZeroOffset;
import draftwitness.time.AwakeTicker;
import draftwitness.time.Ticker;
import java.util.ArrayList;
import java.util.List;

/** What the pipeline thread does with the bytes of all sources, each in its turn. One owner thread. */
final class Pipeline implements Incoming.Intake, AutoCloseable {
    /** Items of one source that are taken before the slices and the other sources' questions are seen to. */
    private static final int ITEMS_A_TURN = 64;

    private final List<LiveSource> sources = new ArrayList<>();

    Pipeline(List<SourcePlan> plans, SliceAssembler assembler, Ticker ticker) {
        int channel = 0;
        for (SourcePlan plan : plans) {
            sources.add(new LiveSource(plan, channel, assembler, ticker));
            channel += plan.taps().size();
        }
    }

    List<SourceHealth> health() {
        return sources.stream().map(LiveSource::health).toList();
    }

    /** A source is still being opened while the session begins. */
    void openingSlowly(int source, long nowNanos) {
        sources.get(source).openingSlowly(nowNanos);
    }

    /** The computer slept, or its clock was set. */
    void jumped(AwakeTicker.Jump jump) {
        sources.forEach(s -> s.jumped(jump));
    }

    /** Whether nothing more can come from any source. */
    boolean allOver() {
        return sources.stream().allMatch(LiveSource::isOver);
    }

    /**
     * Session time up to which all paced sources have played; {@link Long#MAX_VALUE} if there is none that still plays.
     */
    long playedNanos() {
        return sources.stream().mapToLong(LiveSource::playedNanos).min().orElse(Long.MAX_VALUE);
    }

    /** When a decoder wants to ask its instrument something, on the session's clock. */
    long nextDueNanos() {
        return sources.stream().mapToLong(LiveSource::nextDueNanos).min().orElse(Long.MAX_VALUE);
    }

    /** Sends what is due and notices what does not happen. */
    void attend(long nowNanos) {
        for (LiveSource source : sources) {
            try {
                source.attend(nowNanos);
            } catch (RuntimeException e) {
                source.failed(e);
            }
        }
    }

    /**
     * Takes one item of each source in turn, until all have been seen empty or have had their fill.
     *
     * @param all whether to take everything, however much it is
     * @return whether something was left that may be taken at once
     */
    boolean takeTurns(FairQueues queues, long nowNanos, boolean all) {
        boolean some = true;
        for (int turn = 0; some && (all || turn < ITEMS_A_TURN); turn++) {
            some = false;
            for (int i = 0; i < sources.size(); i++) {
                if (all || sources.get(i).mayTake(nowNanos)) {
                    some |= takeOne(queues, i);
                }
            }
        }
        return some;
    }

    private boolean takeOne(FairQueues queues, int source) {
        Incoming item = queues.poll(source);
        if (item == null) {
            sources.get(source).caughtUp();
            return false;
        }
        try {
            item.handOver(this);
        } catch (RuntimeException e) {
            sources.get(source).failed(e); // one driver's defect must not take the others, nor the recording, with it
        }
        return true;
    }

    @Override
    public void chunk(int source, Chunk chunk) {
        sources.get(source).take(chunk);
    }

    @Override
    public void opened(int source, ByteLink link, long timeNanos, boolean again) {
        sources.get(source).opened(link, timeNanos, again);
    }

    @Override
    public void gone(int source, long timeNanos, String detail) {
        sources.get(source).gone(timeNanos, detail);
    }

    @Override
    public void retrying(int source, long timeNanos, String detail) {
        sources.get(source).retrying(timeNanos, detail);
    }

    @Override
    public void finished(int source, long timeNanos) {
        sources.get(source).finished(timeNanos);
    }

    @Override
    public void zero(int source, ZeroOffset zero) {
        sources.get(source).zero(zero);
    }

    @Override
    public void close() {
        sources.forEach(LiveSource::close);
    }
}
