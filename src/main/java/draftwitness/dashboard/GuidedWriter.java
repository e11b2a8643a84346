package draftwitness.dashboard;

import draftwitness.diagnosis.guided.Cautions;
import draftwitness.diagnosis.guided.Figure;
import draftwitness.diagnosis.guided.Grade;
import draftwitness.diagnosis.guided.GuidedKind;
import draftwitness.diagnosis.guided.GuidedNow;
import draftwitness.diagnosis.guided.GuidedPlan;
import draftwitness.diagnosis.guided.Part;
import draftwitness.diagnosis.guided.Scale;
import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Writes the screen of a guided measurement. Pure. */
final class GuidedWriter {
    private static final int MOST_ROWS = 6;
    private static final double SILENT_SECONDS = 3;

    private GuidedWriter() {}

    /**
     * What the model knows beside the readings.
     *
     * @param step the step chosen
     * @param reading whether a recording is being read
     * @param kept where the result went
     * @param span the span to read; null when live
     */
    record View(
            GuidedPlan plan,
            SessionHeader header,
            UnitChoice units,
            String step,
            boolean reading,
            String kept,
            GuidedScreen.@Nullable SpanText span) {}

    /** The choice of measurements. */
    static GuidedScreen choices(Set<Tap> taps) {
        List<GuidedScreen.Choice> choices = new ArrayList<>();
        for (GuidedKind kind : GuidedKind.values()) {
            boolean usable = GuidedPlan.of(kind, taps, null).isPresent();
            String text = usable
                    ? Words.get("guided." + kind.id() + ".what")
                    : Words.get("guided.needs", GuidedPlan.needs(kind));
            choices.add(new GuidedScreen.Choice(kind, Words.get("guided." + kind.id()), text, usable));
        }
        return new GuidedScreen(
                null,
                Words.get("guided.choose"),
                choices,
                List.of(),
                "",
                List.of(),
                List.of(),
                GuidedScreen.Go.NONE,
                "",
                0,
                "",
                "",
                new GuidedNow.Trace(List.of()),
                "",
                "",
                Tone.QUIET,
                List.of(),
                List.of(),
                "",
                null);
    }

    static GuidedScreen write(View v, @Nullable GuidedNow now) {
        GuidedKind kind = v.plan().kind();
        Part part = v.plan().part(v.step()).orElse(v.plan().parts().get(0));
        boolean running = v.reading() || (now != null && now.running() != null);
        boolean taken = now != null && now.taken().contains(part.id());
        GuidedScreen.Go go = running ? GuidedScreen.Go.STOP : taken ? GuidedScreen.Go.AGAIN : GuidedScreen.Go.GO;
        Unit unit = unit(v, part.taps().get(0));
        boolean anything = now != null && !now.taken().isEmpty();
        return new GuidedScreen(
                kind,
                Words.get("guided." + kind.id()),
                List.of(),
                steps(v, now),
                Words.get("guided." + kind.id() + "." + part.id() + (v.span() == null ? "" : ".recorded")),
                part.taps(),
                Cautions.of(kind),
                go,
                goText(go, v, part),
                running && now != null ? now.progress() : 0,
                figure(v, now),
                figureText(v, now, part),
                trace(now, unit),
                Figures.symbol(unit),
                anything && now != null ? now.result().verdict() : Words.get("guided.no-verdict"),
                anything && now != null ? tone(now.result().grade()) : Tone.QUIET,
                anything && now != null ? rows(v, now) : List.of(),
                anything && now != null ? now.result().remarks() : List.of(),
                v.kept(),
                v.span());
    }

    private static String goText(GuidedScreen.Go go, View v, Part part) {
        String name = Words.get("guided." + v.plan().kind().id() + "." + part.id() + ".step");
        return switch (go) {
            case GO -> Words.get(v.span() == null ? "guided.go" : "guided.read", name);
            case STOP -> Words.get(v.span() == null ? "guided.stop" : "guided.cancel", name);
            case AGAIN -> Words.get("guided.again", name);
            case NONE -> "";
        };
    }

    private static List<GuidedScreen.Step> steps(View v, @Nullable GuidedNow now) {
        List<GuidedScreen.Step> steps = new ArrayList<>();
        for (Part part : v.plan().parts()) {
            String text = Words.get(
                    "guided.step",
                    String.valueOf(steps.size() + 1),
                    Words.get("guided." + v.plan().kind().id() + "." + part.id() + ".step"));
            boolean taken = now != null && now.taken().contains(part.id());
            steps.add(new GuidedScreen.Step(part.id(), text, taken, part.id().equals(v.step())));
        }
        return steps;
    }

    private static Unit unit(View v, Tap tap) {
        return v.header().channelAt(tap).map(v.units()::of).orElse(Unit.PASCAL);
    }

