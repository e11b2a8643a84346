package draftwitness.reading;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * The zero offsets of a session and how they are taken off. One owner thread.
 *
 * <p>Recordings and listeners that {@link SessionListener#takesRaw take readings raw} get them as the instrument wrote
 * them; everyone else gets {@link #zeroed} slices, live, replayed and from a file alike. What is taken off a reading
 * depends on its own time and on the facts alone, not on how a session was cut into slices: at each tap the newest fact
 * that is not later than the reading holds. The offset is rounded to whole counts of the reading's own step, so that no
 * digits are made up; that costs at most half a step.
 *
 * <p>Undoing adds a fact, the one that was in force before; nothing is erased, and readings between are left as they
 * were told.
 */
public final class Zeros {
    private final Map<Tap, Deque<ZeroOffset>> stacks = new EnumMap<>(Tap.class);
    private final Map<Tap, List<ZeroOffset>> facts = new EnumMap<>(Tap.class);

    /** All that the events of a session tell of; events in the order in which they were recorded. */
    public static Zeros of(List<SourceEvent> events) {
        Zeros zeros = new Zeros();
        events.forEach(e -> ZeroOffset.in(e).ifPresent(zeros::take));
        return zeros;
    }

    /** Takes what a slice's events tell of; what is known already, or is not newer, changes nothing. */
    public void slice(Slice slice) {
        for (SourceEvent event : slice.events()) {
            ZeroOffset.in(event).ifPresent(this::take);
        }
    }

    private void take(ZeroOffset zero) {
        List<ZeroOffset> known = facts.computeIfAbsent(zero.tap(), t -> new ArrayList<>());
        if (!known.isEmpty() && zero.timeNanos() <= known.get(known.size() - 1).timeNanos()) {
            return;
        }
        known.add(zero);
        Deque<ZeroOffset> stack = stacks.computeIfAbsent(zero.tap(), t -> new ArrayDeque<>());
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

    /** All facts known, tap by tap, oldest first; those that took one back have 0 readings or repeat an earlier one. */
    public List<ZeroOffset> facts() {
        return facts.values().stream().flatMap(List::stream).toList();
    }

    /** What is taken off the newest readings at a tap, in pascal; 0 if nothing is known. */
    public double pascals(Tap tap) {
        return pascals(tap, Long.MAX_VALUE);
    }

    /** What is taken off a reading at a tap and time, in pascal; 0 if nothing is known. */
    public double pascals(Tap tap, long timeNanos) {
        List<ZeroOffset> known = facts.getOrDefault(tap, List.of());
        for (int i = known.size() - 1; i >= 0; i--) {
            if (known.get(i).timeNanos() <= timeNanos) {
                return known.get(i).pascals();
            }
        }
        return 0;
    }

    /** What is taken off a reading at a tap and time, in whole counts of its step. */
    public long counts(Tap tap, long timeNanos, Step step) {
        double pascals = pascals(tap, timeNanos);
        return pascals == 0 ? 0 : Math.round(pascals / step.inBase(1));
    }

    /**
     * A reading of a block that is as it came, in the base unit of its quantity, with the offset taken off unrounded.
     */
    public double value(Block block, int i) {
        return block.value(i) - pascals(block.channel().tap(), block.timeNanos(i));
    }

    /** The same slice with the offsets taken off; the slice itself if there are none. */
    public Slice zeroed(Slice slice) {
        if (slice.blocks().stream().noneMatch(b -> facts.containsKey(b.channel().tap()))) {
            return slice;
        }
        List<Block> blocks = new ArrayList<>();
        slice.blocks().forEach(b -> zeroed(b, blocks));
        return new Slice(slice.index(), blocks, slice.events());
    }

    private void zeroed(Block block, List<Block> out) {
        int from = 0;
        long counts = countsAt(block, 0);
        for (int i = 1; i < block.size(); i++) {
            long next = countsAt(block, i);
            if (next != counts) {
                out.add(block.lowered(from, i, counts));
                from = i;
                counts = next;
            }
        }
        out.add(from == 0 && counts == 0 ? block : block.lowered(from, block.size(), counts));
    }

    private long countsAt(Block block, int i) {
        return counts(block.channel().tap(), block.timeNanos(i), block.step());
    }

    /** The fact that takes the newest offset at a tap back. */
    public ZeroOffset undo(Tap tap, long timeNanos) {
        return undone(stacks.getOrDefault(tap, new ArrayDeque<>()), tap, timeNanos);
    }
}
