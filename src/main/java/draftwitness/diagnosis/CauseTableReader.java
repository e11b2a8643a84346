package draftwitness.diagnosis;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Reads the table of causes; strict: unknown words, chances that do not make 100 and missing reasons are errors. */
final class CauseTableReader {
    private static final Set<String> SOURCES = Set.of("std", "physics", "practice", "memory");

    private final TomlTableReader top;
    private final Map<String, CauseTable.Kind> kinds = new LinkedHashMap<>();
    private final Map<String, Map<String, CauseTable.Row>> rows = new HashMap<>();
    private final List<Cause> causes = new ArrayList<>();
    private final List<Double> weights = new ArrayList<>();
    private final List<Check> checks = new ArrayList<>();
    private final Map<String, String> tells = new HashMap<>();

    private CauseTableReader(TomlTableReader top) {
        this.top = top;
    }

    /**
     * Reads a table.
     *
     * @param file what to call it in messages
     * @throws InputException naming line and key
     */
    static CauseTable read(String file, String text) throws InputException {
        CauseTableReader reader = new CauseTableReader(TomlTableReader.parse(file, text));
        CauseTable table = reader.table();
        reader.top.finish();
        return table;
    }

    private CauseTable table() throws InputException {
        double floor = top.number("floor", 0.02, 1e-6, 0.5);
        Map<String, String> cautions = top.table("caution").textEntries();
        TomlTableReader evidence = top.table("evidence");
        for (String id : evidence.keys()) {
            kind(id, evidence.table(id));
        }
        TomlTableReader all = top.table("check");
        for (String id : all.keys()) {
            check(id, all.table(id), cautions);
        }
        TomlTableReader list = top.table("cause");
        for (String id : list.keys()) {
            cause(id, list.table(id));
        }
        if (causes.isEmpty() || !causes.get(causes.size() - 1).isNone()) {
            throw top.error("cause", "'" + Cause.NONE + "' must be the last cause");
        }
        double sum = weights.stream().mapToDouble(Double::doubleValue).sum();
        return new CauseTable(
                List.copyOf(causes),
                weights.stream().map(w -> w / sum).toList(),
                Map.copyOf(kinds),
                List.copyOf(checks),
                Map.copyOf(tells),
                floor);
    }

    private void kind(String id, TomlTableReader t) throws InputException {
        Map<String, String> outcomes = t.table("outcomes").textEntries();
        if (outcomes.size() < 2) {
            throw t.error("outcomes", "must have at least two");
        }
        Map<String, CauseTable.Row> own = new LinkedHashMap<>();
        rows.put(id, own);
        List<String> names = List.copyOf(outcomes.keySet());
        kinds.put(
                id,
                new CauseTable.Kind(
                        id,
                        t.requiredString("title"),
                        names,
                        List.copyOf(outcomes.values()),
                        t.number("weight", 1, 0.05, 1),
                        row(t.table("usual"), names),
                        own));
    }

    private void check(String id, TomlTableReader t, Map<String, String> cautions) throws InputException {
        String told = t.string("tells").orElse(id);
        if (t.string("tells").isEmpty()) {
            if (kinds.containsKey(id)) {
                throw t.error("'" + id + "' is evidence already; say tells = \"" + id + "\"");
            }
            kind(id, t);
        }
        CauseTable.@Nullable Kind kind = kinds.get(told);
        if (kind == null) {
            throw t.error("tells", "no evidence '" + told + "'");
        }
        List<String> words = new ArrayList<>();
        for (String key : t.strings("cautions")) {
            String caution = cautions.get(key);
            if (caution == null) {
                throw t.error("cautions", "no caution '" + key + "'; known: " + cautions.keySet());
            }
            words.add(caution);
        }
        List<Check.Outcome> outcomes = new ArrayList<>();
        for (int i = 0; i < kind.outcomes().size(); i++) {
            outcomes.add(new Check.Outcome(kind.outcomes().get(i), kind.texts().get(i)));
        }
        checks.add(new Check(
                id,
                t.requiredString("title"),
                t.requiredString("text"),
                t.string("hose").orElse(""),
                t.number("minutes", 5, 0.1, 600),
                words,
                outcomes));
        tells.put(id, told);
    }

    private void cause(String id, TomlTableReader t) throws InputException {
        causes.add(new Cause(
                id,
                t.requiredString("name"),
                t.requiredString("meaning"),
                t.requiredString("remedy"),
                t.bool("danger", false)));
        weights.add(t.number("prior", Double.NaN, 1e-6, 1e6));
        if (!(weights.get(weights.size() - 1) > 0)) {
            throw t.error("prior", "is missing");
        }
        t.requiredString("prior-why");
        TomlTableReader shows = t.table("shows");
        for (String kindId : shows.keys()) {
            CauseTable.@Nullable Kind kind = kinds.get(kindId);
            Map<String, CauseTable.Row> own = rows.get(kindId);
            if (kind == null || own == null) {
                throw shows.error(kindId, "no such evidence; known: " + kinds.keySet());
            }
            own.put(id, row(shows.table(kindId), kind.outcomes()));
        }
    }

    private static CauseTable.Row row(TomlTableReader t, List<String> outcomes) throws InputException {
        List<Double> chances = new ArrayList<>();
        double sum = 0;
        for (String outcome : outcomes) {
            double chance = t.number(outcome, 0, 0, 100) / 100;
            chances.add(chance);
            sum += chance;
        }
        if (Math.abs(sum - 1) > 1e-9) {
            throw t.error("the outcomes must make 100, not " + 100 * sum);
        }
        String source = t.requiredString("from");
        if (!SOURCES.contains(source)) {
            throw t.error("from", "must be one of " + SOURCES);
        }
        return new CauseTable.Row(List.copyOf(chances), t.requiredString("why"), source);
    }
}
