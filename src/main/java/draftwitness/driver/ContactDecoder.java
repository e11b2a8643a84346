package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import draftwitness.reading.Chunk;
import draftwitness.reading.Decimal;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Adds contacts on a serial port's control lines to another decoder. One owner thread.
 *
 * <p>A line's state comes as a chunk of one byte whose endpoint is the line's name; everything else goes to the decoder
 * for the bytes. Control circuits of a furnace are 24 V AC and may carry more: a contact is wired to a control line
 * through an isolated input only.
 */
final class ContactDecoder implements Decoder {

    /** Lines that a serial port reads. */
    enum Line {
        CTS,
        DSR,
        DCD,
        RI
    }

    /**
     * One contact.
     *
     * @param index of the reading
     * @param inverted whether an asserted line means an open contact
     */
    record Contact(int index, String name, Line line, boolean inverted) {}

    private final Decoder bytes;
    private final List<Contact> contacts;

    ContactDecoder(Decoder bytes, List<Contact> contacts) {
        this.bytes = bytes;
        this.contacts = List.copyOf(contacts);
    }

    /** Reads the {@code [[contact]]} tables. */
    static List<Contact> read(TomlTableReader root, List<ReadingSpec> others) throws InputException {
        Set<String> names = new HashSet<>();
        others.forEach(o -> names.add(o.name()));
        List<Contact> out = new ArrayList<>();
        for (TomlTableReader table : root.tables("contact")) {
            String name = table.requiredString("name");
            if (!names.add(name)) {
                throw table.error("name", "'" + name + "' is used twice");
            }
            Line line = ReadingTables.choice(table, "line", Line.CTS);
            out.add(new Contact(others.size() + out.size(), name, line, table.bool("inverted", false)));
        }
        return out;
    }

    static List<ReadingSpec> specs(List<Contact> contacts) {
        return contacts.stream()
                .map(c -> new ReadingSpec(c.name(), Unit.CONTACT))
                .toList();
    }

    static Set<String> lines(List<Contact> contacts) {
        return contacts.stream().map(c -> c.line().name()).collect(Collectors.toCollection(LinkedHashSet::new));
    }

    @Override
    public void decode(Chunk chunk, DecodeSink sink) {
        if (chunk.endpoint().isEmpty()) {
            bytes.decode(chunk, sink);
            return;
        }
        boolean known = false;
        for (Contact contact : contacts) {
            if (contact.line().name().equals(chunk.endpoint())) {
                known = true;
                for (int i = 0; i < chunk.size(); i++) {
                    int state = (chunk.at(i) != 0) != contact.inverted() ? 1 : 0;
                    sink.reading(contact.index(), new Decimal(state, 0), Unit.CONTACT, chunk.arrivalNanos());
                }
            }
        }
        if (known && chunk.size() > 0) {
            sink.message(chunk.size());
        } else if (!known) {
            bytes.decode(chunk, sink);
        }
    }

    @Override
    public void restart(long nowNanos) {
        bytes.restart(nowNanos);
    }

    @Override
    public void restartInStep(long nowNanos) {
        bytes.restartInStep(nowNanos);
    }

    @Override
    public int held() {
        return bytes.held();
    }

    @Override
    public Optional<byte[]> due(long nowNanos, DecodeSink sink) {
        return bytes.due(nowNanos, sink);
    }

    @Override
    public long nextDueNanos() {
        return bytes.nextDueNanos();
    }

    /** For instruments whose bytes mean nothing. */
    static final class Nothing implements Decoder {
        @Override
        public void decode(Chunk chunk, DecodeSink sink) {
            if (chunk.size() > 0) {
                sink.fault(Fault.NOISE, chunk.size());
            }
        }

        @Override
        public void restart(long nowNanos) {
            // nothing is held
        }

        @Override
        public int held() {
            return 0;
        }
    }
}
