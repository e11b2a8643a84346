/**
 * Makes one session out of many sources: opens and supervises the links, decodes, stamps, and hands on slices.
 *
 * <p>In: {@link draftwitness.capture.SourcePlan}s and an opener of links. Out: {@link draftwitness.reading.Slice}s in
 * order to the session's listeners, and a health snapshot for each source. One reader thread a link, one bounded queue,
 * one pipeline thread that owns the decoders and calls the listeners. Knows {@code reading}, {@code link},
 * {@code driver}, {@code time}; nothing of recordings or screens.
 */
@NullMarked
package draftwitness.capture;

import org.jspecify.annotations.NullMarked;
