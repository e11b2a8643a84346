package draftwitness.cycle;

/**
 * One published state of a {@link LiveReport}. Immutable; for any thread.
 *
 * @param number counts publications from 1; 0 before the first, so that a reader sees at once whether there is news
 * @param report cycles, findings and lockouts so far; the last cycle may be provisional ({@link Cycle#complete} false)
 * @param reportAtNanos session time at which {@code report} was made; older than {@link Now#atNanos} while nothing
 *     changes
 * @param now where the furnace stands
 * @param ended whether the session is over: then {@code report} is final and the same as that of a
 *     {@link CycleAnalyzer}
 */
public record LiveSnapshot(long number, CycleReport report, long reportAtNanos, Now now, boolean ended) {}
