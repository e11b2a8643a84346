package draftwitness.furnace;

import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The same house with other instruments on it. */
final class Refit {
    private Refit() {}

    /** The house's own instrument at a tap, or null. */
    static @Nullable InstrumentSpec own(House house, Tap tap) {
        return house.instruments().stream()
                .filter(i -> i.tap() == tap)
                .findFirst()
                .orElse(null);
    }

    /** An instrument with the zero and the drop-outs of another; sound ones when there is none. */
    static InstrumentSpec like(
            @Nullable InstrumentSpec like,
            Tap tap,
            Tap connectedTo,
            Unit unit,
            int decimals,
            double rate,
            double noise) {
        return new InstrumentSpec(
                tap,
                connectedTo,
                unit,
                decimals,
                rate,
                noise,
                like == null ? 0 : like.zero(),
                like == null ? 0 : like.zeroDriftPerHour(),
                0,
                0.001,
                like == null ? 0 : like.dropOutsPerHour(),
                like == null ? 3 : like.dropOutSeconds());
    }

    /** A scenario with these instruments, of this length. */
    static Scenario with(Scenario s, double seconds, List<InstrumentSpec> specs) {
        House h = s.house();
        return new Scenario(
                s.name(),
                s.title(),
                s.lesson(),
                seconds,
                new House(
                        h.title(),
                        h.place(),
                        h.flue(),
                        h.rating(),
                        h.gas(),
                        h.sequence(),
                        h.calls(),
                        h.faults(),
                        specs,
                        h.variety()));
    }
}
