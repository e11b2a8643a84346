package draftwitness.dashboard;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.SourceState;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * An invented heating cycle for tests of the screen: every 120 s the inducer starts at 10 s and stops at 90 s, gas
 * burns from 40 s to 85 s, and late in the run the draft sloshes so that the switch flutters. Same slices every time.
 * It is no model of a furnace and nothing is to be learned from it about real ones.
 */
public final class FurnaceFeed {
    /** Where the session starts on the wall. */
    public static final Instant START = Instant.parse("2026-01-17T22:10:00Z");

    /** Ratings that fit the feed. */
    public static final String SETUP = """
            title = "Back hall furnace"
            [switch]
            set-point = "0.60 inH2O"
            differential = "0.10 inH2O"
            [gas]
            kind = "natural"
            manifold = "3.5 inH2O"
            """;

    private static final Step TENTH_PASCAL = new Step(Unit.PASCAL, 1);
    private static final Step HUNDREDTH_INCH = new Step(Unit.INCH_OF_WATER, 2);
    private static final Step WHOLE = new Step(Unit.CONTACT, 0);

    private final int perSecond;
    private final SessionHeader header;
    private final long seed;
    private boolean closed;

    /**
     * A feed.
     *
     * @param perSecond readings a second of each pressure, 10 to 1000
     */
    public FurnaceFeed(int perSecond, Tap... taps) {
        this.perSecond = perSecond;
        this.seed = 7;
        List<Channel> channels = new ArrayList<>();
        List<SourceInfo> sources = new ArrayList<>();
        for (Tap tap : taps) {
            String id = tap.role();
            channels.add(new Channel(tap, id, "value", step(tap).unit()));
            sources.add(new SourceInfo(id, "ascii-line", "serial:/dev/invented-" + id, ""));
        }
        header = new SessionHeader(START, "", SessionHeader.LIVE_TIME_STEP_NANOS, channels, sources, SETUP);
    }

    /** The usual five lanes: draft at switch and inducer, gas, contact, inducer output. */
    public static FurnaceFeed usual() {
        return new FurnaceFeed(
                50, Tap.DRAFT_SWITCH, Tap.DRAFT_INDUCER, Tap.GAS_MANIFOLD, Tap.CONTACT_SWITCH, Tap.CONTACT_INDUCER);
    }

    public SessionHeader header() {
        return header;
    }

    private static Step step(Tap tap) {
        return switch (tap.quantity()) {
            case CONTACT -> WHOLE;
            case CURRENT -> new Step(Unit.MICROAMPERE, 2);
            default -> tap.role().startsWith("gas") ? HUNDREDTH_INCH : TENTH_PASCAL;
        };
    }

    /** A model that has seen the first {@code cells} slices. */
    public SessionModel played(int cells) {
        SessionModel model = new SessionModel();
        model.begin(header);
        play(model, 0, cells);
        return model;
    }

    /** Feeds slices {@code from} (inclusive) to {@code to} (exclusive). */
    public void play(SessionModel model, int from, int to) {
        for (int cell = from; cell < to; cell++) {
            model.slice(slice(cell));
        }
    }

    /** A slice of the feed; to be asked for in order. */
    public Slice slice(int cell) {
        List<Block> blocks = new ArrayList<>();
        List<SourceEvent> events = new ArrayList<>();
        for (Channel channel : header.channels()) {
            if (cell == 0) {
                events.add(new SourceEvent(channel.sourceId(), 0, SourceState.LIVE, ""));
            }
            blocks.add(block(channel, cell));
        }
        return new Slice(cell, blocks, events);
    }

    private Block block(Channel channel, int cell) {
        boolean contact = channel.tap().name().startsWith("CONTACT");
        int n = contact ? 1 : Math.max(1, perSecond / 10);
        long[] times = new long[n];
        long[] counts = new long[n];
        Step step = step(channel.tap());
        SplittableRandom noise = new SplittableRandom(
                seed * 31 + cell * 131L + channel.tap().role().hashCode());
        for (int i = 0; i < n; i++) {
            times[i] = cell * Slice.CELL_NANOS + i * (Slice.CELL_NANOS / n);
            double seconds = times[i] / 1e9;
            double base = value(channel.tap(), seconds, noise);
            counts[i] = Math.round(step.unit().fromBase(base) * step.countsPerUnit());
        }
        return new Block(channel, step, times, counts);
    }

    private double value(Tap tap, double seconds, SplittableRandom noise) {
        double t = seconds % 120;
        double hiss = noise.nextDouble(-1.5, 1.5);
        return switch (tap) {
            case DRAFT_SWITCH -> -suction(t) + hiss;
            case DRAFT_INDUCER -> -1.25 * suction(t) + hiss;
            case DRAFT_COLLECTOR -> -0.7 * suction(t) + hiss;
            case GAS_MANIFOLD -> (t > 40 && t < 85 ? 3.5 * 249.08891 : 0) + 0.5 * hiss;
            case GAS_INLET -> 7.1 * 249.08891 - (t > 40 && t < 85 ? 80 : 0) + hiss;
            case CONTACT_SWITCH -> contact(suction(t));
            case CONTACT_INDUCER -> t >= 10 && t < 90 ? 1 : 0;
            case CONTACT_GAS_VALVE -> t > 40 && t < 85 ? 1 : 0;
            case FLAME_CURRENT -> t > 42 && t < 85 ? 3.2 : 0;
            default -> 12 + hiss;
        };
    }

    private double contact(double suction) {
        closed = closed ? suction > 125 : suction > 150;
        return closed ? 1 : 0;
    }

    private static double suction(double t) {
        if (t < 10) {
            return 0;
        }
        double plateau = 232 - (t > 40 ? 26 * (1 - Math.exp(-(t - 40) / 15)) : 0);
        double slosh = t > 68 && t < 84 ? 3.2 * (t - 68) * (1 + Math.sin(2 * Math.PI * 1.1 * t)) : 0;
        if (t < 90) {
            return plateau * (1 - Math.exp(-(t - 10) / 1.4)) - slosh;
        }
        return plateau * Math.exp(-(t - 90) / 1.8);
    }
}
