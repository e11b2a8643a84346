package draftwitness.recording;

import draftwitness.reading.Channel;
import draftwitness.reading.Step;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** Counts what a file holds, channel by channel. One owner thread. */
final class Tally {
    private final List<Channel> channels;
    private final long[] readings;
    private final List<Set<Step>> steps = new ArrayList<>();
    private long firstTime = Long.MAX_VALUE;
    private long lastTime = Long.MIN_VALUE;

    Tally(List<Channel> channels) {
        this.channels = channels;
        this.readings = new long[channels.size()];
        for (int i = 0; i < readings.length; i++) {
            steps.add(new TreeSet<>(Comparator.comparing(Step::unit).thenComparing(Step::decimals)));
        }
    }

    /** Counts readings of one step; first and last time in time steps. */
    void add(int channel, Step step, long number, long first, long last) {
        readings[channel] += number;
        steps.get(channel).add(step);
        firstTime = Math.min(firstTime, first);
        lastTime = Math.max(lastTime, last);
    }

    long readings(int channel) {
        return readings[channel];
    }

    boolean isEmpty() {
        return firstTime == Long.MAX_VALUE;
    }

    /** Time of the first reading of any channel, in time steps. */
    long firstTime() {
        return firstTime;
    }

    long lastTime() {
        return lastTime;
    }

    Set<Step> steps(int channel) {
        return steps.get(channel);
    }

    /** Decimals of the channel's own unit that show every step in the file; 0 when there is no reading. */
    int decimals(int channel) {
        int decimals = 0;
        for (Step step : steps.get(channel)) {
            decimals = Math.max(
                    decimals, Conversion.decimals(step, channels.get(channel).unit()));
        }
        return decimals;
    }
}
