package draftwitness.diagnosis;

import draftwitness.input.InputException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * All that the program believes about causes, evidence and checks, read from {@code diagnosis/causes.toml}. Immutable.
 *
 * @param causes in the table's order, {@code none} last
 * @param prior for each cause, sums to 1
 * @param kinds of evidence and of checks, by identifier
 * @param checks in the table's order
 * @param tells for each check the kind of evidence that its outcomes belong to
 * @param floor what every outcome keeps under every cause, as a share spread evenly over all outcomes: nothing is
 *     impossible, so that one mistaken reading cannot rule a cause out for good
 */
record CauseTable(
        List<Cause> causes,
        List<Double> prior,
        Map<String, Kind> kinds,
        List<Check> checks,
        Map<String, String> tells,
        double floor) {

    /**
     * What a cause does to one kind of evidence.
     *
     * @param chances for each outcome, sums to 1, without the floor
     * @param why the reason, one sentence
     * @param source {@code std}, {@code physics}, {@code practice} or {@code memory}
     */
    record Row(List<Double> chances, String why, String source) {}

    /**
     * One kind of evidence.
     *
     * @param id the word used in files
     * @param title a few words
     * @param outcomes identifiers, in order
     * @param texts for each outcome what was seen
     * @param weight how much of its log-likelihood counts, above 0, up to 1: less than 1 where other kinds tell partly
     *     the same, or where the likelihoods are rough
     * @param usual of a cause that does nothing to it
     * @param byCause what some causes do to it, by the cause's identifier
     */
    record Kind(
            String id,
            String title,
            List<String> outcomes,
            List<String> texts,
            double weight,
            Row usual,
            Map<String, Row> byCause) {
        /** What a cause does to it. */
        Row row(Cause cause) {
            Row own = byCause.get(cause.id());
            return own == null ? usual : own;
        }

        /** Place of an outcome. */
        int index(String outcome) {
            int i = outcomes.indexOf(outcome);
            if (i < 0) {
                throw new IllegalArgumentException(id + " has no outcome '" + outcome + "'");
            }
            return i;
        }
    }

    private static final class Standard {
        static final CauseTable TABLE = load();

        private static CauseTable load() {
            try (InputStream in = CauseTable.class.getResourceAsStream("/diagnosis/causes.toml")) {
                if (in == null) {
                    throw new IllegalStateException("the program's own table of causes is missing");
                }
                return CauseTableReader.read("causes.toml", new String(in.readAllBytes(), StandardCharsets.UTF_8));
            } catch (IOException | InputException e) {
                throw new IllegalStateException("the program's own table of causes: " + e.getMessage(), e);
            }
        }
    }

    /** The table that comes with the program. */
    static CauseTable standard() {
        return Standard.TABLE;
    }

    /** The kind of evidence that a check gives. */
    Kind kindOf(Check check) {
        return kind(tells.getOrDefault(check.id(), check.id()));
    }

    /**
     * A kind of evidence.
     *
     * @throws IllegalArgumentException if there is none of this name
     */
    Kind kind(String id) {
        @Nullable Kind kind = kinds.get(id);
        if (kind == null) {
            throw new IllegalArgumentException("no evidence '" + id + "'");
        }
        return kind;
    }

    /** For each cause the chances of all outcomes, floor included. */
    double[][] chances(Kind kind) {
        int k = kind.outcomes().size();
        double[][] out = new double[causes.size()][k];
        for (int c = 0; c < out.length; c++) {
            List<Double> row = kind.row(causes.get(c)).chances();
            for (int o = 0; o < k; o++) {
                out[c][o] = (1 - floor) * row.get(o) + floor / k;
            }
        }
        return out;
    }
}
