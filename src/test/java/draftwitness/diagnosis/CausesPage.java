package draftwitness.diagnosis;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Writes {@code docs/causes.md} from the table of causes. Run by hand after a change of the table; a test compares. */
final class CausesPage {
    private final CauseTable table = CauseTable.standard();
    private final StringBuilder out = new StringBuilder();

    private CausesPage() {}

    public static void main(String[] args) throws IOException {
        Files.writeString(Path.of(args[0]), text(), StandardCharsets.UTF_8);
    }

    static String text() {
        CausesPage page = new CausesPage();
        page.introduction();
        page.causes();
        page.evidence();
        page.checks();
        page.adding();
        return page.out.toString();
    }

    private void line(String format, Object... values) {
        out.append(values.length == 0 ? format : String.format(Locale.ROOT, format, values))
                .append('\n');
    }

    private void introduction() {
        line("# Causes, evidence and checks");
        line("");
        line(
                "Made from `src/main/resources/diagnosis/causes.toml` by `CausesPage` (test sources); a test keeps it current.");
        line("");
        line(
                "The program advises; it is not a safety device and proves nothing safe. Work is for licensed persons under local"
                        + " codes and the appliance's instructions. Never bypass a pressure switch, limit or flame sensor.");
        line("");
        line(
                "**How it weighs.** Causes exclude each other. Each kind of evidence gives one outcome for the whole session,"
                        + " however many cycles showed it: cycles of one furnace on one day are no independent witnesses. Bayes' rule"
                        + " multiplies the chances below onto how common the causes are. Evidence that the connected channels cannot"
                        + " give is left out, so causes that they cannot tell apart stay level, such as a leaking tube and a pinhole"
                        + " in the diaphragm until a leak-down of each alone. Every row keeps a floor of "
                        + number(100 * table.floor())
                        + " % spread over its outcomes, and some kinds count with a weight below 1, so that contradicting evidence widens the answer.");
        line("");
        line("**Next checks** are ranked by expected information about the cause (mutual information, bits) a minute of"
                + " effort; the list is empty once one cause has 90 %, or when no check is left that tells anything.");
        line("");
        line(
                "**Log-odds** in the reasons: log2 of the chance under the cause over the chance under all other causes, as"
                        + " common as they are; a person's own check counts instead of what the session showed of the same thing.");
        line("");
        line(
                "Numbers are of a hundred furnaces with the cause, as one meets them, from hardly noticeable to failing: the"
                        + " program's own judgement, not counts. Marks: [std] a published standard, [physics] follows from a stated"
                        + " relation, [practice] common practice in the trade, no source, [memory] a typical figure, not confirmed."
                        + " The bands of the margin (healthy from 0.75 in w.c. beyond the set point, as 0.75 to 1.0 is the rule of"
                        + " thumb) are common practice, no source. The appliance's plate and instructions always win.");
        line("");
    }

    private void causes() {
        line("## Causes");
        line("");
        line("| cause | what it is | how common | how it shows | what to do once it is as good as certain |");
        line("|---|---|---|---|---|");
        for (int c = 0; c < table.causes().size(); c++) {
            Cause cause = table.causes().get(c);
            line(
                    "| `%s` | %s%s | %s %% | %s | %s |",
                    cause.id(),
                    cause.name(),
                    cause.danger() ? " (leave the appliance off)" : "",
                    number(100 * table.prior().get(c)),
                    cause.meaning(),
                    cause.remedy());
        }
        line("");
    }

    private void evidence() {
        line("## Evidence");
        line("");
        List<String> kinds = new ArrayList<>(table.kinds().keySet());
        kinds.sort(null);
        for (String id : kinds) {
            CauseTable.Kind kind = table.kind(id);
            line("### %s (`%s`)", kind.title(), id);
            line("");
            if (kind.weight() < 1) {
                line("Weight %s.", number(kind.weight()));
                line("");
            }
            line("| | %s | why |", String.join(" | ", kind.outcomes()));
            line("|---|%s---|", "---|".repeat(kind.outcomes().size()));
            row("as usual", kind.usual());
            for (Cause cause : table.causes()) {
                CauseTable.Row own = kind.byCause().get(cause.id());
                if (own != null) {
                    row("`" + cause.id() + "`", own);
                }
            }
            line("");
        }
    }

    private void row(String name, CauseTable.Row row) {
        line(
                "| %s | %s | %s [%s] |",
                name,
                row.chances().stream().map(p -> number(100 * p)).collect(Collectors.joining(" | ")),
                row.why(),
                row.source());
    }

    private void checks() {
        line("## Checks");
        line("");
        for (Check check : table.checks()) {
            line("### %s (`%s`), %s min", check.title(), check.id(), number(check.minutes()));
            line("");
            line("%s%s", check.text(), check.hose().isEmpty() ? "" : " *Hose:* " + check.hose() + ".");
            line("");
            for (Check.Outcome o : check.outcomes()) {
                line("- `%s`: %s", o.id(), o.text());
            }
            line("");
            if (!check.cautions().isEmpty()) {
                line("*Mind:* %s", String.join(" ", check.cautions()));
                line("");
            }
        }
    }

    private void adding() {
        line("## Adding to it");
        line("");
        line(
                "- A cause: one `[cause.NAME]` entry; what it does not mention is as usual. The reader refuses rows that do not"
                        + " make 100 and rows without a reason and a mark.");
        line("- A check: one `[check.NAME]` entry, with `tells` if it gives evidence that a session may show too.");
        line(
                "- Evidence from readings: one `[evidence.NAME]` entry and its finder in `EvidenceFinder` or `DraftEvidence`.");
        line("- Each with a test; then run `CausesPage` and, for a change of numbers, `CauseAccuracyReport`.");
    }

    private static String number(double value) {
        String s = String.format(Locale.ROOT, "%.2f", value);
        return s.replaceAll("0+$", "").replaceAll("\\.$", "");
    }
}
