package draftwitness.reading;

/**
 * One stream of readings of one instrument, assigned to a tap. A session has at most one channel a tap.
 *
 * @param tap where the hose or wire is connected
 * @param sourceId the source that it comes from, a {@link SourceInfo#id()}
 * @param readingName the driver's name of the reading, for example {@code pressure}
 * @param unit the unit the channel is shown and exported in: the one the instrument was declared to send
 */
public record Channel(Tap tap, String sourceId, String readingName, Unit unit) {
    public Channel {
        if (unit.quantity() != tap.quantity()) {
            throw new IllegalArgumentException(
                    tap.role() + " is a " + tap.quantity() + ", and " + unit.symbol() + " is not a unit of that");
        }
    }
}
