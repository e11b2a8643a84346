package draftwitness.dashboard;

import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.Unit;
import java.util.List;

/**
 * One lane ready to paint.
 *
 * @param header the texts beside it
 * @param channel its channel
 * @param unit the unit shown
 * @param columns its readings; their grid may be another than the window shown, while newer ones are being fetched
 * @param range what the value axis spans
 * @param lines rated levels
 * @param holdUntilNanos for contacts: how far the last state is known to hold
 * @param probe what cursor and measure say
 */
public record LaneFrame(
        LaneHeader header,
        Channel channel,
        Unit unit,
        Columns columns,
        ValueRange range,
        List<LevelLine> lines,
        long holdUntilNanos,
        LaneProbe probe) {
    public LaneFrame {
        lines = List.copyOf(lines);
    }

    /** Contacts are drawn as a slim ribbon instead of a curve. */
    public boolean ribbon() {
        return channel.tap().quantity() == Quantity.CONTACT;
    }
}
