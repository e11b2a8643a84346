package draftwitness.recording;

/**
 * Which part of a recording is exported, and how.
 *
 * @param fromNanos first session time, inclusive
 * @param toNanos end of the session times, exclusive
 * @param instants true to write a column {@code time} of ISO 8601 instants instead of {@code time_s}
 * @param raw true for readings as the instruments wrote them, without the zero offsets taken off
 */
public record ExportOptions(long fromNanos, long toNanos, boolean instants, boolean raw) {
    /** Everything, with times in seconds from the start. */
    public static final ExportOptions ALL = new ExportOptions(Long.MIN_VALUE, Long.MAX_VALUE, false, false);
}
