package draftwitness.driver;

import draftwitness.input.InputException;
import java.io.IOException;
import java.io.InputStream;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.CodeSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Enumeration;
import java.util.List;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;

/**
 * The descriptions that come with the program: whatever {@code drivers/*.toml} lies where this class was loaded from,
 * jar or folder. Listing the place itself leaves no index that could go stale. Pure but for reading.
 */
final class ShippedDrivers {
    private static final String FOLDER = "drivers/";

    private ShippedDrivers() {}

    /** All of them, by name. */
    static List<Description> load() {
        try {
            Path home = home();
            List<Description> found =
                    Files.isDirectory(home) ? fromFolder(home.resolve(FOLDER), "shipped: ") : fromJar(home);
            if (found.isEmpty()) {
                throw new IllegalStateException("no drivers in " + home + "; the program is packed badly");
            }
            return found;
        } catch (IOException | URISyntaxException | InputException e) {
            throw new IllegalStateException("the shipped drivers cannot be read", e);
        }
    }

    private static Path home() throws URISyntaxException {
        CodeSource source = ShippedDrivers.class.getProtectionDomain().getCodeSource();
        if (source == null) {
            throw new IllegalStateException("the program does not know where it was loaded from");
        }
        return Path.of(source.getLocation().toURI());
    }

    /** The descriptions of one folder, by name. */
    static List<Description> fromFolder(Path folder, String prefix) throws IOException, InputException {
        List<Path> files = new ArrayList<>();
        try (DirectoryStream<Path> stream = Files.newDirectoryStream(folder, "*" + Description.ENDING)) {
            stream.forEach(files::add);
        }
        files.sort(Comparator.comparing(Path::toString));
        List<Description> out = new ArrayList<>();
        for (Path file : files) {
            Description one = Description.of(file);
            out.add(prefix.isEmpty() ? one : shipped(one.name(), one.text()));
        }
        return out;
    }

    private static Description shipped(String name, String text) {
        return new Description(name, "shipped " + FOLDER + name + Description.ENDING, text);
    }

    /** The descriptions within a jar, by name. */
    static List<Description> fromJar(Path jar) throws IOException {
        List<Description> out = new ArrayList<>();
        try (JarFile file = new JarFile(jar.toFile())) {
            Enumeration<JarEntry> entries = file.entries();
            while (entries.hasMoreElements()) {
                JarEntry entry = entries.nextElement();
                String path = entry.getName();
                if (path.startsWith(FOLDER) && path.endsWith(Description.ENDING)) {
                    try (InputStream in = file.getInputStream(entry)) {
                        String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
                        String name = path.substring(FOLDER.length(), path.length() - Description.ENDING.length());
                        out.add(shipped(name, text));
                    }
                }
            }
        }
        out.sort(Comparator.comparing(Description::name));
        return out;
    }
}
