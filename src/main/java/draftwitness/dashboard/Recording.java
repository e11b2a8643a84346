package draftwitness.dashboard;

import draftwitness.reading.SessionHeader;

/**
 * An opened recording.
 *
 * @param name what to call it, usually the file's name
 * @param header what is known of the session
 * @param windows its readings; may block, asked on a background thread
 * @param sources how its sources fared
 * @param replay moves through it
 */
public record Recording(
        String name, SessionHeader header, SeriesWindows windows, SourceHistory sources, ReplayControl replay) {}
