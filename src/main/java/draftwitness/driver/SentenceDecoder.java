package draftwitness.driver;

import draftwitness.reading.Chunk;
import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Reads sentences in the style of NMEA 0183: {@code $WIXDR,P,-0.00249,B,DRAFT*0B}. One owner thread.
 *
 * <p>The checksum is the exclusive-or of every character between {@code $} and {@code *}, as two hexadecimal digits.
 * What stands before the {@code $} is noise; other sentences with a good checksum are passed over.
 */
final class SentenceDecoder implements Decoder {
    private static final Pattern COMMA = Pattern.compile(",");

    private final String talker;
    private final String type;
    private final SentenceFormat format;
    private final LineAssembler lines;
    private final Staged staged = new Staged();

    /**
     * @param talker first letters of the address, empty for any
     * @param type last letters of the address, for example {@code XDR}
     */
    SentenceDecoder(String talker, String type, SentenceFormat format, int longest) {
        this.talker = talker;
        this.type = type;
        this.format = format;
        this.lines = new LineAssembler(longest, LineEnd.ANY, this::line);
    }

    @Override
    public void decode(Chunk chunk, DecodeSink sink) {
        lines.accept(chunk, sink);
    }

    private void line(byte[] buffer, int length, int bytes, long arrivalNanos, DecodeSink sink) {
        String line = new String(buffer, 0, length, StandardCharsets.ISO_8859_1);
        int start = line.lastIndexOf('$');
        if (start < 0) {
            sink.fault(Fault.NOT_A_READING, bytes);
            return;
        }
        if (start > 0) {
            sink.fault(Fault.NOISE, start);
        }
        staged.clear();
        Fault fault = judge(line.substring(start + 1).strip());
        if (fault == null) {
            staged.release(bytes - start, arrivalNanos, sink);
        } else {
            sink.fault(fault, bytes - start);
        }
    }

    private @Nullable Fault judge(String sentence) {
        int star = sentence.length() - 3;
        if (star < 0
                || sentence.charAt(star) != '*'
                || !sentence.substring(star + 1).equals(check(sentence, star))) {
            return Fault.BAD_CHECKSUM;
        }
        String[] fields = COMMA.split(sentence.substring(0, star), -1);
        String address = fields[0];
        if (!address.startsWith(talker) || !address.endsWith(type) || address.length() < type.length()) {
            return null;
        }
        return format.read(fields, staged);
    }

    private static String check(String sentence, int end) {
        int x = 0;
        for (int i = 0; i < end; i++) {
            x ^= sentence.charAt(i);
        }
        return String.format("%02X", x);
    }

    @Override
    public void restart(long nowNanos) {
        lines.restart();
    }

    @Override
    public void restartInStep(long nowNanos) {
        lines.startClean();
    }

    @Override
    public int held() {
        return lines.held();
    }
}
