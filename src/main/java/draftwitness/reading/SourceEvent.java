package draftwitness.reading;

/**
 * A source changed its state.
 *
 * @param sourceId a {@link SourceInfo#id()}
 * @param timeNanos session time
 * @param state the state from then on
 * @param detail what happened, in plain words; may be empty
 */
public record SourceEvent(String sourceId, long timeNanos, SourceState state, String detail) {}
