package draftwitness.dashboard;

/**
 * One point of a series.
 *
 * @param timeNanos session time
 * @param value in the base unit of the channel's quantity: pascal for pressures, suction negative
 */
public record Sample(long timeNanos, double value) {}
