package draftwitness.app;

import draftwitness.dashboard.SetupEditor;
import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Setups of appliances as TOML files in the person's own folder, one file a setup, its name the file's. */
final class SetupFolder implements SetupEditor.Store {
    private static final Logger LOG = LoggerFactory.getLogger(SetupFolder.class);
    private static final String ENDING = ".toml";

    /** Names that are file names on every system, and lead nowhere else. */
    private static final Pattern NAME = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N} ._()'-]{0,79}");

    private final Path folder;

    SetupFolder(Path folder) {
        this.folder = folder;
    }

    @Override
    public List<String> names() {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(f -> String.valueOf(f.getFileName()))
                    .filter(n -> n.endsWith(ENDING))
                    .map(n -> n.substring(0, n.length() - ENDING.length()))
                    .sorted(String.CASE_INSENSITIVE_ORDER)
                    .toList();
        } catch (IOException e) {
            LOG.warn("{}: the setups kept there cannot be listed", folder, e);
            return List.of();
        }
    }

    @Override
    public String read(String name) throws InputException {
        return TomlTableReader.readText(file(name));
    }

    @Override
    public void save(String name, String toml) throws InputException {
        Path file = file(name);
        try {
            Files.createDirectories(folder);
            WholeFile.write(file, toml);
        } catch (IOException e) {
            throw new InputException(file + ": cannot be written (" + e.getMessage() + ")", e);
        }
    }

    private Path file(String name) throws InputException {
        if (!NAME.matcher(name).matches() || name.endsWith(".")) {
            throw new InputException(
                    "'" + name + "' cannot be a setup's name; letters, digits, blanks and . _ - ( ) ' can be in it");
        }
        return folder.resolve(name + ENDING);
    }
}