    private static Unit pressureUnit(View v) {
        return v.header().channels().stream()
                .filter(c -> c.tap().quantity() == Quantity.PRESSURE)
                .filter(c -> v.plan().parts().get(0).taps().contains(c.tap()))
                .findFirst()
                .map((Channel c) -> v.units().of(c))
                .orElse(Unit.PASCAL);
    }

    /** The newest reading of the running step's main tap. */
    private static String figure(View v, @Nullable GuidedNow now) {
        if (now != null && now.running() == null && !now.trace().points().isEmpty()) {
            return last(v, now);
        }
        if (now == null
                || now.taps().isEmpty()
                || Double.isNaN(now.taps().get(0).value())) {
            return "\u2013";
        }
        GuidedNow.TapNow tap = now.taps().get(0);
        Unit unit = unit(v, tap.tap());
        return Figures.quantity(tap.value(), unit, unit.usualDecimals());
    }

    /** The last reading of the part that was taken last. */
    private static String last(View v, GuidedNow now) {
        String id = now.taken().get(now.taken().size() - 1);
        Unit unit = unit(v, v.plan().part(id).orElseThrow().taps().get(0));
        return Figures.quantity(
                now.trace().points().get(now.trace().points().size() - 1).value(), unit, unit.usualDecimals());
    }

    private static String figureText(View v, @Nullable GuidedNow now, Part part) {
        String name = Words.get("tap." + part.taps().get(0).role());
        if (now == null || now.running() == null || now.taps().isEmpty()) {
            return v.reading() ? Words.get("guided.reading") : Words.get("guided.waiting", name);
        }
        GuidedNow.TapNow tap = now.taps().get(0);
        if (tap.silentSeconds() > SILENT_SECONDS) {
            return Words.get("guided.silent", name);
        }
        String seconds = String.format(Locale.ROOT, "%.0f s", now.elapsedSeconds());
        return Words.get(tap.steady() ? "guided.steady" : "guided.moving", name, seconds);
    }

    private static GuidedNow.Trace trace(@Nullable GuidedNow now, Unit unit) {
        if (now == null) {
            return new GuidedNow.Trace(List.of());
        }
        return new GuidedNow.Trace(now.trace().points().stream()
                .map(p -> new GuidedNow.Point(p.seconds(), unit.fromBase(p.value())))
                .toList());
    }

    private static Tone tone(Grade grade) {
        return switch (grade) {
            case FINE, UNJUDGED -> Tone.NORMAL;
            case UNDECIDED -> Tone.QUIET;
            case ATTENTION -> Tone.ATTENTION;
            case FAULT -> Tone.DANGER;
        };
    }

    private static List<GuidedScreen.Row> rows(View v, GuidedNow now) {
        Unit unit = pressureUnit(v);
        List<GuidedScreen.Row> rows = new ArrayList<>();
        rows.add(new GuidedScreen.Row(
                Words.get("guided.grade"),
                Words.get("guided.grade." + now.result().grade())));
        for (Figure f : now.result().figures()) {
            String key = "guided.figure." + f.id();
            if (rows.size() < MOST_ROWS && Words.has(key)) {
                rows.add(new GuidedScreen.Row(Words.get(key), value(f, unit)));
            }
        }
        return rows;
    }

    private static String value(Figure f, Unit unit) {
        double times = times(f.scale(), unit);
        int decimals = decimals(f, times, unit);
        String value = Double.isInfinite(f.value())
                ? Words.get("guided.endless")
                : String.format(Locale.ROOT, "%." + decimals + "f", f.value() * times)
                        .replace("-", "\u2212");
        double least = 0.5 * Math.pow(10, -decimals); // never a proud "± 0"
        String off = Double.isFinite(f.uncertainty())
                ? " \u00b1 "
                        + String.format(Locale.ROOT, "%." + decimals + "f", Math.max(least, f.uncertainty() * times))
                : "";
        return (value + off + " " + symbol(f.scale(), unit)).strip();
    }

    private static double times(Scale scale, Unit unit) {
        return switch (scale) {
            case PASCAL, PASCAL_PER_SECOND -> 1 / unit.inBase();
            case SHARE -> 100;
            case CUBIC_METRE_PER_SECOND -> 60e6;
            case SECOND, NUMBER, COUNT -> 1;
        };
    }

    private static int decimals(Figure f, double times, Unit unit) {
        return switch (f.scale()) {
            case PASCAL, PASCAL_PER_SECOND -> unit.usualDecimals();
            case COUNT -> 0;
            case SHARE -> 1;
            case SECOND, NUMBER -> 2;
            case CUBIC_METRE_PER_SECOND -> Math.abs(f.value() * times) < 1 ? 3 : 1;
        };
    }

    private static String symbol(Scale scale, Unit unit) {
        return switch (scale) {
            case PASCAL -> Figures.symbol(unit);
            case PASCAL_PER_SECOND -> Figures.symbol(unit) + "/s";
            case SHARE -> "%";
            case SECOND -> "s";
            case CUBIC_METRE_PER_SECOND -> "mL/min";
            case NUMBER, COUNT -> "";
        };
    }
}
