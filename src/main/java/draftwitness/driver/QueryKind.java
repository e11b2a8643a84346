package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

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
        return new Plan(LineKind.specs(entries), () -> new QueryDecoder(manners), () -> listener(manners), null);
    }

    /** Any of the answers, in any order; echoes of the questions mean nothing. */
    private static Decoder listener(QueryDecoder.Manners manners) {
        List<Pattern> echoes = Stream.concat(manners.start().stream(), manners.round().stream())
                .map(q -> Pattern.compile(Pattern.quote(q.text())))
                .toList();
        return new LineDecoder((line, staged) -> read(manners, line, staged), echoes, manners.longest(), manners.end());
    }

    private static @Nullable Fault read(QueryDecoder.Manners manners, String line, Staged staged) {
        Fault first = null;
        for (QueryDecoder.Question question : manners.round()) {
            LineFormat format = question.format();
            staged.clear();
            Fault fault = format == null ? Fault.NOT_A_READING : format.read(line, staged);
            if (fault == null) {
                return null;
            }
            first = first == null ? fault : first;
        }
        return first;
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
