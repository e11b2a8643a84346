package draftwitness.app.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The program without a command: the dashboard on the built-in demo house. */
@Command(
        name = "draftwitness",
        mixinStandardHelpOptions = true,
        versionProvider = Version.class,
        description = "Watches, records and replays the draft of a gas furnace.",
        synopsisSubcommandLabel = "[COMMAND]",
        subcommands = {
            RecordCommand.class,
            AnalyzeCommand.class,
            SourcesCommand.class,
            DriversCommand.class,
            SimulateCommand.class
        })
final class RootCommand implements Callable<Integer> {
    private final Console console;

    @Spec
    @SuppressWarnings("NullAway.Init") // set by the command-line library before call()
    private CommandSpec spec;

    RootCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        spec.commandLine().usage(console.out());
        return 0;
    }
}
