package draftwitness.app;

import java.awt.AWTError;
import java.awt.GraphicsEnvironment;
import java.awt.HeadlessException;

/** Whether windows can be opened here. */
public final class Display {
    private Display() {}

    /** True if there is a screen that can be drawn on. */
    public static boolean available() {
        if (GraphicsEnvironment.isHeadless()) {
            return false;
        }
        try {
            GraphicsEnvironment.getLocalGraphicsEnvironment().getDefaultScreenDevice();
            return true;
        } catch (AWTError | HeadlessException | LinkageError e) {
            return false; // DISPLAY names a screen that is not there, or this Java has no windows
        }
    }
}
