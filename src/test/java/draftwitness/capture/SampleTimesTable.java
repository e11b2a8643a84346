package draftwitness.capture;

import draftwitness.driver.SampleRate;
import draftwitness.reading.Block;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.function.Function;

/** Makes the table of docs/sample-times.md: {@code main} writes the page anew. */
final class SampleTimesTable {
    private static final int SECONDS = 600;
    private static final int WARM_UP_SECONDS = 4;

    private SampleTimesTable() {}

    /** A row of the table. */
    record Row(
            String link,
            double hertz,
            double skew,
            SampleRate.By by,
            double lost,
            Arrivals.Spread arrival,
            Arrivals.Spread clock,
            Arrivals.Spread settled,
            String end) {}

    /** Runs one case with seed 1. */
    static Row run(
            String link,
            double hertz,
            double skew,
            SampleRate.By by,
            double lost,
            Function<Random, Arrivals.Delay> how) {
        Arrivals all = Arrivals.of((int) (SECONDS * hertz), hertz, skew, how.apply(new Random(1)));
        Random losses = new Random(2);
        SampleTimes times = new SampleTimes(Optional.of(new SampleRate(hertz, by)));
        times.restart();
        double[] raw = new double[all.size()];
        double[] made = new double[all.size()];
        int n = 0;
        int warm = 0;
        for (int k = 0; k < all.size(); k++) {
            if (losses.nextDouble() < lost) {
                continue;
            }
            boolean counted = by == SampleRate.By.COUNTER;
            long time = times.timeNanos(all.arrived[k], counted ? k % 65536 : Block.NO_COUNTER, counted ? 16 : 0);
            raw[n] = all.errorMillis(k, (double) all.arrived[k]);
            made[n++] = all.errorMillis(k, (double) time);
            warm = k < WARM_UP_SECONDS * hertz ? n : warm;
        }
        return new Row(
                link,
                hertz,
                skew,
                by,
                lost,
                Arrivals.Spread.of(Arrays.copyOf(raw, n)),
                Arrivals.Spread.of(Arrays.copyOf(made, n)),
                Arrivals.Spread.of(Arrays.copyOfRange(made, warm, n)),
                times.isComputed() ? "kept" : "given up");
    }

    /** All rows. */
    static Row[] rows() {
        SampleRate.By counter = SampleRate.By.COUNTER;
        SampleRate.By order = SampleRate.By.ORDER;
        return new Row[] {
            run("plain", 50, 0, counter, 0, Arrivals::plain),
            run("plain", 50, 100e-6, counter, 0, Arrivals::plain),
            run("plain", 10, -100e-6, counter, 0, Arrivals::plain),
            run("plain", 50, 0.005, counter, 0, Arrivals::plain),
            run("plain", 50, 100e-6, counter, 0.02, Arrivals::plain),
            run("plain", 50, 100e-6, order, 0, Arrivals::plain),
            run("plain", 50, 100e-6, order, 0.0005, Arrivals::plain),
            run("adapter", 50, 100e-6, counter, 0, Arrivals::adapter),
            run("radio", 50, 100e-6, counter, 0, Arrivals::radio),
            run("radio", 10, 100e-6, counter, 0, Arrivals::radio),
            run("radio", 50, 100e-6, counter, 0.02, Arrivals::radio),
            run("radio", 50, 100e-6, order, 0.02, Arrivals::radio)
        };
    }

    /** A row as it stands in the page, with the end of its line. */
    static String text(Row r) {
        return String.format(
                Locale.ROOT,
                "| %s | %.0f | %.0f | %s | %s | %s | %s | %s | %s |%n",
                r.link(),
                r.hertz(),
                r.skew() * 1e6,
                r.by().name().toLowerCase(Locale.ROOT),
                r.lost() == 0 ? "0" : String.format(Locale.ROOT, "%.2f %%", 100 * r.lost()),
                text(r.arrival()),
                text(r.clock()),
                text(r.settled()),
                r.end());
    }

    private static String text(Arrivals.Spread s) {
        return String.format(Locale.ROOT, "%.2f / %.2f / %.2f", s.std(), s.p99(), s.max());
    }

    /** Writes the table between the marks of the page. */
    public static void main(String[] args) throws IOException {
        Path page = Path.of(args.length > 0 ? args[0] : "docs/sample-times.md");
        StringBuilder table = new StringBuilder();
        for (Row row : rows()) {
            table.append(text(row));
        }
        String old = Files.readString(page, StandardCharsets.UTF_8);
        String head = "|---|---|---|---|---|---|---|---|---|\n";
        int from = old.indexOf(head) + head.length();
        int to = old.indexOf("\n\n", from) + 1;
        Files.writeString(page, old.substring(0, from) + table + old.substring(to), StandardCharsets.UTF_8);
    }
}
