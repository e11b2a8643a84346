package draftwitness.app.cli;

import draftwitness.link.SerialPorts;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;

/** {@code sources}: what could be connected. */
@Command(
        name = "sources",
        mixinStandardHelpOptions = true,
        description = "Lists the serial ports in reach. Nothing is opened and nothing is sent.")
final class SourcesCommand implements Callable<Integer> {
    private final Console console;

    SourcesCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        List<SerialPorts.Found> ports = SerialPorts.list();
        for (SerialPorts.Found port : ports) {
            console.out().println("serial:" + port.path() + "  " + port.description());
        }
        if (ports.isEmpty()) {
            console.err()
                    .println("no serial port found; plug an instrument in, or give the path of its port to --source");
        }
        return 0;
    }
}
