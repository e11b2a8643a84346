package draftwitness.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What every link to an instrument must do, whatever it goes over. */
@Timeout(20)
abstract class ByteLinkContract {
    private ByteLink link;

    /** Makes the instrument's end ready. */
    abstract void startInstrument() throws Exception;

    /** Where the program finds it. */
    abstract LinkAddress address() throws Exception;

    /** Sends as the instrument. */
    abstract void instrumentSends(byte[] bytes) throws Exception;

    /** Takes the instrument away. */
    abstract void instrumentLeaves() throws Exception;

    @BeforeEach
    void open() throws Exception {
        startInstrument();
        link = openLink();
    }

    /** Opens the program's end. */
    ByteLink openLink() throws Exception {
        return new Links(Map.of()).open(address(), Ticker.system());
    }

    @AfterEach
    void close() throws Exception {
        link.close();
        instrumentLeaves();
    }

    @Test
    void givenBytesSent_whenRead_thenSameBytesInOrder() throws Exception {
        byte[] sent = new byte[10_000];
        for (int i = 0; i < sent.length; i++) {
            sent[i] = (byte) (i * 31);
        }
        CompletableFuture<Void> sending = CompletableFuture.runAsync(() -> {
            try {
                instrumentSends(sent);
            } catch (Exception e) {
                throw new IllegalStateException(e);
            }
        });
        ByteArrayOutputStream got = new ByteArrayOutputStream();
        long last = Long.MIN_VALUE;
        while (got.size() < sent.length) {
            Chunk chunk = link.read().orElseThrow();
            assertThat(chunk.size()).isPositive();
            assertThat(chunk.arrivalNanos()).isGreaterThanOrEqualTo(last);
            last = chunk.arrivalNanos();
            got.writeBytes(chunk.toArray());
        }
        sending.get(10, TimeUnit.SECONDS);
        assertThat(got.toByteArray()).isEqualTo(sent);
    }

    @Test
    void givenWaitingRead_whenInstrumentLeaves_thenReadFailsWithItsName() throws Exception {
        CompletableFuture<String> failure = failureOfRead();
        instrumentLeaves();
        assertThat(failure.get(10, TimeUnit.SECONDS)).contains(address().target());
    }

    @Test
    void givenWaitingRead_whenClosed_thenReadEnds() throws Exception {
        CompletableFuture<String> failure = failureOfRead();
        link.close();
        assertThat(failure.get(10, TimeUnit.SECONDS)).contains("closed");
        link.close(); // the second time does nothing
    }

    @Test
    void givenClosedLink_whenWritten_thenItFails() throws Exception {
        link.close();
        assertThatThrownBy(() -> link.write("x".getBytes(StandardCharsets.US_ASCII)))
                .isInstanceOf(LinkException.class);
    }

    private CompletableFuture<String> failureOfRead() throws InterruptedException, ExecutionException {
        CountDownLatch reading = new CountDownLatch(1);
        CompletableFuture<String> failure = CompletableFuture.supplyAsync(() -> {
            reading.countDown();
            try {
                return "read " + link.read();
            } catch (LinkException e) {
                return e.getMessage();
            }
        });
        reading.await();
        return failure;
    }
}
