package draftwitness.dashboard;

import draftwitness.time.Ticker;

/**
 * A playhead that moves by a clock, without a thread: enough to look through a recording. Stops at the end; playing
 * from there starts over. One thread.
 */
public final class Playhead implements ReplayControl {
    private final Ticker ticker;
    private final TimeSpan extent;
    private long anchorNanos;
    private long anchorTick;
    private boolean playing;
    private double speed = 1;

    /** A paused playhead at the start of {@code extent}. */
    public Playhead(Ticker ticker, TimeSpan extent) {
        this.ticker = ticker;
        this.extent = extent;
        this.anchorNanos = extent.fromNanos();
    }

    @Override
    public void play() {
        if (position() >= extent.toNanos()) {
            anchorNanos = extent.fromNanos();
        } else {
            anchorNanos = position();
        }
        anchorTick = ticker.nanos();
        playing = true;
    }

    @Override
    public void pause() {
        anchorNanos = position();
        playing = false;
    }

    @Override
    public void seek(long nanos) {
        anchorNanos = clamp(nanos);
        anchorTick = ticker.nanos();
    }

    @Override
    public void speed(double times) {
        if (!(times >= MIN_SPEED && times <= MAX_SPEED)) {
            throw new IllegalArgumentException("speed " + times + " is outside " + MIN_SPEED + ".." + MAX_SPEED);
        }
        anchorNanos = position();
        anchorTick = ticker.nanos();
        speed = times;
    }

    @Override
    public Status status() {
        long position = position();
        if (playing && position >= extent.toNanos()) {
            pause();
        }
        return new Status(position, playing, speed);
    }

    private long position() {
        return playing ? clamp(anchorNanos + Math.round((ticker.nanos() - anchorTick) * speed)) : anchorNanos;
    }

    private long clamp(long nanos) {
        return Math.max(extent.fromNanos(), Math.min(extent.toNanos(), nanos));
    }
}
