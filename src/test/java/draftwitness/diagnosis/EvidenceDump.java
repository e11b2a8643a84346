package draftwitness.diagnosis;

import draftwitness.cycle.CycleReport;
import draftwitness.reading.Channel;
import draftwitness.setup.Setup;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Shows what evidence is found, for those who measure the diagnosis or work on its table. */
public final class EvidenceDump {
    private EvidenceDump() {}

    /** One line a kind. */
    public static String of(List<Channel> channels, Setup setup, CycleReport report) {
        return new EvidenceFinder(channels, setup, report)
                .find().stream()
                        .map(e -> e.kind() + "=" + e.outcome() + ": " + e.text())
                        .collect(Collectors.joining("\n"));
    }

    /** Kind to outcome. */
    public static Map<String, String> outcomes(List<Channel> channels, Setup setup, CycleReport report) {
        Map<String, String> out = new LinkedHashMap<>();
        new EvidenceFinder(channels, setup, report).find().forEach(e -> out.put(e.kind(), e.outcome()));
        return out;
    }

    /** The kind of evidence that a check gives. */
    public static String kindOf(String check) {
        return CauseTable.standard().tells().getOrDefault(check, check);
    }

    /** How common a cause is, by the table. */
    public static double prior(String cause) {
        CauseTable table = CauseTable.standard();
        for (int i = 0; i < table.causes().size(); i++) {
            if (table.causes().get(i).id().equals(cause)) {
                return table.prior().get(i);
            }
        }
        throw new IllegalArgumentException(cause);
    }
}
