package draftwitness.app.cli;

import draftwitness.app.DashboardProgram;
import draftwitness.app.DemoInText;
import draftwitness.app.Display;
import draftwitness.link.LinkException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;

/** The program without a command: the dashboard on the built-in demo house. */
@Command(
        name = "draftwitness",
        mixinStandardHelpOptions = true,
        versionProvider = Version.class,
        description = {
            "Watches, records and replays the draft of a gas furnace.",
            "Without a command: the dashboard on the built-in demo house (without a display: as text, with a picture)."
        },
        footer = {
            "",
            "The program advises; it is not a safety device and proves nothing safe. Work on gas appliances belongs to"
                    + " licensed persons under local codes and the appliance's instructions. Never bypass a pressure switch,"
                    + " limit or flame sensor to keep a furnace running."
        },
        synopsisSubcommandLabel = "[COMMAND]",
        subcommands = {
            WatchCommand.class,
            RecordCommand.class,
            ReplayCommand.class,
            AnalyzeCommand.class,
            MeasureCommand.class,
            ImportCommand.class,
            ExportCommand.class,
            VerifyCommand.class,
            NotesCommand.class,
            SourcesCommand.class,
            DriversCommand.class,
            SimulateCommand.class,
            BridgeCommand.class,
            ReportCommand.class,
            TrimCommand.class,
            SurveyCommand.class
        })
final class RootCommand implements Callable<Integer> {
    private static final Path PICTURE = Path.of("draftwitness-demo.png");

    private final Console console;

    RootCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        if (Display.available()) {
            DashboardProgram.onDemo(console.stop());
            return 0;
        }
        try {
            DemoInText.run(console.out(), PICTURE, console.stop());
        } catch (IOException e) {
            throw new WorkFailedException(PICTURE + ": cannot be written (" + e.getMessage() + ")", e);
        } catch (LinkException e) {
            throw new WorkFailedException(String.valueOf(e.getMessage()), e);
        }
        return 0;
    }
}
