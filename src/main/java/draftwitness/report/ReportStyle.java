package draftwitness.report;

/** The look of a printed page: black on white, one type face, nothing told by colour. Pure. */
final class ReportStyle {
    private ReportStyle() {}

    static String css(Paper paper) {
        return """
                @page { size: %s; margin: 18mm 16mm 18mm 16mm;
                  @bottom-left { content: "Advice, no safety device: see the cautions"; font: 8pt Roboto, sans-serif; color: #555; }
                  @bottom-right { content: "Page " counter(page) " of " counter(pages); font: 8pt Roboto, sans-serif; color: #555; } }
                body { font-family: Roboto, "Segoe UI", "Helvetica Neue", Arial, sans-serif; font-size: 10pt; line-height: 1.4;
                  color: #000; background: #fff; max-width: 780px; margin: 0 auto; }
                h1 { font-size: 19pt; margin: 0 0 2pt 0; }
                h2 { font-size: 13pt; margin: 18pt 0 5pt 0; border-bottom: 1px solid #000; page-break-after: avoid; }
                h3 { font-size: 10.5pt; margin: 8pt 0 2pt 0; page-break-after: avoid; }
                p { margin: 3pt 0; } ul, ol { margin: 3pt 0; padding-left: 18pt; } li { margin: 2pt 0; }
                .lead, .small, figcaption { color: #444; } .small, figcaption { font-size: 9pt; }
                .verdict { border: 1.5px solid #000; padding: 4pt 10pt 8pt 10pt; margin-top: 10pt; }
                .verdict h2 { border: 0; margin: 2pt 0; } .verdict p { font-size: 11pt; }
                .danger { border-left: 5px solid #000; padding-left: 8pt; }
                table { border-collapse: collapse; width: 100%%; margin: 4pt 0; -fs-table-paginate: paginate; }
                th, td { border-bottom: 1px solid #bbb; text-align: left; vertical-align: top; padding: 2pt 8pt 2pt 0; font-size: 9pt; }
                thead th { border-bottom: 1px solid #000; } tr { page-break-inside: avoid; }
                .time { white-space: nowrap; } .facts td { word-wrap: break-word; }
                .facts th { width: 30%%; font-weight: normal; color: #444; }
                figure { margin: 6pt 0; } .episode, .cause { page-break-inside: avoid; }
                svg { max-width: 100%%; height: auto; }
                """.formatted(paper.css());
    }
}
