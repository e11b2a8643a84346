package draftwitness.furnace;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.Step;
import java.util.ArrayList;
import java.util.List;

/** Runs a simulation straight into a listener of sessions, cell by cell, without links or files. */
final class AnalysisFeed {

    private static final int PARTS = 5;

    private AnalysisFeed() {}

    /** Called {@link #PARTS} times a cell with the time reached in seconds. */
    interface Watcher {
        void reached(double seconds);
    }

    static SessionHeader header(Simulation simulation) {
        List<Channel> channels = new ArrayList<>();
        for (SimulatedSensor s : simulation.sensors()) {
            channels.add(new Channel(s.tap(), "house", s.tap().role(), s.unit()));
        }
        return new SessionHeader(
                null,
                simulation.scenario().title(),
                1,
                channels,
                List.of(new SourceInfo("house", "simulated-house", "simulated", "")),
                simulation.scenario().setupText());
    }

    static void run(Simulation simulation, double seconds, SessionListener listener, Watcher watcher) {
        SessionHeader header = header(simulation);
        listener.begin(header);
        int n = header.channels().size();
        List<List<long[]>> pending = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            pending.add(new ArrayList<>());
        }
        long cells = Math.round(seconds * 1e9 / Slice.CELL_NANOS);
        for (long cell = 0; cell < cells; cell++) {
            for (long part = 1; part <= PARTS; part++) {
                long reached = cell * Slice.CELL_NANOS + part * Slice.CELL_NANOS / PARTS;
                simulation.advanceTo(
                        reached - 1,
                        (sensor, time, count) -> pending.get(sensor).add(new long[] {time, count}));
                watcher.reached(reached / 1e9);
            }
            List<Block> blocks = new ArrayList<>();
            for (int i = 0; i < n; i++) {
                if (!pending.get(i).isEmpty()) {
                    blocks.add(
                            block(header.channels().get(i), simulation.sensors().get(i), pending.get(i)));
                    pending.get(i).clear();
                }
            }
            listener.slice(new Slice(cell, blocks, List.of()));
        }
        listener.end();
    }

    private static Block block(Channel channel, SimulatedSensor sensor, List<long[]> readings) {
        return new Block(
                channel,
                new Step(sensor.unit(), sensor.decimals()),
                readings.stream().mapToLong(r -> r[0]).toArray(),
                readings.stream().mapToLong(r -> r[1]).toArray());
    }
}
