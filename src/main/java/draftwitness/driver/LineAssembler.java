package draftwitness.driver;

import draftwitness.reading.Chunk;

/**
 * Cuts a byte stream into lines of text. One owner thread.
 *
 * <p>How it works: it is in one of two states. While <em>seeking</em> it throws bytes away through the first line end,
 * because a line whose beginning was not seen can look like a whole one ({@code -1.234} arrives as {@code 34}); so it
 * starts, and so it is after {@link #restart} and after an endless line. While <em>collecting</em> it gathers a line up
 * to a ceiling. NUL, 0xFF, XON and XOFF are idle fill between lines; within a line they are damage, as is any other
 * control byte but a tab: one flipped bit makes XON out of the digit 1. A damaged line is dropped whole.
 */
final class LineAssembler {

    /** Receives whole lines and reports what became of their bytes. */
    interface Taker {
        /**
         * One line without control bytes, not blank.
         *
         * @param buffer holds the line from 0 to {@code length}; valid during the call
         * @param bytes how many bytes it took with its end, to be reported to the sink
         */
        void line(byte[] buffer, int length, int bytes, long arrivalNanos, DecodeSink sink);

        /** A line that was dropped because it is damaged or has no end. */
        default void damaged(Fault fault, int bytes, DecodeSink sink) {
            sink.fault(fault, bytes);
        }
    }

    private static final int CR = 0x0D;
    private static final int LF = 0x0A;

    private final LineEnd end;
    private final Taker taker;
    private final byte[] buffer;
    private int length;
    private boolean seeking = true;
    private boolean damaged;
    private boolean lastWasCr;
    private int sought;

    /** @param longest ceiling for one line in bytes, without its end */
    LineAssembler(int longest, LineEnd end, Taker taker) {
        this.end = end;
        this.taker = taker;
        this.buffer = new byte[longest + 1]; // and one for the CR of CRLF
    }

    void accept(Chunk chunk, DecodeSink sink) {
        for (int i = 0; i < chunk.size(); i++) {
            accept(chunk.at(i), chunk.arrivalNanos(), sink);
        }
    }

    private void accept(int b, long arrivalNanos, DecodeSink sink) {
        boolean ends = switch (end) {
            case ANY -> b == CR || b == LF;
            case CR -> b == CR;
            case LF -> b == LF;
            case CRLF -> b == LF && lastWasCr;
        };
        lastWasCr = b == CR;
        if (seeking) {
            seek(ends, sink);
        } else if (ends) {
            finish(arrivalNanos, sink);
        } else if (length == 0 && isIdle(b)) {
            sink.filler(1);
        } else {
            collect(b, sink);
        }
    }

    private void seek(boolean ends, DecodeSink sink) {
        sought++;
        if (ends) {
            seeking = false;
        }
        if (ends || sought >= buffer.length) {
            sink.fault(Fault.PARTIAL, sought);
            sought = 0;
        }
    }

    private void collect(int b, DecodeSink sink) {
        boolean firstOfEnd = end == LineEnd.CRLF && b == CR;
        boolean afterLoneCr = end == LineEnd.CRLF && length > 0 && buffer[length - 1] == CR;
        boolean control = (b < 0x20 && b != '\t' && !firstOfEnd) || b == 0x7F || b == 0xFF;
        damaged |= control || afterLoneCr;
        if (length == buffer.length) {
            int bytes = length + 1;
            clear();
            seeking = true;
            taker.damaged(Fault.TOO_LONG, bytes, sink);
            return;
        }
        buffer[length++] = (byte) b;
    }

    private void finish(long arrivalNanos, DecodeSink sink) {
        int bytes = length + 1;
        int textLength = end == LineEnd.CRLF ? length - 1 : length;
        boolean bad = damaged;
        clear();
        if (bad) {
            taker.damaged(Fault.GARBLED, bytes, sink);
        } else if (isBlank(textLength)) {
            sink.filler(bytes);
        } else {
            taker.line(buffer, textLength, bytes, arrivalNanos, sink);
        }
    }

    private boolean isBlank(int textLength) {
        for (int i = 0; i < textLength; i++) {
            if (buffer[i] != ' ' && buffer[i] != '\t') {
                return false;
            }
        }
        return true;
    }

    private static boolean isIdle(int b) {
        return b == 0x00 || b == 0xFF || b == 0x11 || b == 0x13;
    }

    private void clear() {
        length = 0;
        damaged = false;
    }

    /** What follows may begin within a line. Bytes held are forgotten. */
    void restart() {
        clear();
        lastWasCr = false;
        sought = 0;
        seeking = true;
    }

    /** What follows begins with a line, by the owner's own knowledge. Bytes held are forgotten. */
    void startClean() {
        restart();
        seeking = false;
    }

    /** Whether what is held is at most a prompt and blanks. */
    boolean holdsOnlyPrompt() {
        for (int i = 0; i < length; i++) {
            if (buffer[i] != ' ' && buffer[i] != '>' && buffer[i] != CR) {
                return false;
            }
        }
        return sought == 0;
    }

    /** Bytes held at present. */
    int held() {
        return length + sought;
    }
}
