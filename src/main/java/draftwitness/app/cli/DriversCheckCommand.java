package draftwitness.app.cli;

import draftwitness.driver.DecodeTrace;
import draftwitness.driver.Driver;
import draftwitness.driver.DriverCatalog;
import draftwitness.input.InputException;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code drivers check}: how a driver decodes given bytes, offset by offset. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description =
                "Shows what a driver makes of given bytes, offset by offset. Exit code 1 when no reading comes out.")
final class DriversCheckCommand implements Callable<Integer> {
    private static final long MOST_BYTES = 1 << 20;

    private final Console console;

    @Mixin
    private DriverOptions drivers = new DriverOptions();

    @Parameters(
            paramLabel = "FILE",
            description =
                    "A driver description (a .toml file) or the name of a driver; parameters as in NAME?key=value.")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private String name;

    @Option(names = "--bytes", paramLabel = "FILE", description = "A file with the bytes.")
    private @Nullable Path bytesFile;

    @Option(
            names = "--hex",
            arity = "1..*",
            paramLabel = "XX",
            description = "The bytes in hexadecimal, such as 5A A5 07 or 5AA507.")
    private List<String> hex = new ArrayList<>();

    @Option(
            names = "--endpoint",
            paramLabel = "UUID",
            description = "Bluetooth characteristic that the bytes come from.")
    private String endpoint = "";

    DriversCheckCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws InputException {
        byte[] bytes = bytes();
        String file = name.contains("?") ? name.substring(0, name.indexOf('?')) : name;
        Driver driver = Files.exists(Path.of(file)) || file.endsWith(".toml")
                ? DriverCatalog.fromFile(name)
                : drivers.catalog().find(name);
        DecodeTrace trace = DecodeTrace.of(driver, bytes, endpoint);
        trace.lines(bytes).forEach(console.out()::println);
        StringBuilder sum = new StringBuilder(trace.readings() + " readings");
        for (DecodeTrace.Fate fate : DecodeTrace.Fate.values()) {
            int n = trace.bytes(fate);
            if (n > 0) {
                sum.append(", ").append(n).append(" bytes ").append(fate.name().toLowerCase(Locale.ROOT));
            }
        }
        console.out().println(sum);
        return trace.readings() > 0 ? 0 : CommandLineProgram.FAILED;
    }

    private byte[] bytes() throws InputException {
        if ((bytesFile == null) == hex.isEmpty()) {
            throw new InputException("say --bytes FILE or --hex XX XX ..., one of the two");
        }
        if (bytesFile == null) {
            return fromHex(String.join("", hex));
        }
        try {
            if (Files.size(bytesFile) > MOST_BYTES) {
                throw new InputException(bytesFile + ": more than 1 MB; a few messages are enough");
            }
            return Files.readAllBytes(bytesFile);
        } catch (IOException e) {
            throw new InputException(bytesFile + ": cannot be read (" + e.getMessage() + ")", e);
        }
    }

    private static byte[] fromHex(String text) throws InputException {
        String digits = text.replaceAll("[\\s,:]|0x", "");
        if (digits.length() % 2 != 0) {
            throw new InputException("--hex: a byte has two digits, and there are " + digits.length() + " digits");
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        for (int i = 0; i < digits.length(); i += 2) {
            int high = Character.digit(digits.charAt(i), 16);
            int low = Character.digit(digits.charAt(i + 1), 16);
            if (high < 0 || low < 0) {
                throw new InputException("--hex: '" + digits.substring(i, i + 2) + "' is not a hexadecimal byte");
            }
            out.write(16 * high + low);
        }
        return out.toByteArray();
    }
}
