package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Chunk;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * Gives a decoder the same bytes cut in every way: whole, byte by byte, in two at every place; and checks each time
 * that all bytes are accounted for and that what comes out does not depend on the cut.
 */
final class Chunking {
    private Chunking() {}

    /** What came out, the same for every cut. */
    static DecodeLog decode(Driver driver, byte[] bytes) {
        return decode(driver, bytes, "");
    }

    /** The same for bytes from one endpoint. */
    static DecodeLog decode(Driver driver, byte[] bytes, String endpoint) {
        DecodeLog whole = run(driver.newDecoder(), List.of(bytes), endpoint);
        List<byte[]> single = new ArrayList<>();
        for (byte b : bytes) {
            single.add(new byte[] {b});
        }
        assertThat(run(driver.newDecoder(), single, endpoint).events)
                .as("byte by byte")
                .isEqualTo(whole.events);
        for (int cut = 1; cut < bytes.length; cut++) {
            byte[] head = java.util.Arrays.copyOf(bytes, cut);
            byte[] tail = java.util.Arrays.copyOfRange(bytes, cut, bytes.length);
            assertThat(run(driver.newDecoder(), List.of(head, tail), endpoint).events)
                    .as("cut at " + cut)
                    .isEqualTo(whole.events);
        }
        return whole;
    }

    /** The same for text in ASCII. */
    static DecodeLog decode(Driver driver, String text) {
        return decode(driver, text.getBytes(StandardCharsets.ISO_8859_1));
    }

    /** One run; each chunk arrives a millisecond after the one before. */
    static DecodeLog run(Driver driver, List<byte[]> chunks) {
        return run(driver.newDecoder(), chunks, "");
    }

    static DecodeLog run(Decoder decoder, List<byte[]> chunks, String endpoint) {
        DecodeLog log = new DecodeLog();
        long given = 0;
        long now = 0;
        for (byte[] chunk : chunks) {
            now += 1_000_000;
            decoder.decode(new Chunk(chunk, 0, chunk.length, now, endpoint), log);
            given += chunk.length;
            assertThat(log.bytes + decoder.held()).as("bytes accounted for").isEqualTo(given);
        }
        return log;
    }
}
