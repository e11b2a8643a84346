package draftwitness.app;

import draftwitness.link.ByteLink;
import draftwitness.link.Feed;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.LinkNeeds;
import draftwitness.link.LinkOpener;
import draftwitness.link.PacedLink;
import draftwitness.reading.Chunk;
import draftwitness.reading.Slice;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.SliceCursor;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Opens {@code recording:PATH}: what an earlier session recorded, as lines of text that the driver
 * {@code simulated-house} reads, at the times at which it was read, counted from the recording's first cell.
 */
final class RecordingLinks implements LinkOpener {

    @Override
    public ByteLink open(LinkAddress address, LinkNeeds needs, Ticker ticker) throws LinkException {
        try {
            RecordingFile file = RecordingFile.open(Path.of(address.target()));
            return new PacedLink(address.toString(), new Lines(file), ticker);
        } catch (RecordingException e) {
            throw new LinkException(String.valueOf(e.getMessage()), e);
        }
    }

    /** One owner thread. */
    private static final class Lines implements Feed {
        private final RecordingFile file;
        private final SliceCursor cursor;
        private final Zeros zeros;
        private final long startNanos;
        private final Deque<Chunk> ready = new ArrayDeque<>();

        Lines(RecordingFile file) throws RecordingException {
            this.file = file;
            this.cursor = file.slices();
            this.zeros = file.zeros();
            this.startNanos = file.firstCell().orElse(0) * Slice.CELL_NANOS;
        }

        @Override
        public Optional<Chunk> next() throws LinkException {
            try {
                while (ready.isEmpty()) {
                    @Nullable Slice slice = cursor.next();
                    if (slice == null) {
                        return Optional.empty();
                    }
                    ready.addAll(TapLine.ofSlice(zeros.zeroed(slice), startNanos));
                }
                return Optional.of(ready.remove());
            } catch (RecordingException e) {
                throw new LinkException(String.valueOf(e.getMessage()), e);
            }
        }

        @Override
        public void close() {
            try {
                file.close();
            } catch (RecordingException e) {
                // Opened for reading only: nothing can be lost.
                return;
            }
        }
    }
}
