/**
 * The only place that asks the machine what time it is.
 *
 * <p>In: nothing. Out: monotonic nanoseconds and one wall-clock instant, both through {@link draftwitness.time.Ticker},
 * which is handed to whoever needs time, so that tests can bring their own. Any thread. Knows no other room.
 */
@NullMarked
package draftwitness.time;

import org.jspecify.annotations.NullMarked;
