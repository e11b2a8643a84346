package draftwitness.recording;

import draftwitness.reading.Step;
import java.io.IOException;

/** Takes a table row by row, from left to right. One owner thread. */
interface TableSink {
    /** Begins a row. */
    void time(long timeNanos);

    /**
     * A channel's reading in the row.
     *
     * @throws RecordingException if the format cannot take it
     */
    void reading(int channel, long count, Step step) throws RecordingException;

    /** Ends the row. */
    void endRow() throws IOException;

    /** Writes what follows the last row. */
    void finish() throws IOException;
}
