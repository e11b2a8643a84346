package draftwitness.reading;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Map;

/**
 * The zero offsets in force as a session's slices pass by; the newest fact at a tap holds. One owner thread.
 *
 * <p>Undoing adds a fact, the one that was in force before; nothing is erased.
 */
public final class Zeros {
    private final Map<Tap, Deque<ZeroOffset>> byTap = new EnumMap<>(Tap.class);

    /** Takes what a slice's events tell of. */
    public void slice(Slice slice) {
        for (SourceEvent event : slice.events()) {
            ZeroOffset.in(event).ifPresent(this::take);
        }
    }

    private void take(ZeroOffset zero) {
        Deque<ZeroOffset> stack = byTap.computeIfAbsent(zero.tap(), t -> new ArrayDeque<>());
        if (zero.equals(undone(stack, zero.tap(), zero.timeNanos()))) {
            if (!stack.isEmpty()) {
                stack.pop();
            }
            return;
        }
        stack.push(zero);
    }

    private static ZeroOffset undone(Deque<ZeroOffset> stack, Tap tap, long timeNanos) {
        return stack.stream().skip(1).findFirst().map(z -> z.from(timeNanos)).orElse(ZeroOffset.none(tap, timeNanos));
    }

    /** What to take off readings at a tap, in pascal; 0 if nothing is known. */
    public double pascals(Tap tap) {
        Deque<ZeroOffset> stack = byTap.get(tap);
        return stack == null || stack.isEmpty() ? 0 : stack.element().pascals();
    }

    /** A reading of a block, in the base unit of its quantity, with its tap's offset taken off. */
    public double value(Block block, int i) {
        return block.value(i) - pascals(block.channel().tap());
    }

    /** The fact that takes the newest offset at a tap back. */
    public ZeroOffset undo(Tap tap, long timeNanos) {
        return undone(byTap.getOrDefault(tap, new ArrayDeque<>()), tap, timeNanos);
    }
}
