package draftwitness.driver;

import org.jspecify.annotations.Nullable;

/** Says what a line of text means. */
@FunctionalInterface
interface LineJudge {

    /**
     * Reads one line and stages its readings.
     *
     * @return why the line is damaged or no reading, or null if all is well
     */
    @Nullable
    Fault read(String line, Staged staged);
}
