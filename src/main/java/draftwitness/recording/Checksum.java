package draftwitness.recording;

import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceInfo;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32C;

/**
 * The checksums of a recording: CRC-32C (RFC 3720, appendix B.4) over a row's numbers, highest byte first, and its
 * texts, each led by its length in bytes. The same bytes of header, rows and events in order make the evidence's own
 * fingerprint. One owner thread.
 */
final class Checksum {
    private final java.util.zip.Checksum sum;

    private Checksum(java.util.zip.Checksum sum) {
        this.sum = sum;
    }

    private static Checksum crc() {
        return new Checksum(new CRC32C());
    }

    /** Feeds something else than a CRC. */
    static Checksum into(java.util.zip.Checksum sum) {
        return new Checksum(sum);
    }

    /** The checksum that belongs to a row of {@code stretch}. */
    static long of(StretchRow row) {
        return crc().add(row).value();
    }

    Checksum add(StretchRow row) {
        number(row.firstCell());
        number(row.cells());
        number(row.readings());
        number(row.lateCells());
        number(row.firstEvent());
        number(row.events());
        number(row.codec());
        sum.update(row.payload());
        return this;
    }

    static long of(OverviewRow row) {
        Checksum crc = crc();
        crc.number(row.level());
        crc.number(row.firstCell());
        crc.number(row.cells());
        crc.sum.update(row.payload());
        return crc.value();
    }

    static long of(long number, long cell, SourceEvent event) {
        return crc().add(number, cell, event).value();
    }

    Checksum add(long number, long cell, SourceEvent event) {
        number(number);
        number(cell);
        number(event.timeNanos());
        text(event.sourceId());
        text(event.state().name());
        text(event.detail());
        return this;
    }

    static long of(NoteLog.Change change) {
        Checksum crc = crc();
        Note note = change.note();
        crc.number(change.number());
        crc.number(note.id());
        crc.number(note.fromNanos());
        crc.number(note.toNanos());
        crc.text(note.text());
        crc.text(note.written().toString());
        crc.number(change.removed() ? 1 : 0);
        crc.number(change.takesBack());
        return crc.value();
    }

    static long of(SessionHeader header, String software) {
        return crc().add(header, software).value();
    }

    Checksum add(SessionHeader header, String software) {
        text(header.start() == null ? "" : header.start().toString());
        text(header.title());
        number(header.timeStepNanos());
        text(header.setupToml());
        text(software);
        for (Channel c : header.channels()) {
            text(c.tap().role());
            text(c.sourceId());
            text(c.readingName());
            text(c.unit().symbol());
        }
        for (SourceInfo s : header.sources()) {
            text(s.id());
            text(s.driver());
            text(s.link());
            text(s.description());
        }
        return this;
    }

    private long value() {
        return sum.getValue();
    }

    private void number(long value) {
        for (int shift = 56; shift >= 0; shift -= 8) {
            sum.update((int) (value >>> shift) & 0xFF);
        }
    }

    private void text(String text) {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        number(bytes.length);
        sum.update(bytes);
    }
}
