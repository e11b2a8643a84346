package draftwitness.app;

import draftwitness.reading.Chunk;
import draftwitness.reading.Decimal;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import java.nio.charset.StandardCharsets;

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
}
