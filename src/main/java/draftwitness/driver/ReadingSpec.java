package draftwitness.driver;

import draftwitness.reading.Unit;

/**
 * One reading that a driver delivers.
 *
 * @param name used in {@code --tap ROLE=ID.NAME}
 * @param unit the unit it comes in, unless the instrument writes another one of the same quantity
 */
public record ReadingSpec(String name, Unit unit) {}
