package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import java.nio.file.Files;
import java.nio.file.Path;

/** Makes the file that the screen is measured on: {@code DayFile FILE HOURS}. */
public final class DayFile {
    private DayFile() {}

    public static void main(String[] arguments) throws Exception {
        Path file = Path.of(arguments[0]);
        Files.deleteIfExists(file);
        FurnaceData data = new FurnaceData(1, 1_000_000, 500_000);
        SessionHeader header = data.header();
        Slicer slicer = new Slicer(header.channels(), 0);
        RecordingWriter writer = RecordingWriter.create(file, header);
        for (long i = 0; i < Integer.parseInt(arguments[1]) * 36_000L; i++) {
            writer.append(data.next(slicer));
        }
        writer.close();
    }
}
