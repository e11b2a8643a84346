package draftwitness.driver;

import draftwitness.input.InputException;
import java.util.Map;

/**
 * A driver in Java, for instruments that no TOML description can say. Found by {@link java.util.ServiceLoader}: name
 * the class in {@code META-INF/services/draftwitness.driver.DriverPlugin} of a jar on the class path.
 */
public interface DriverPlugin {

    /** As in {@code DRIVER@LINK}: lower-case words joined by hyphens. */
    String name();

    /** One line that says which instruments it is for. */
    String title();

    /** Parameters that can be overridden as {@code NAME?key=value}, with their defaults. */
    Map<String, String> parameters();

    /**
     * The driver with these values.
     *
     * @param values every parameter, overridden or by default
     * @throws InputException if a value cannot be used, with one clear line
     */
    Driver driver(Map<String, String> values) throws InputException;
}
