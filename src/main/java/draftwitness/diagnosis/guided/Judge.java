package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** What one kind of measurement asks for and how it is judged. Without state; any thread. */
interface Judge {

    /**
     * The stretches of readings to take, in order.
     *
     * @param taps what is connected
     * @param chosen the tap that the person chose, or null
     * @return empty if what is connected is not enough
     */
    List<Part> parts(Set<Tap> taps, @Nullable Tap chosen);

    /** What would have to be connected, in plain words. */
    String needs();

    /**
     * Judges what was taken.
     *
     * @param parts readings of the parts taken so far, by {@link Part#id()}; maybe a part of what was asked for
     */
    Judgement judge(Map<String, PartReadings> parts, Terms terms);

    /** Whether a part that has no length of its own has all that it needs. */
    default boolean enough(PartReadings readings, Terms terms) {
        return false;
    }
}
