package draftwitness.link.ble;

import java.time.Duration;

/**
 * How long to wait for what.
 *
 * @param find for an unknown device to be heard
 * @param connect for a connection
 * @param resolve for the list of a device's services after that
 * @param call for an answer to anything else
 * @param silence without any value before the device is connected anew; doubled each time that brings nothing
 * @param longestSilence where the doubling ends
 * @param battery from one reading of the battery level to the next
 */
record Patience(
        Duration find,
        Duration connect,
        Duration resolve,
        Duration call,
        Duration silence,
        Duration longestSilence,
        Duration battery) {

    /** For real devices: most advertise at least once in two seconds, and list their services within five. */
    static final Patience USUAL = new Patience(
            Duration.ofSeconds(10),
            Duration.ofSeconds(20),
            Duration.ofSeconds(20),
            Duration.ofSeconds(10),
            Duration.ofSeconds(10),
            Duration.ofMinutes(5),
            Duration.ofMinutes(10));
}
