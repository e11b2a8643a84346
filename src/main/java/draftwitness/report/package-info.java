/**
 * Results for people and programs elsewhere: JSON today, documents later.
 *
 * <p>In: values of {@code cycle} and {@code diagnosis}. Out: text in documented shapes, pressures in pascal, times in
 * seconds from the recording's start. Pure; any thread. Knows {@code reading}, {@code cycle} and {@code diagnosis}, and
 * keeps the JSON library to itself.
 */
@NullMarked
package draftwitness.report;

import org.jspecify.annotations.NullMarked;
