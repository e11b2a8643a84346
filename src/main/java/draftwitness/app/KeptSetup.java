package draftwitness.app;

import draftwitness.input.InputException;
import draftwitness.recording.RecordingFile;
import draftwitness.setup.Setup;

/** The setup that is kept with a recording. */
public final class KeptSetup {
    private KeptSetup() {}

    /**
     * The setup; the defaults if there was none.
     *
     * @throws InputException naming the recording, if the text kept is not one that this version understands
     */
    public static Setup of(RecordingFile recording) throws InputException {
        return Setup.parse(
                "setup kept in " + recording.file(), recording.header().setupToml());
    }

    /** The setup, or the defaults when it cannot be understood: for screens, which say so elsewhere. */
    static Setup orDefaults(RecordingFile recording) {
        try {
            return of(recording);
        } catch (InputException e) {
            return Setup.defaults();
        }
    }
}
