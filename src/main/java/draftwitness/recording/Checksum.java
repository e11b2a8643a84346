package draftwitness.recording;

import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceInfo;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32C;

/**
 * The checksums of a recording: CRC-32C (RFC 3720, appendix B.4) over a row's numbers, highest byte first, and its
 * texts, each led by its length in bytes. Pure.
 */
final class Checksum {
    private final CRC32C crc = new CRC32C();

    private Checksum() {}

    /** The checksum that belongs to a row of {@code stretch}. */
    static long of(StretchRow row) {
        Checksum sum = new Checksum();
        sum.number(row.firstCell());
        sum.number(row.cells());
        sum.number(row.readings());
        sum.number(row.lateCells());
        sum.number(row.firstEvent());
        sum.number(row.events());
        sum.number(row.codec());
        sum.crc.update(row.payload());
        return sum.crc.getValue();
    }

    static long of(OverviewRow row) {
        Checksum sum = new Checksum();
        sum.number(row.level());
        sum.number(row.firstCell());
        sum.number(row.cells());
        sum.crc.update(row.payload());
        return sum.crc.getValue();
    }

    static long of(long number, long cell, SourceEvent event) {
        Checksum sum = new Checksum();
        sum.number(number);
        sum.number(cell);
        sum.number(event.timeNanos());
        sum.text(event.sourceId());
        sum.text(event.state().name());
        sum.text(event.detail());
        return sum.crc.getValue();
    }

    static long of(SessionHeader header, String software) {
        Checksum sum = new Checksum();
        sum.text(header.start() == null ? "" : header.start().toString());
        sum.text(header.title());
        sum.number(header.timeStepNanos());
        sum.text(header.setupToml());
        sum.text(software);
        for (Channel c : header.channels()) {
            sum.text(c.tap().role());
            sum.text(c.sourceId());
            sum.text(c.readingName());
            sum.text(c.unit().symbol());
        }
        for (SourceInfo s : header.sources()) {
            sum.text(s.id());
            sum.text(s.driver());
            sum.text(s.link());
            sum.text(s.description());
        }
        return sum.crc.getValue();
    }

    private void number(long value) {
        for (int shift = 56; shift >= 0; shift -= 8) {
            crc.update((int) (value >>> shift) & 0xFF);
        }
    }

    private void text(String text) {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        number(bytes.length);
        crc.update(bytes);
    }
}
