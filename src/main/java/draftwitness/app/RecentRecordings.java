package draftwitness.app;

import draftwitness.dashboard.RecentRecording;
import draftwitness.input.Durations;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Executor;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The newest recordings of the usual folder and those opened in this run. Returns at once; looks at the executor. */
final class RecentRecordings {
    private static final Logger LOG = LoggerFactory.getLogger(RecentRecordings.class);
    private static final int MOST = 12;
    private static final DateTimeFormatter WHEN = DateTimeFormatter.ofPattern("d MMM yyyy, HH:mm", Locale.ENGLISH);

    private final Path folder;
    private final Executor background;
    private final OneAtATime looking;
    private final Set<Path> opened = new LinkedHashSet<>(); // the background's own
    private volatile List<RecentRecording> known = List.of();

    RecentRecordings(Path folder, Executor background) {
        this.folder = folder;
        this.background = background;
        this.looking = new OneAtATime(background, this::look);
    }

    /** What is known now; looks again meanwhile. */
    List<RecentRecording> known() {
        looking.ask();
        return known;
    }

    /** A recording was opened. Any thread. */
    void opened(Path file) {
        background.execute(() -> opened.add(file.toAbsolutePath()));
    }

    private void look() {
        Set<Path> files = new LinkedHashSet<>(opened);
        if (Files.isDirectory(folder)) {
            try (Stream<Path> list = Files.list(folder)) {
                list.filter(f -> f.toString().endsWith(".dwrec"))
                        .map(Path::toAbsolutePath)
                        .forEach(files::add);
            } catch (IOException e) {
                LOG.warn("{}: the recordings there cannot be listed", folder, e);
            }
        }
        known = files.stream()
                .sorted(Comparator.comparingLong((Path f) -> f.toFile().lastModified())
                        .reversed())
                .limit(MOST)
                .flatMap(f -> describe(f).stream())
                .toList();
    }

    private static Optional<RecentRecording> describe(Path file) {
        try (RecordingFile recording = RecordingFile.open(file)) {
            Instant start = recording.header().start();
            long first = recording.firstNanos().orElse(0);
            String length = Durations.length(recording.lastNanos().orElse(first) - first);
            String when =
                    start == null ? "" : WHEN.format(start.plusNanos(first).atZone(ZoneId.systemDefault())) + ", ";
            String title = recording.header().title();
            return Optional.of(new RecentRecording(
                    file, title.isEmpty() ? String.valueOf(file.getFileName()) : title, when + length, null));
        } catch (RecordingException e) {
            LOG.debug("{} is not listed", file, e);
            return Optional.empty();
        }
    }
}
