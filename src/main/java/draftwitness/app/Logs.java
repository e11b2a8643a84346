package draftwitness.app;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.logging.LogManager;

/** Where the program's log goes: warnings and errors to standard error, one line each before the stack trace. */
final class Logs {
    private Logs() {}

    static void toStandardError() {
        String settings = """
                handlers=java.util.logging.ConsoleHandler
                .level=WARNING
                org.apache.pdfbox.level=SEVERE
                org.apache.fontbox.level=SEVERE
                java.util.logging.ConsoleHandler.level=WARNING
                java.util.logging.ConsoleHandler.formatter=java.util.logging.SimpleFormatter
                java.util.logging.SimpleFormatter.format=%1$tT %4$s %5$s%6$s%n
                """;
        try {
            LogManager.getLogManager()
                    .readConfiguration(new ByteArrayInputStream(settings.getBytes(StandardCharsets.ISO_8859_1)));
        } catch (IOException e) {
            throw new UncheckedIOException("reading from memory failed", e);
        }
    }
}
