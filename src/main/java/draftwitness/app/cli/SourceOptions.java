package draftwitness.app.cli;

import draftwitness.app.FollowLinks;
import draftwitness.app.SourcePlanner;
import draftwitness.capture.SourcePlan;
import draftwitness.input.InputException;
import draftwitness.link.LinkException;
import draftwitness.setup.Setup;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The options that say what to read and how: shared by the commands that open sources. */
final class SourceOptions {

    @Option(
            names = "--source",
            paramLabel = "ID=DRIVER@LINK",
            description = "A source, such as draft.switch=ascii-line@serial:/dev/ttyUSB0?baud=9600 (repeatable).")
    private List<String> sources = new ArrayList<>();

    @Option(
            names = "--tap",
            paramLabel = "ROLE=ID.READING",
            description =
                    "Which reading of a source is on which tap, such as draft.switch=box.c1 (repeatable). Not needed"
                            + " when the source's ID is a role.")
    private List<String> taps = new ArrayList<>();

    @Option(
            names = "--setup",
            paramLabel = "FILE",
            description = "Setup of the appliance (TOML): set point, gas, times, sources.")
    private @Nullable Path setupFile;

    @Mixin
    private DriverOptions drivers = new DriverOptions();

    private FollowLinks.@Nullable Met met;

    /** The setup given; without one, that of the house that is followed. */
    Setup setup() throws InputException, WorkFailedException {
        if (setupFile != null) {
            return Setup.read(setupFile);
        }
        FollowLinks.Met followed = met();
        return followed == null ? Setup.defaults() : followed.setup();
    }

    boolean given() {
        return !sources.isEmpty() || setupFile != null;
    }

    /** The house elsewhere that the one source follows; null if the sources are here. */
    private FollowLinks.@Nullable Met met() throws InputException, WorkFailedException {
        if (met == null && sources.stream().anyMatch(FollowLinks::follows)) {
            if (sources.size() > 1 || !taps.isEmpty()) {
                throw new InputException("a house that is followed is the only source, and brings its taps along");
            }
            try {
                met = FollowLinks.meet(sources.get(0));
            } catch (LinkException e) {
                throw new WorkFailedException(String.valueOf(e.getMessage()), e);
            }
        }
        return met;
    }

    List<SourcePlan> plans(Setup setup) throws InputException, WorkFailedException {
        FollowLinks.Met followed = met();
        if (followed != null) {
            return followed.plans();
        }
        List<String> all = new ArrayList<>(sources);
        if (all.isEmpty()) {
            for (Map.Entry<String, String> s : setup.sources().entrySet()) {
                all.add(s.getKey() + "=" + s.getValue());
            }
        }
        return new SourcePlanner(drivers.catalog()).plan(all, taps);
    }
}
