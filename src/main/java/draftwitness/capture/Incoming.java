package draftwitness.capture;

import draftwitness.link.ByteLink;
import draftwitness.reading.Chunk;
import draftwitness.reading.ZeroOffset;

/** What a link's reader hands to the pipeline, in the order in which it happened. */
@FunctionalInterface
interface Incoming {
    /** Lets the pipeline act on it, on the pipeline's thread. */
    void handOver(Intake intake);

    /** How many bytes it holds. */
    default int bytes() {
        return 0;
    }

    /** Bytes of a source. */
    record Bytes(int source, Chunk chunk) implements Incoming {
        @Override
        public void handOver(Intake intake) {
            intake.chunk(source, chunk);
        }

        @Override
        public int bytes() {
            return chunk.size();
        }
    }

    /** Whoever takes it: one method a case. */
    interface Intake {
        void chunk(int source, Chunk chunk);

        void opened(int source, ByteLink link, long timeNanos, boolean again);

        void gone(int source, long timeNanos, String detail);

        void retrying(int source, long timeNanos, String detail);

        void finished(int source, long timeNanos);

        void zero(int source, ZeroOffset zero);
    }
}
