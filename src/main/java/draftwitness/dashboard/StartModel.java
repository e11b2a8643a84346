package draftwitness.dashboard;

import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The start screen: which instruments are in reach, where each is connected, and what the plate says. One instrument
 * alone is put at the switch, where most jobs need it. User-interface thread.
 */
public final class StartModel {
    private final SessionChooser chooser;
    private final SetupEditor setup;
    private final Map<Tap, FoundSource> connected = new EnumMap<>(Tap.class);
    private List<FoundSource> sources = List.of();
    private @Nullable FoundSource selected;
    private boolean touched;

    public StartModel(SessionChooser chooser, SetupEditor setup) {
        this.chooser = chooser;
        this.setup = setup;
    }

    /** Looks again at what is in reach; to be called regularly. */
    public void refresh() {
        sources = List.copyOf(chooser.sources());
        for (Map.Entry<Tap, FoundSource> entry : connected.entrySet()) {
            for (FoundSource found : sources) {
                if (found.isSame(entry.getValue())) {
                    entry.setValue(found);
                }
            }
        }
        FoundSource before = selected;
        if (before != null) {
            selected = sources.stream().filter(before::isSame).findFirst().orElse(null);
        }
        if (!touched && sources.size() == 1 && sources.get(0).fits(Quantity.PRESSURE)) {
            connected.put(Tap.DRAFT_SWITCH, sources.get(0));
            touched = true;
        }
    }

    /** Instruments in reach. */
    public List<FoundSource> sources() {
        return sources;
    }

    /** Recordings made or opened lately. */
    public List<RecentRecording> recent() {
        return chooser.recent();
    }

    public SetupEditor setup() {
        return setup;
    }

    /** The instrument that the next tap pressed is for, or null. */
    public @Nullable FoundSource selected() {
        return selected;
    }

    /** Takes an instrument into the hand; taking it again puts it down. */
    public void select(FoundSource source) {
        selected = selected != null && selected.isSame(source) ? null : source;
        touched = true;
    }

    /** What is connected where. */
    public Map<Tap, FoundSource> connected() {
        return Map.copyOf(connected);
    }

    /** The tap that an instrument is at, or null. */
    public @Nullable Tap tapOf(FoundSource source) {
        for (Map.Entry<Tap, FoundSource> entry : connected.entrySet()) {
            if (entry.getValue().isSame(source)) {
                return entry.getKey();
            }
        }
        return null;
    }

    /** True when the instrument in the hand could go to a tap, or something there could be taken off. */
    public boolean canPress(Tap tap) {
        FoundSource inHand = selected;
        return inHand == null ? connected.containsKey(tap) : inHand.fits(tap.quantity());
    }

    /** Connects the instrument in the hand to a tap; with none in the hand, takes off what is there. */
    public void press(Tap tap) {
        FoundSource inHand = selected;
        touched = true;
        if (inHand == null) {
            connected.remove(tap);
        } else if (inHand.fits(tap.quantity())) {
            connected.values().removeIf(inHand::isSame);
            connected.put(tap, inHand);
            selected = null;
        }
    }

    /** What to do next, or what is wrong, in one line. */
    public String hint() {
        FoundSource inHand = selected;
        if (inHand != null) {
            return inHand.trouble().isEmpty() ? Words.get("start.hint.tap", inHand.title()) : inHand.trouble();
        }
        if (sources.isEmpty()) {
            return Words.get("start.hint.none");
        }
        if (connected.isEmpty()) {
            return Words.get("start.hint.source");
        }
        String problem = setup.draft().problem();
        if (problem != null) {
            return problem;
        }
        return Words.get(setup.draft().text(SetupField.SET_POINT).isEmpty() ? "start.hint.plate" : "start.hint.go");
    }

    public boolean canWatch() {
        return !connected.isEmpty() && setup.draft().problem() == null;
    }

    /** Connects everything and goes live. */
    public void watch() {
        if (canWatch()) {
            List<WatchRequest.Choice> choices = new ArrayList<>();
            connected.forEach((tap, source) -> choices.add(new WatchRequest.Choice(source, tap)));
            chooser.watch(new WatchRequest(choices, setup.draft().toToml()));
        }
    }
}
