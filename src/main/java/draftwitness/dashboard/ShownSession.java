package draftwitness.dashboard;

import draftwitness.reading.SessionHeader;

/**
 * A session as the screen sees it at one moment: what it is, its readings, how its sources fare, how far time has come.
 *
 * @param header what is known of the session
 * @param windows its readings
 * @param sources how its sources fared
 * @param nowNanos how far session time has come; for a recording, where it ends
 * @param ended true when nothing follows
 */
public record ShownSession(
        SessionHeader header, SeriesWindows windows, SourceHistory sources, long nowNanos, boolean ended) {}
