package draftwitness.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A survey as CSV (RFC 4180) or as one HTML page. A cell that a spreadsheet would take for a formula gets an apostrophe
 * in front. Pure.
 */
public final class SurveyTable {
    private SurveyTable() {}

    /** The heading as a line of CSV, without a line end. */
    public static String csvHeading() {
        return String.join(",", SurveyRow.COLUMNS);
    }

    /** A row as a line of CSV, without a line end. */
    public static String csv(SurveyRow row) {
        StringBuilder line = new StringBuilder();
        for (String cell : row.cells()) {
            line.append(line.isEmpty() ? "" : ",").append(quoted(harmless(cell)));
        }
        return line.toString();
    }

    private static String harmless(String cell) {
        String plain = cell.replaceAll("[\\r\\n\\t\\x00]", " ");
        boolean number = plain.matches("-?[0-9.]+");
        return !plain.isEmpty() && "=+-@'".indexOf(plain.charAt(0)) >= 0 && !number ? "'" + plain : plain;
    }

    private static String quoted(String cell) {
        return cell.matches("[^\",]*") ? cell : "\"" + cell.replace("\"", "\"\"") + "\"";
    }

    /** A line that {@link #csv} wrote; empty if it is none, or was cut off. */
    public static Optional<SurveyRow> parse(String line) {
        List<String> cells = new ArrayList<>();
        StringBuilder cell = new StringBuilder();
        boolean within = false;
        for (int i = 0; i < line.length(); i++) {
            char c = line.charAt(i);
            if (c == '"' && within && i + 1 < line.length() && line.charAt(i + 1) == '"') {
                cell.append('"');
                i++;
            } else if (c == '"') {
                within = !within;
            } else if (c == ',' && !within) {
                cells.add(cell.toString());
                cell.setLength(0);
            } else {
                cell.append(c);
            }
        }
        cells.add(cell.toString());
        if (within || cells.size() != SurveyRow.COLUMNS.size()) {
            return Optional.empty();
        }
        cells.replaceAll(text -> text.startsWith("'") ? text.substring(1) : text);
        return Optional.of(new SurveyRow(cells));
    }

    /** All rows as one page that needs nothing from outside; troubled houses first. */
    public static String html(List<SurveyRow> rows) {
        Markup page = new Markup();
        page.raw(
                "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\"><head><meta charset=\"utf-8\"/>");
        page.element("title", "Survey of " + rows.size() + " recordings").raw("<style>");
        page.raw(
                "body { font: 10pt Roboto, \"Segoe UI\", Arial, sans-serif; color: #000; background: #fff; margin: 16pt; }"
                        + "table { border-collapse: collapse; } th, td { border-bottom: 1px solid #bbb; padding: 3pt 8pt 3pt 0;"
                        + " text-align: left; vertical-align: top; font-size: 9pt; } .grave td { font-weight: bold; }");
        page.raw("</style></head><body>").element("h1", "Survey of " + rows.size() + " recordings");
        page.element("p", "Bold: lockouts, failed cycles or flutter. Probabilities are advice, and no measurement.");
        page.raw("<table><thead><tr>");
        List<Integer> shown = shown();
        shown.forEach(i -> page.element("th", SurveyRow.COLUMNS.get(i).replace('_', ' ')));
        page.raw("</tr></thead><tbody>\n");
        rows.stream().sorted((a, b) -> Boolean.compare(isGrave(b), isGrave(a))).forEach(row -> {
            page.raw(isGrave(row) ? "<tr class=\"grave\">" : "<tr>");
            shown.forEach(i -> page.element("td", row.cells().get(i)));
            page.raw("</tr>\n");
        });
        return page.raw("</tbody></table></body></html>\n").toString();
    }

    private static List<Integer> shown() {
        List<Integer> shown = new ArrayList<>();
        for (int i = 0; i < SurveyRow.COLUMNS.size(); i++) {
            String name = SurveyRow.COLUMNS.get(i);
            if (!name.equals("bytes") && !name.equals("modified")) {
                shown.add(i);
            }
        }
        return shown;
    }

    private static boolean isGrave(SurveyRow row) {
        return positive(row.cell("failed"))
                || positive(row.cell("lockouts"))
                || positive(row.cell("flutter"))
                || !row.cell("error").isEmpty();
    }

    private static boolean positive(String count) {
        return !count.isEmpty() && !count.equals("0");
    }
}
