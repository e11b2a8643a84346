package draftwitness.app;

import draftwitness.dashboard.Settings;
import draftwitness.dashboard.SpanChoice;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.UnitChoice;
import java.io.IOException;
import java.io.Reader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Properties;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What was chosen for the screen, kept in the person's own folder. A file that cannot be read or written costs the
 * choices, nothing else.
 */
final class SettingsFile implements Settings.Store {
    private static final Logger LOG = LoggerFactory.getLogger(SettingsFile.class);

    private final Path file;

    SettingsFile(Path file) {
        this.file = file;
    }

    /** In the usual place: XDG_CONFIG_HOME, or .config in the home folder. */
    static SettingsFile usual() {
        String config = System.getenv("XDG_CONFIG_HOME");
        Path base = config == null || config.isBlank()
                ? Path.of(System.getProperty("user.home"), ".config")
                : Path.of(config);
        return new SettingsFile(base.resolve("draftwitness").resolve("screen.properties"));
    }

    /** The folder that everything kept for this person is in. */
    Path folder() {
        Path parent = file.toAbsolutePath().getParent();
        return parent == null ? Path.of(".") : parent;
    }

    /** What was kept last, with defaults for all that is missing or makes no sense. */
    Settings read() {
        Properties kept = new Properties();
        if (Files.isReadable(file)) {
            try (Reader in = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
                kept.load(in);
            } catch (IOException | IllegalArgumentException e) {
                LOG.warn("{}: cannot be read; the usual choices are used", file, e);
            }
        }
        Settings usual = Settings.defaults();
        try {
            return new Settings(
                    word(kept, "units", UnitChoice.class, usual.units()),
                    word(kept, "theme", Theme.class, usual.theme()),
                    word(kept, "span", SpanChoice.class, usual.span()),
                    Double.parseDouble(kept.getProperty("text-scale", "1")),
                    Boolean.parseBoolean(kept.getProperty("alarm", "false")));
        } catch (IllegalArgumentException e) {
            LOG.warn("{}: makes no sense; the usual choices are used", file, e);
            return usual;
        }
    }

    private static <E extends Enum<E>> E word(Properties kept, String key, Class<E> type, E usual) {
        String word = kept.getProperty(key);
        return word == null ? usual : Enum.valueOf(type, word);
    }

    @Override
    public void keep(Settings settings) {
        Properties kept = new Properties();
        kept.setProperty("units", settings.units().name());
        kept.setProperty("theme", settings.theme().name());
        kept.setProperty("span", settings.span().name());
        kept.setProperty("text-scale", Double.toString(settings.textScale()));
        kept.setProperty("alarm", Boolean.toString(settings.alarm()));
        try {
            Path folder = file.toAbsolutePath().getParent();
            if (folder != null) {
                Files.createDirectories(folder);
            }
            StringWriter text = new StringWriter();
            kept.store(text, "Draftwitness: what was chosen for the screen");
            WholeFile.write(file, text.toString());
        } catch (IOException e) {
            LOG.warn("{}: cannot be written; the choices last until the program ends", file, e);
        }
    }
}
