package draftwitness.time;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.OptionalLong;

/** The machine's clock. Any thread. */
enum SystemTicker implements Ticker {
    INSTANCE;

    private static final Path UPTIME = Path.of("/proc/uptime");

    @Override
    public long nanos() {
        return System.nanoTime();
    }

    @Override
    public Instant wallClock() {
        return Instant.now();
    }

    @Override
    public boolean hasMachinesWallClock() {
        return true;
    }

    @Override
    public OptionalLong sinceBootNanos() {
        try {
            String text = Files.readString(UPTIME); // seconds with two decimals, then the idle time: proc(5)
            return OptionalLong.of(new BigDecimal(text.substring(0, text.indexOf(' ')))
                    .scaleByPowerOfTen(9)
                    .longValue());
        } catch (IOException | RuntimeException e) {
            return OptionalLong.empty(); // not Linux
        }
    }

    @Override
    public long realNanos(long tickerNanos) {
        return tickerNanos;
    }
}
