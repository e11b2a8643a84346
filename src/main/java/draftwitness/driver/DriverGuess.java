package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.reading.Chunk;
import draftwitness.reading.Decimal;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A driver that may fit some bytes, with what it read in them as proof. Immutable.
 *
 * @param driver as in {@code DRIVER@LINK}, with parameters
 * @param title which instruments it is for
 * @param score 0 to 1: the share of the bytes that became messages, half for drivers that would have to ask
 * @param readings how many readings came out
 * @param proof the first few of them
 */
public record DriverGuess(String driver, String title, double score, int readings, List<String> proof) {
    private static final int PROOFS = 4;

    /** Less than this share of the bytes is chance. */
    private static final double LEAST = 0.3;

    /** A driver that asks fits less well to an instrument that talks by itself. */
    private static final double ASKING = 0.5;

    public DriverGuess {
        proof = List.copyOf(proof);
    }

    /**
     * A guess before ranking.
     *
     * @param share of the bytes that became messages with readings
     * @param used share of the driver's readings that came at all
     */
    private record Fit(DriverGuess guess, double share, double used) {}

    /**
     * The drivers that make readings of the bytes, best first. Each is tried with its defaults and with the variants
     * that its description offers, and named once, as it fits best. Bytes may begin anywhere in a message.
     */
    public static List<DriverGuess> rank(DriverCatalog catalog, byte[] bytes) {
        List<Fit> fits = new ArrayList<>();
        for (String spec : catalog.variants()) {
            fit(catalog, spec, bytes)
                    .filter(f -> f.guess().readings() > 0 && f.share() >= LEAST)
                    .ifPresent(fits::add);
        }
        fits.sort(Comparator.comparingDouble((Fit f) -> -f.guess().score())
                .thenComparingDouble(f -> -f.used())
                .thenComparing(f -> f.guess().driver()));
        Set<String> told = new HashSet<>();
        return fits.stream()
                .map(Fit::guess)
                .filter(g -> told.add(name(g.driver())))
                .toList();
    }

    private static String name(String spec) {
        int mark = spec.indexOf('?');
        return mark < 0 ? spec : spec.substring(0, mark);
    }

    /** Empty if the description cannot be used; the catalogue's list says why. */
    private static Optional<Fit> fit(DriverCatalog catalog, String spec, byte[] bytes) {
        Driver driver;
        try {
            driver = catalog.find(spec);
        } catch (InputException e) {
            return Optional.empty();
        }
        Tally tally = new Tally(driver);
        Decoder decoder = driver.newListener();
        decoder.restart(0);
        decoder.decode(new Chunk(bytes, 0, bytes.length, 0), tally);
        boolean asks = driver.newDecoder().nextDueNanos() != Long.MAX_VALUE;
        int judged = bytes.length - tally.filler - tally.partial - decoder.held();
        double share = judged <= 0 ? 0 : (double) tally.inMessages / judged;
        double used = (double) tally.indexes.size() / driver.readings().size();
        DriverGuess guess =
                new DriverGuess(spec, driver.title(), asks ? share * ASKING : share, tally.readings, tally.proof);
        return Optional.of(new Fit(guess, share, used));
    }

    /** Counts; one thread. */
    private static final class Tally implements DecodeSink {
        private final Driver driver;
        private final Set<Integer> indexes = new HashSet<>();
        private final List<String> proof = new ArrayList<>();
        private int readings;
        private int pending;
        private int inMessages;
        private int filler;
        private int partial;

        Tally(Driver driver) {
            this.driver = driver;
        }

        @Override
        public void reading(int index, Decimal value, Unit unit, long arrivalNanos) {
            readings++;
            pending++;
            indexes.add(index);
            if (proof.size() < PROOFS) {
                proof.add(driver.readings().get(index).name() + " " + value + " " + unit.symbol());
            }
        }

        @Override
        public void fault(Fault fault, int bytes) {
            partial += fault == Fault.PARTIAL ? bytes : 0;
        }

        @Override
        public void message(int bytes) {
            inMessages += pending > 0 ? bytes : 0; // a message without a reading proves little
            pending = 0;
        }

        @Override
        public void filler(int bytes) {
            filler += bytes;
        }
    }
}
