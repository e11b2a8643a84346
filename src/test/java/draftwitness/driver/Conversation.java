package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Chunk;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.PriorityQueue;

/** Lets a decoder that asks talk to a scripted instrument, in made-up time. */
final class Conversation {

    /** What the instrument does. */
    @FunctionalInterface
    interface Instrument {
        /** What it answers; each chunk's time counts from the question, whose number is from 0. */
        List<Chunk> answers(byte[] question, int number);
    }

    private record Arrival(Chunk chunk, int order) {
        long nanos() {
            return chunk.arrivalNanos();
        }
    }

    /** Questions as sent, in order. */
    final List<byte[]> asked = new ArrayList<>();

    final List<Long> askedAt = new ArrayList<>();
    final DecodeLog log = new DecodeLog();
    private final Decoder decoder;
    private final Instrument instrument;
    private final PriorityQueue<Arrival> arrivals =
            new PriorityQueue<>(Comparator.comparingLong(Arrival::nanos).thenComparingInt(Arrival::order));
    private int order;
    private long given;

    Conversation(Driver driver, Instrument instrument) {
        this.decoder = driver.newDecoder();
        this.instrument = instrument;
    }

    /** Bytes that come by themselves. */
    Conversation unasked(long atNanos, byte[] bytes) {
        arrivals.add(arrival(atNanos, bytes));
        return this;
    }

    /** Runs from time 0 to {@code untilNanos}. */
    Conversation run(long untilNanos) {
        decoder.restart(0);
        long now = 0;
        int idle = 0;
        while (true) {
            Arrival next = arrivals.peek();
            long due = Math.max(now, decoder.nextDueNanos());
            now = next == null ? due : Math.min(due, next.nanos());
            if (now > untilNanos) {
                return this;
            }
            if (next != null && next.nanos() <= now) {
                arrivals.remove();
                decoder.decode(next.chunk(), log);
                given += next.chunk().size();
            } else {
                idle = ask(now) ? 0 : idle + 1;
                assertThat(idle).as("due again and again at " + now).isLessThan(10);
            }
            assertThat(log.bytes + decoder.held()).as("bytes accounted for").isEqualTo(given);
        }
    }

    private boolean ask(long now) {
        Optional<byte[]> question = decoder.due(now, log);
        if (question.isEmpty()) {
            return false;
        }
        int number = asked.size();
        asked.add(question.get());
        askedAt.add(now);
        for (Chunk answer : instrument.answers(question.get(), number)) {
            arrivals.add(arrival(now + answer.arrivalNanos(), answer.toArray()));
        }
        return true;
    }

    private Arrival arrival(long nanos, byte[] bytes) {
        return new Arrival(new Chunk(bytes, 0, bytes.length, nanos), order++);
    }

    /** The bytes in one piece after so many milliseconds. */
    static List<Chunk> after(long millis, byte[] bytes) {
        return List.of(new Chunk(bytes, 0, bytes.length, millis * 1_000_000));
    }

    /** The bytes in two pieces, cut at {@code at}. */
    static List<Chunk> cut(long millis, byte[] bytes, int at, long gapMillis) {
        return List.of(
                new Chunk(bytes, 0, at, millis * 1_000_000),
                new Chunk(bytes, at, bytes.length - at, (millis + gapMillis) * 1_000_000));
    }
}
