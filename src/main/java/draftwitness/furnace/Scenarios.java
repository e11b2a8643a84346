package draftwitness.furnace;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** The scenarios that come with the program, and those that a person wrote. Any thread. */
public final class Scenarios {
    private static final String FOLDER = "/scenarios/";

    private Scenarios() {}

    /**
     * All scenarios that come with the program, in the order of a lesson.
     *
     * @throws IllegalStateException if the program's own files are damaged
     */
    public static List<Scenario> list() {
        try {
            return builtIn("");
        } catch (InputException e) {
            throw new IllegalStateException("built-in scenario: " + e.getMessage(), e);
        }
    }

    /**
     * A scenario by name, or from a file whose name ends in {@code .toml}. A file with grades gives its first one;
     * {@code FILE.toml#GRADE} gives another.
     *
     * @throws InputException if there is no such scenario, listing those known, or if the file is unreadable or wrong
     */
    public static Scenario find(String nameOrTomlPath) throws InputException {
        int hash = nameOrTomlPath.lastIndexOf(".toml#");
        String path = hash < 0 ? nameOrTomlPath : nameOrTomlPath.substring(0, hash + ".toml".length());
        if (path.endsWith(".toml")) {
            return fromFile(path, hash < 0 ? "" : nameOrTomlPath.substring(hash + ".toml#".length()));
        }
        return builtIn(nameOrTomlPath).stream()
                .filter(s -> s.name().equals(nameOrTomlPath))
                .findFirst()
                .orElseThrow(() -> new InputException("no scenario '" + nameOrTomlPath + "'; known: " + names(list())
                        + ", or a file ending in .toml"));
    }

    /** Reads those files that may hold a scenario of this name; all if the name is empty. */
    private static List<Scenario> builtIn(String wanted) throws InputException {
        List<Scenario> all = new ArrayList<>();
        for (String name : resource("index.txt").split("\n", -1)) {
            boolean fits = wanted.isEmpty() || wanted.equals(name) || wanted.startsWith(name + "-");
            if (!name.isBlank() && fits) {
                all.addAll(ScenarioReader.read(name, name + ".toml", resource(name + ".toml")));
            }
        }
        return List.copyOf(all);
    }

    private static Scenario fromFile(String path, String grade) throws InputException {
        Path file = Path.of(path);
        String base = String.valueOf(file.getFileName());
        String name = base.substring(0, base.length() - ".toml".length());
        List<Scenario> all = ScenarioReader.read(name, path, TomlTableReader.readText(file));
        if (grade.isEmpty()) {
            return all.get(0);
        }
        return all.stream()
                .filter(s -> s.name().equals(name + "-" + grade))
                .findFirst()
                .orElseThrow(() -> new InputException(path + ": no grade '" + grade + "'; known: " + names(all)));
    }

    private static String names(List<Scenario> all) {
        return all.stream().map(Scenario::name).collect(Collectors.joining(" "));
    }

    private static String resource(String name) throws InputException {
        try (InputStream in = Scenarios.class.getResourceAsStream(FOLDER + name)) {
            if (in == null) {
                throw new InputException(name + ": not in the program's own scenarios");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new InputException(name + ": cannot be read (" + e.getMessage() + ")", e);
        }
    }
}
