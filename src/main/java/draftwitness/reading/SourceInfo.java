package draftwitness.reading;

/**
 * Where readings come from, as kept with a recording.
 *
 * @param id the name chosen for the source
 * @param driver name and overridden parameters, as on the command line
 * @param link the link as on the command line, for example {@code serial:/dev/ttyUSB0?baud=9600}
 * @param description the driver description's own text (TOML), so that a recording can be re-judged; may be empty
 */
public record SourceInfo(String id, String driver, String link, String description) {}
