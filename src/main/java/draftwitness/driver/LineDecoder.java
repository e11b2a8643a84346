package draftwitness.driver;

import draftwitness.reading.Chunk;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.Pattern;

/** Reads an instrument that sends lines of text by itself. One owner thread. */
final class LineDecoder implements Decoder {
    private final LineJudge format;
    private final List<Pattern> ignored;
    private final LineAssembler lines;
    private final Staged staged = new Staged();

    /** @param ignored patterns of lines that mean nothing: prompts, headings, comments */
    LineDecoder(LineJudge format, List<Pattern> ignored, int longest, LineEnd end) {
        this.format = format;
        this.ignored = ignored;
        this.lines = new LineAssembler(longest, end, this::line);
    }

    @Override
    public void decode(Chunk chunk, DecodeSink sink) {
        lines.accept(chunk, sink);
    }

    private void line(byte[] buffer, int length, int bytes, long arrivalNanos, DecodeSink sink) {
        String line = withoutPrompt(text(buffer, length));
        if (line.isBlank() || isIgnored(line)) {
            sink.filler(bytes);
            return;
        }
        staged.clear();
        Fault fault = format.read(line, staged);
        if (fault == null) {
            staged.release(bytes, arrivalNanos, sink);
        } else {
            sink.fault(fault, bytes);
        }
    }

    private boolean isIgnored(String line) {
        for (Pattern pattern : ignored) {
            try {
                if (pattern.matcher(new BoundedText(line.strip())).matches()) {
                    return true;
                }
            } catch (BoundedText.TooManyLooks e) {
                return false; // it will be judged as a line like any other
            }
        }
        return false;
    }

    /** Some instruments end an answer with a prompt, which then stands before the next line. */
    static String withoutPrompt(String line) {
        int i = 0;
        while (i < line.length() && (line.charAt(i) == '>' || line.charAt(i) == ' ')) {
            i++;
        }
        return i > 0 && line.lastIndexOf('>', i - 1) >= 0 ? line.substring(i) : line;
    }

    /** UTF-8 where it is valid, else Latin-1; only units need more than ASCII. */
    static String text(byte[] buffer, int length) {
        for (int i = 0; i < length; i++) {
            if (buffer[i] < 0) {
                try {
                    return StandardCharsets.UTF_8
                            .newDecoder()
                            .decode(ByteBuffer.wrap(buffer, 0, length))
                            .toString();
                } catch (CharacterCodingException e) {
                    return new String(buffer, 0, length, StandardCharsets.ISO_8859_1);
                }
            }
        }
        return new String(buffer, 0, length, StandardCharsets.US_ASCII);
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
