package draftwitness.app;

import draftwitness.reading.Block;
import draftwitness.reading.Chunk;
import draftwitness.reading.Decimal;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Readings as lines such as {@code draft.switch -312.4 Pa}, as the driver {@code simulated-house} reads them. Pure. */
final class TapLine {
    private TapLine() {}

    /** One line, due at a session time. */
    static Chunk of(Tap tap, long count, Step step, long timeNanos) {
        StringBuilder line = new StringBuilder(tap.role()).append(' ');
        Decimal.append(line, count, step.decimals());
        line.append(' ').append(step.unit().symbol()).append('\n');
        byte[] bytes = line.toString().getBytes(StandardCharsets.US_ASCII);
        return new Chunk(bytes, 0, bytes.length, timeNanos);
    }

    /**
     * A slice's readings of all channels in order of time.
     *
     * @param zeroNanos session time that the lines count from; readings before it are left out
     */
    static List<Chunk> ofSlice(Slice slice, long zeroNanos) {
        List<Chunk> lines = new ArrayList<>();
        for (Block block : slice.blocks()) {
            for (int i = 0; i < block.size(); i++) {
                if (block.timeNanos(i) >= zeroNanos) {
                    lines.add(of(block.channel().tap(), block.count(i), block.step(), block.timeNanos(i) - zeroNanos));
                }
            }
        }
        lines.sort(Comparator.comparingLong(Chunk::arrivalNanos)); // stable: channels stay in the session's order
        return lines;
    }
}
