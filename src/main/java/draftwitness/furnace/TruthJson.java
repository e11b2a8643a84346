package draftwitness.furnace;

import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.Collectors;

/** The truth as JSON text. Pure. */
final class TruthJson {
    private TruthJson() {}

    static String write(Scenario scenario, long seed, double seconds, TruthKeeper truth) {
        List<Cycle> cycles = truth.cyclesUntil(seconds);
        StringBuilder out = new StringBuilder();
        out.append("{\n  \"scenario\": ").append(quoted(scenario.name()));
        out.append(",\n  \"seed\": ").append(seed);
        out.append(",\n  \"duration_s\": ").append(number(seconds));
        out.append(",\n  \"cause\": ").append(quoted(scenario.cause()));
        out.append(",\n  \"causes\": ").append(list(scenario.causes(), TruthJson::quoted));
        out.append(",\n  \"lockouts\": ").append(list(truth.lockoutsUntil(seconds), TruthJson::spell));
        out.append(",\n  \"closed_in_standby\": ").append(list(truth.closedInStandbyUntil(seconds), TruthJson::spell));
        out.append(",\n  \"cycles\": [");
        for (int i = 0; i < cycles.size(); i++) {
            out.append(i == 0 ? "\n    " : ",\n    ").append(cycle(i + 1, cycles.get(i)));
        }
        return out.append(cycles.isEmpty() ? "]\n}\n" : "\n  ]\n}\n").toString();
    }

    private static String cycle(int index, Cycle c) {
        return "{\"index\": " + index + ", " + span(c.startSeconds(), c.endSeconds())
                + ", \"outcome\": " + quoted(c.outcome())
                + (c.reason() == null ? "" : ", \"reason\": " + quoted(c.reason()))
                + ", \"attempts\": " + c.attempts()
                + ",\n     \"phases\": " + list(c.phases(), TruthJson::phase)
                + ",\n     \"flutter\": " + list(c.flutter(), TruthJson::flutter)
                + ",\n     \"sags\": " + list(c.sags(), TruthJson::sag) + "}";
    }

    private static String phase(Cycle.Phase p) {
        return "{\"phase\": " + quoted(p.name()) + ", " + span(p.startSeconds(), p.endSeconds()) + "}";
    }

    private static String spell(Spells.Spell s) {
        return "{" + span(s.startSeconds(), s.endSeconds()) + "}";
    }

    private static String flutter(Cycle.Span s) {
        return "{" + span(s.startSeconds(), s.endSeconds()) + ", \"transitions\": " + s.transitions() + "}";
    }

    private static String sag(Cycle.Sag s) {
        return "{" + span(s.startSeconds(), s.endSeconds()) + ", \"depth_pa\": " + number(s.depthPascals()) + "}";
    }

    private static String span(double start, double end) {
        return "\"start_s\": " + number(start) + ", \"end_s\": " + number(end);
    }

    private static <T> String list(List<T> items, Function<T, String> each) {
        return items.stream().map(each).collect(Collectors.joining(", ", "[", "]"));
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.2f", value);
    }

    private static String quoted(String text) {
        StringBuilder out = new StringBuilder("\"");
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '"' || c == '\\') {
                out.append('\\').append(c);
            } else if (c < ' ') {
                out.append(String.format(Locale.ROOT, "\\u%04x", (int) c));
            } else {
                out.append(c);
            }
        }
        return out.append('"').toString();
    }
}
