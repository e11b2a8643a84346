/**
 * Tables in the Parquet format (Apache Parquet, parquet-format 2.x), written and read row by row.
 *
 * <p>In: columns of whole counts with decimals or instants. Out: a file that any data engine reads, and the same
 * columns back. One owner thread for each object; memory is bounded by one group of rows. Keeps the Parquet and
 * compression libraries to itself, and knows nothing of recordings, taps or units.
 */
@NullMarked
package draftwitness.recording.parquet;

import org.jspecify.annotations.NullMarked;
