package draftwitness.furnace;

/** Takes the readings of a simulation, on the thread that advances it. */
@FunctionalInterface
public interface SensorOutput {
    /**
     * One reading.
     *
     * @param sensorIndex index into {@link Simulation#sensors()}
     * @param timeNanos simulated time; never falls from call to call, rises strictly for each sensor
     * @param count whole counts of the sensor's unit and decimals
     */
    void reading(int sensorIndex, long timeNanos, long count);
}
