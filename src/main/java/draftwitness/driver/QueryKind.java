package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Reads descriptions of the kind {@code query}. Pure. */
final class QueryKind {
    private static final int LONGEST = 256;

    /** What is put after a question. */
    private enum SendEnd {
        LF("\n"),
        CR("\r"),
        CRLF("\r\n");

        private final String text;

        SendEnd(String text) {
            this.text = text;
        }
    }

    private QueryKind() {}

    static Plan read(TomlTableReader root) throws InputException {
        TomlTableReader query = root.table("query");
        TomlTableReader line = root.table("line");
        List<LineKind.Entry> entries = LineKind.entries(root);
        QueryDecoder.Manners manners = new QueryDecoder.Manners(
                start(query),
                round(root, query, line, entries),
                ReadingTables.choice(query, "send-end", SendEnd.LF).text,
                AskPace.nanos(query.number("start-pause", 0.1, 0, 60)),
                ModbusKind.pace(query, 0.2, 1.0, 0.5),
                (int) line.integer("longest", LONGEST, 8, 4096),
                ReadingTables.choice(line, "end", LineEnd.ANY));
        return new Plan(LineKind.specs(entries), () -> new QueryDecoder(manners));
    }

    private static List<QueryDecoder.Question> start(TomlTableReader query) throws InputException {
        List<QueryDecoder.Question> out = new ArrayList<>();
        for (String text : query.strings("start")) {
            if (!text.isBlank()) {
                out.add(new QueryDecoder.Question(sendable(query, "start", text), text.contains("?"), null));
            }
        }
        return List.copyOf(out);
    }

    /** Readings with the same question share its answer; questions come in the order of their first reading. */
    private static List<QueryDecoder.Question> round(
            TomlTableReader root, TomlTableReader query, TomlTableReader line, List<LineKind.Entry> entries)
            throws InputException {
        String common = query.string("ask").orElse("");
        Map<String, List<LineKind.Entry>> byQuestion = new LinkedHashMap<>();
        for (LineKind.Entry entry : entries) {
            String ask = entry.table().string("ask").orElse(common);
            if (ask.isBlank()) {
                throw entry.table().error("no question: give 'ask' here or under [query]");
            }
            byQuestion
                    .computeIfAbsent(sendable(entry.table(), "ask", ask), k -> new ArrayList<>())
                    .add(entry);
        }
        List<QueryDecoder.Question> out = new ArrayList<>();
        for (Map.Entry<String, List<LineKind.Entry>> one : byQuestion.entrySet()) {
            out.add(new QueryDecoder.Question(one.getKey(), true, LineKind.format(root, line, one.getValue())));
        }
        return List.copyOf(out);
    }

    private static String sendable(TomlTableReader table, String key, String text) throws InputException {
        if (text.chars().anyMatch(c -> c < ' ' || c > '~')) {
            throw table.error(key, "must be plain characters; the end of a line is set by send-end");
        }
        return text.strip();
    }
}
