package draftwitness.app.cli;

import draftwitness.app.DashboardProgram;
import draftwitness.app.Display;
import draftwitness.app.TextReporter;
import draftwitness.input.InputException;
import draftwitness.setup.Setup;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code watch}: sources live on the dashboard, or as text. */
@Command(
        name = "watch",
        mixinStandardHelpOptions = true,
        description = "Shows sources live on the dashboard; as text with --text or without a display.")
final class WatchCommand implements Callable<Integer> {
    private static final long LINE_NANOS = 1_000_000_000L;

    private final Console console;

    @Mixin
    private SourceOptions sources = new SourceOptions();

    @Option(names = "--text", description = "Lines of text instead of a window.")
    private boolean text;

    @Option(names = "--out", paramLabel = "FILE", description = "Also records into this file (.dwrec); must not exist.")
    private @Nullable Path out;

    @Option(
            names = "--for",
            paramLabel = "TIME",
            description = "With --text: how long, such as 10m; without it until stopped.")
    private @Nullable String length;

    @Mixin
    private ZeroOption zero = new ZeroOption();

    WatchCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        Setup setup = sources.setup();
        if (text || !Display.available()) {
            return RecordCommand.run(
                    console, sources, setup, out, length, zero, List.of(new TextReporter(console.out(), LINE_NANOS)));
        }
        if (length != null) {
            throw new InputException("--for goes with --text; a window is closed by hand");
        }
        if (zero.first()) {
            throw new InputException("--zero-first goes with --text; the window has a command for it");
        }
        if (out != null) {
            RecordingErrors.checkTarget(out);
        }
        String name = setup.title().isEmpty() ? "Live" : setup.title();
        DashboardProgram.onSources(sources.plans(setup), setup, name, out, console.stop());
        return 0;
    }
}
