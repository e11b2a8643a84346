package draftwitness.bridge;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

class OutboxTest {
    private static final int WEIGHT = new Message(Message.Kind.READINGS, "1234567890").weight();

    private static Message message(Message.Kind kind, String tenLetters) {
        return new Message(kind, tenLetters);
    }

    private static List<String> drain(Outbox outbox) throws InterruptedException {
        List<String> all = new ArrayList<>();
        for (Optional<Message> m = outbox.poll(0, TimeUnit.SECONDS);
                m.isPresent();
                m = outbox.poll(0, TimeUnit.SECONDS)) {
            all.add(m.get().json());
        }
        return all;
    }

    @Test
    void givenRoom_whenMessagesOfAllKindsWait_thenTheyComeOutInTheOrderGiven() throws InterruptedException {
        Outbox outbox = new Outbox(100L * WEIGHT);
        outbox.add(message(Message.Kind.READINGS, "readings-1"));
        outbox.add(message(Message.Kind.EPISODE, "episode--1"));
        outbox.add(message(Message.Kind.READINGS, "readings-2"));
        assertThat(drain(outbox)).containsExactly("readings-1", "episode--1", "readings-2");
        assertThat(outbox.dropped()).isZero();
    }

    @Test
    void givenNoRoom_whenMoreReadingsCome_thenTheOldestReadingsGoAndEpisodesStay() throws InterruptedException {
        Outbox outbox = new Outbox(3L * WEIGHT);
        outbox.add(message(Message.Kind.EPISODE, "episode--1"));
        for (int i = 1; i <= 5; i++) {
            outbox.add(message(Message.Kind.READINGS, "readings-" + i));
        }
        assertThat(outbox.dropped()).isEqualTo(3);
        assertThat(drain(outbox)).containsExactly("episode--1", "readings-4", "readings-5");
    }

    @Test
    void givenNoRoomAndNoReadings_whenMoreComes_thenTheOldestGoes() throws InterruptedException {
        Outbox outbox = new Outbox(2L * WEIGHT);
        outbox.add(message(Message.Kind.CYCLE, "cycle----1"));
        outbox.add(message(Message.Kind.CYCLE, "cycle----2"));
        outbox.add(message(Message.Kind.CYCLE, "cycle----3"));
        assertThat(drain(outbox)).containsExactly("cycle----2", "cycle----3");
        assertThat(outbox.dropped()).isEqualTo(1);
    }

    @Test
    void givenAMessageLargerThanAllRoom_whenItIsAlone_thenItIsKept() throws InterruptedException {
        Outbox outbox = new Outbox(10);
        outbox.add(message(Message.Kind.READINGS, "readings-1"));
        assertThat(drain(outbox)).containsExactly("readings-1");
        assertThat(outbox.size()).isZero();
    }
}
