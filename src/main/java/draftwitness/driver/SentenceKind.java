package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.util.ArrayList;
import java.util.List;

/** Reads descriptions of the kind {@code sentence}. Pure. */
final class SentenceKind {
    private SentenceKind() {}

    static Plan read(TomlTableReader root) throws InputException {
        TomlTableReader sentence = root.table("sentence");
        String talker = sentence.string("talker").orElse("");
        String type = sentence.requiredString("type");
        int longest = (int) sentence.integer("longest", 256, 16, 4096);
        List<ReadingSpec> specs = new ArrayList<>();
        List<SentenceFormat.Place> places = new ArrayList<>();
        ReadingTables.forEach(root, (table, spec) -> {
            places.add(place(table, spec, specs.size()));
            specs.add(spec);
        });
        SentenceFormat format = new SentenceFormat(places);
        return new Plan(specs, () -> new SentenceDecoder(talker, type, format, longest));
    }

    private static SentenceFormat.Place place(TomlTableReader table, ReadingSpec spec, int index)
            throws InputException {
        int field = (int) table.integer("field", 0, 1, 80);
        String transducer = table.string("transducer-type").orElse("");
        if ((field > 0) != transducer.isEmpty()) {
            throw table.error("give either 'field' or 'transducer-type'");
        }
        return new SentenceFormat.Place(
                index,
                TextReading.read(table, spec, false),
                field,
                (int) table.integer("unit-field", 0, 1, 80),
                transducer,
                table.string("transducer").orElse(""),
                table.bool("optional", false));
    }
}
