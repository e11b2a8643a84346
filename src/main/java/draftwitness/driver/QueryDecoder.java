package draftwitness.driver;

import draftwitness.reading.Chunk;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Asks an instrument for lines of text, in the style of IEEE 488.2, as a pure state machine. One owner thread.
 *
 * <p>How it works: start-up commands once, then round after round of questions, never more than one under way.
 *
 * <ul>
 *   <li><em>quiet</em>: after opening and after any failure; all bytes are thrown away until none has come for the
 *       quiet time, so that a late answer does not become the next question's answer.
 *   <li><em>idle</em>: waiting for the next question's time. A line now is stray and leads to quiet; a prompt is not.
 *   <li><em>waiting</em>: the first line that is not blank and not the question's echo is the answer. It is never
 *       salvaged: if it is damaged, the question is asked again, and after a second failure the next one.
 * </ul>
 *
 * After an answer that did not come, the start-up commands are sent again: the instrument may have lost its power, and
 * with it the units that were set.
 */
final class QueryDecoder implements Decoder {

    /**
     * Something to send.
     *
     * @param text without its end
     * @param answered whether a line comes back
     * @param format how the answer is read, or null if it does not matter
     */
    record Question(String text, boolean answered, @Nullable LineFormat format) {}

    /**
     * How to talk.
     *
     * @param start sent once after opening
     * @param round asked again and again
     * @param sendEnd put after each question
     * @param startPause wait after a command that is not answered, in nanoseconds
     * @param longest ceiling of an answer in bytes
     * @param end what ends an answer
     */
    record Manners(
            List<Question> start,
            List<Question> round,
            String sendEnd,
            long startPause,
            AskPace pace,
            int longest,
            LineEnd end) {}

    private enum State {
        NEW,
        QUIET,
        IDLE,
        WAITING
    }

    private final Manners manners;
    private final LineAssembler lines;
    private final Staged staged = new Staged();
    private State state = State.NEW;
    private boolean starting = true;
    private int current;
    private boolean failedBefore;
    private long until;
    private long roundStart;

    QueryDecoder(Manners manners) {
        this.manners = manners;
        this.lines = new LineAssembler(manners.longest(), manners.end(), new Answers());
    }

    /** Judges the lines as they come. */
    private final class Answers implements LineAssembler.Taker {
        @Override
        public void line(byte[] buffer, int length, int bytes, long arrivalNanos, DecodeSink sink) {
            String line =
                    LineDecoder.withoutPrompt(LineDecoder.text(buffer, length)).strip();
            if (line.isEmpty()
                    || (state == State.WAITING && line.equals(question().text()))) {
                sink.filler(bytes);
            } else if (state == State.WAITING) {
                answer(line, bytes, arrivalNanos, sink);
            } else {
                sink.fault(Fault.STRAY_ANSWER, bytes);
                goQuiet(arrivalNanos);
            }
        }

        @Override
        public void damaged(Fault fault, int bytes, DecodeSink sink) {
            sink.fault(fault, bytes);
            if (state == State.WAITING) {
                failed();
            }
            state = State.QUIET; // until is set by the caller, who knows the time
        }
    }

    private Question question() {
        return (starting ? manners.start() : manners.round()).get(current);
    }

    private void answer(String line, int bytes, long arrivalNanos, DecodeSink sink) {
        LineFormat format = question().format();
        staged.clear();
        Fault fault = format == null ? null : format.read(line, staged);
        if (fault == null) {
            staged.release(bytes, arrivalNanos, sink);
            succeeded(arrivalNanos);
        } else {
            sink.fault(fault, bytes);
            failed();
            goQuiet(arrivalNanos);
        }
    }

    private void succeeded(long now) {
        failedBefore = false;
        state = State.IDLE;
        next();
        until = !starting && current == 0
                ? Math.max(now, roundStart + manners.pace().period())
                : now;
    }

    private void next() {
        current++;
        if (starting && current == manners.start().size()) {
            starting = false;
            current = 0;
            roundStart = until - manners.pace().period();
        } else if (!starting && current == manners.round().size()) {
            current = 0;
        }
    }

    private void failed() {
        if (failedBefore && !starting) {
            failedBefore = false;
            next();
        } else {
            failedBefore = true;
        }
    }

    private void startOver() {
        starting = !manners.start().isEmpty();
        current = starting ? 0 : current;
    }

    private void goQuiet(long from) {
        state = State.QUIET;
        until = from + manners.pace().quiet();
    }

    @Override
    public void decode(Chunk chunk, DecodeSink sink) {
        advance(chunk.arrivalNanos(), sink);
        if (state == State.QUIET) {
            sink.fault(Fault.STRAY_ANSWER, chunk.size());
            goQuiet(chunk.arrivalNanos());
            return;
        }
        lines.accept(chunk, sink);
        if (state == State.QUIET) {
            giveUpHeld(Fault.STRAY_ANSWER, sink);
            goQuiet(chunk.arrivalNanos());
        }
    }

    private void giveUpHeld(Fault fault, DecodeSink sink) {
        if (lines.held() > 0) {
            sink.fault(fault, lines.held());
        }
        lines.startClean();
    }

    /** Lets what time alone decides happen: a time-out, the end of quiet. */
    private void advance(long now, DecodeSink sink) {
        if (state == State.NEW) {
            restart(now);
        }
        if (state == State.WAITING && now - until >= 0) {
            if (!question().answered()) {
                succeeded(now);
                return;
            }
            sink.fault(Fault.NO_ANSWER, 0);
            giveUpHeld(Fault.PARTIAL, sink);
            failed();
            startOver();
            goQuiet(now);
        } else if (state == State.QUIET && now - until >= 0) {
            state = State.IDLE;
            until = now;
        }
    }

    @Override
    public void restart(long nowNanos) {
        lines.startClean();
        starting = !manners.start().isEmpty();
        current = 0;
        failedBefore = false;
        goQuiet(nowNanos);
    }

    /**
     * The answer to a question of ours begins in step anyway, and is not to be thrown away for it; everything else must
     * wait for quiet.
     */
    @Override
    public void restartInStep(long nowNanos) {
        if (state != State.WAITING || lines.held() > 0) {
            restart(nowNanos);
        }
    }

    @Override
    public int held() {
        return lines.held();
    }

    @Override
    public Optional<byte[]> due(long nowNanos, DecodeSink sink) {
        advance(nowNanos, sink);
        if (state != State.IDLE || nowNanos - until < 0) {
            return Optional.empty();
        }
        if (!lines.holdsOnlyPrompt()) {
            giveUpHeld(Fault.STRAY_ANSWER, sink); // its rest would become the head of the answer
            goQuiet(nowNanos);
            return Optional.empty();
        }
        if (lines.held() > 0) {
            sink.filler(lines.held());
        }
        lines.startClean();
        return Optional.of(send(nowNanos));
    }

    private byte[] send(long nowNanos) {
        if (!starting && current == 0) {
            roundStart = nowNanos;
        }
        Question question = question();
        state = State.WAITING;
        until = nowNanos + (question.answered() ? manners.pace().timeout() : manners.startPause());
        return (question.text() + manners.sendEnd()).getBytes(StandardCharsets.US_ASCII);
    }

    @Override
    public long nextDueNanos() {
        return state == State.NEW ? Long.MIN_VALUE / 2 : until;
    }
}
