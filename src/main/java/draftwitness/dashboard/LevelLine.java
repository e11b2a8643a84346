package draftwitness.dashboard;

/**
 * A rated level drawn across a strip.
 *
 * @param value in base units, signed as drawn: a set point of suction is negative
 * @param label what it is, with its value
 * @param dashed true for the second of a pair, so that the two differ without colour
 */
public record LevelLine(double value, String label, boolean dashed) {}
