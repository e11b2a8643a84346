package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Chunk;
import java.util.List;
import java.util.Random;

/** Seeded random bytes: pure noise, good messages, pieces of them, and good messages with one byte hurt. */
final class RandomCases {
    private final Random random;
    private final List<byte[]> good;

    RandomCases(long seed, List<byte[]> good) {
        this.random = new Random(seed);
        this.good = good;
    }

    /** The next input, 0 to some dozens of bytes. */
    byte[] next() {
        byte[] base = good.get(random.nextInt(good.size())).clone();
        switch (random.nextInt(5)) {
            case 0 -> {
                base = new byte[random.nextInt(40)];
                random.nextBytes(base);
            }
            case 1 -> {
                int from = random.nextInt(base.length + 1);
                base = java.util.Arrays.copyOfRange(base, from, from + random.nextInt(base.length - from + 1));
            }
            case 2 -> base[random.nextInt(base.length)] ^= (byte) (1 << random.nextInt(8));
            case 3 -> {
                // whole
            }
            default -> base[random.nextInt(base.length)] = (byte) random.nextInt(256);
        }
        return base;
    }

    /** So many inputs one after the other. */
    byte[] stream(int inputs) {
        java.io.ByteArrayOutputStream out = new java.io.ByteArrayOutputStream();
        for (int i = 0; i < inputs; i++) {
            out.writeBytes(next());
        }
        return out.toByteArray();
    }

    /**
     * Feeds so many inputs to one decoder, with restarts and asking in between: nothing is thrown, all bytes are
     * accounted for, and what is held stays under the ceiling.
     */
    static DecodeLog feed(Driver driver, long seed, int inputs, int ceiling, List<byte[]> good) {
        return feed(driver, seed, inputs, ceiling, good, List.of(""));
    }

    /** The same, each input from one of the endpoints. */
    static DecodeLog feed(
            Driver driver, long seed, int inputs, int ceiling, List<byte[]> good, List<String> endpoints) {
        return feed(driver.newDecoder(), seed, inputs, ceiling, good, endpoints);
    }

    static DecodeLog feed(
            Decoder decoder, long seed, int inputs, int ceiling, List<byte[]> good, List<String> endpoints) {
        RandomCases cases = new RandomCases(seed, good);
        DecodeLog log = new DecodeLog();
        long given = 0;
        long now = 0;
        for (int i = 0; i < inputs; i++) {
            byte[] bytes = cases.next();
            now += 1 + cases.random.nextInt(20_000_000);
            String endpoint = endpoints.get(cases.random.nextInt(endpoints.size()));
            decoder.due(now, log);
            decoder.decode(new Chunk(bytes, 0, bytes.length, now, endpoint), log);
            given += bytes.length;
            if (log.bytes + decoder.held() != given || decoder.held() > ceiling) {
                assertThat(log.bytes + decoder.held())
                        .as("seed " + seed + ", input " + i + ", held " + decoder.held())
                        .isEqualTo(given);
                assertThat(decoder.held()).as("seed " + seed + ", input " + i).isLessThanOrEqualTo(ceiling);
            }
            if (cases.random.nextInt(1000) == 0) {
                given -= decoder.held();
                decoder.restart(now);
            }
            if (log.events.size() > 10_000) {
                log.events.clear();
            }
        }
        return log;
    }
}
