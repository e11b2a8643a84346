package draftwitness.cycle;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The recent course of all channels of a session. One owner thread. */
final class Sources {
    private static final Tap[] SEQUENCE = {Tap.DRAFT_INDUCER, Tap.DRAFT_SWITCH, Tap.DRAFT_COLLECTOR};

    private final Map<Tap, Track> tracks = new EnumMap<>(Tap.class);
    private final Map<Tap, StateTrack> states = new EnumMap<>(Tap.class);

    Sources(List<Channel> channels, CycleSettings settings) {
        boolean switchMeasured = channels.stream().anyMatch(c -> c.tap() == Tap.DRAFT_SWITCH);
        for (Channel c : channels) {
            if (c.tap().quantity() == Quantity.CONTACT) {
                states.put(c.tap(), new StateTrack());
            } else {
                tracks.put(c.tap(), new Track(c, settings.lasting(), c.tap() == Tap.DRAFT_SWITCH || !switchMeasured));
            }
        }
    }

    void add(Block block) {
        Tap tap = block.channel().tap();
        Track track = tracks.get(tap);
        StateTrack state = states.get(tap);
        if (track != null) {
            track.add(block);
        } else if (state != null) {
            state.add(block);
        }
    }

    /** The looks at a tap, or null. */
    @Nullable
    Track track(Tap tap) {
        return tracks.get(tap);
    }

    /** The states at a tap, or null. */
    @Nullable
    StateTrack states(Tap tap) {
        return states.get(tap);
    }

    /**
     * The channel that tells inducer runs: at the inducer itself, else at the switch, else at the collector; or null.
     */
    @Nullable
    Track sequence() {
        for (Tap tap : SEQUENCE) {
            Track track = tracks.get(tap);
            if (track != null) {
                return track;
            }
        }
        return null;
    }

    /** The channel that margins are taken from: at the switch, or null. */
    @Nullable
    Track atSwitch() {
        return tracks.get(Tap.DRAFT_SWITCH);
    }

    Iterable<Track> tracks() {
        return tracks.values();
    }

    void close() {
        tracks.values().forEach(Track::close);
    }

    void dropBefore(long time) {
        tracks.values().forEach(t -> t.dropBefore(time));
        states.values().forEach(s -> s.dropBefore(time));
    }
}
