package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.diagnosis.Check;
import draftwitness.recording.Notebook;
import draftwitness.testkit.Peers;
import draftwitness.testkit.Program;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.HashSet;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The command {@code report} on a recording with a flutter in it and a note that means harm. */
@Timeout(180)
class JobReportTest {
    private static final String HARM = "<script>alert(1)</script> & \"quoted\" \u0007 =cmd()";

    @TempDir
    static Path folder;

    private static Path recording;

    @BeforeAll
    static void record() throws Exception {
        recording = folder.resolve("hall.dwrec");
        Program.Result made =
                Program.run("simulate", "condensate-in-vent-severe", "--for", "15m", "--out", recording.toString());
        assertThat(made.code()).as(made.err()).isZero();
        Notebook book = Notebook.of(recording);
        book.add(1_000_000_000L, 2_000_000_000L, HARM, Instant.parse("2026-01-18T08:00:00Z"));
        Check check = Check.all().get(0);
        Check.Outcome outcome = check.outcomes().get(0);
        book.add(
                0,
                0,
                "check " + check.id() + " = " + outcome.id() + ": " + outcome.text(),
                Instant.parse("2026-01-18T08:00:00Z"));
    }

    private static Path report(String name, String... more) {
        Path out = folder.resolve(name);
        String[] words = new String[4 + more.length];
        System.arraycopy(new String[] {"report", recording.toString(), "--out", out.toString()}, 0, words, 0, 4);
        System.arraycopy(more, 0, words, 4, more.length);
        Program.Result made = Program.run(words);
        assertThat(made.code()).as(made.err()).isZero();
        return out;
    }

    private static String text(Path pdf) throws Exception {
        try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
            return new PDFTextStripper().getText(document);
        }
    }

    @Test
    void givenARecording_whenReportedAsHtml_thenItIsWellFormedNeedsNothingAndHarmsNobody() throws Exception {
        String html = Files.readString(report("a.html"));
        DocumentBuilderFactory xml = DocumentBuilderFactory.newInstance();
        xml.newDocumentBuilder()
                .parse(new ByteArrayInputStream(
                        html.replaceFirst("<!DOCTYPE html>\n", "").getBytes(StandardCharsets.UTF_8)));
        assertThat(html)
                .contains(
                        "Verdict",
                        "flutter in cycle 1",
                        "Carbon monoxide kills",
                        "SHA-256",
                        "What may be wrong, and why")
                .contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;quoted&quot; \uFFFD")
                .doesNotContain("<script", " src=", " href=", "url(", "@import");
    }

    @Test
    void givenARecording_whenReportedAsPdf_thenTextCanBeSelectedAndDrawingsAreVectors() throws Exception {
        Path pdf = report("a.pdf");
        assertThat(text(pdf))
                .contains(
                        "Verdict",
                        "Worst moments",
                        "Margin beyond the set point",
                        "Carbon monoxide kills",
                        "<script>alert(1)");
        try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
            Set<String> fonts = new HashSet<>();
            for (PDPage page : document.getPages()) {
                for (COSName name : page.getResources().getXObjectNames()) {
                    assertThat(page.getResources().isImageXObject(name)).isFalse();
                }
                for (COSName name : page.getResources().getFontNames()) {
                    PDFont font = page.getResources().getFont(name);
                    fonts.add(font.getName().replaceFirst(".*\\+", ""));
                    assertThat(font.isEmbedded()).as(font.getName()).isTrue();
                }
                assertThat(page.getMediaBox().getWidth()).isBetween(594f, 597f); // 210 mm in points of 1/72 inch
            }
            assertThat(fonts).contains("Roboto-Regular", "Roboto-Bold");
            assertThat(inked(new PDFRenderer(document).renderImageWithDPI(0, 50)))
                    .isBetween(0.005, 0.5);
        }
    }

    /** Share of dots that are not white. */
    private static double inked(BufferedImage image) {
        int dark = 0;
        for (int y = 0; y < image.getHeight(); y++) {
            for (int x = 0; x < image.getWidth(); x++) {
                dark += (image.getRGB(x, y) & 0xFF) < 200 ? 1 : 0;
            }
        }
        return dark / (double) (image.getWidth() * image.getHeight());
    }

    @Test
    void givenAnAnswerKeptWithTheRecording_whenReportedAndAnalysed_thenItIsACheckDoneAndWeighsInBoth()
            throws Exception {
        String html = Files.readString(report("answered.html"));
        Check check = Check.all().get(0);
        String line = check.title() + ": " + check.outcomes().get(0).text();
        assertThat(html).contains("<h2>Checks done</h2>").contains(line.replace("'", "&#39;"));
        String json = Program.run("analyze", "--json", recording.toString()).out();
        String next = json.substring(json.indexOf("\"next_checks\""));
        assertThat(next).doesNotContain("\"check\":\"" + check.id() + "\"");
    }

    @Test
    void givenLetterPaperAndInches_whenReported_thenPagesAreOfThatSizeAndUnit() throws Exception {
        Path pdf = report("letter.pdf", "--paper", "letter", "--unit", "inH2O");
        try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
            assertThat(document.getPage(0).getMediaBox().getWidth()).isEqualTo(612f); // 8.5 inches
            assertThat(document.getPage(0).getMediaBox().getHeight()).isEqualTo(792f); // 11 inches
        }
        assertThat(text(pdf)).contains("Margin beyond the set point, inH2O", "0.950 inH2O");
    }

    @Test
    void givenTheChecksum_whenTheFileIsHashedByAnother_thenItIsTheSame() throws Exception {
        String html = Files.readString(report("sum.html"));
        Process sum = new ProcessBuilder("sha256sum", recording.toString()).start();
        String said = new String(sum.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(html).contains(said.substring(0, 64));
    }

    @Test
    void givenAFileThatExists_whenReported_thenItIsRefusedUnlessReplacingIsAskedFor() throws Exception {
        Path out = Files.writeString(folder.resolve("there.html"), "mine");
        Program.Result refused = Program.run("report", recording.toString(), "--out", out.toString());
        assertThat(refused.code()).isEqualTo(2);
        assertThat(refused.complaints()).hasSize(1).first().asString().contains("--replace");
        assertThat(out).hasContent("mine");
        assertThat(Program.run("report", recording.toString(), "--out", out.toString(), "--replace")
                        .code())
                .isZero();
        assertThat(Files.readString(out)).contains("Verdict");
    }

    @Test
    void givenAnotherEnding_whenReported_thenItSaysWhichThereAre() {
        Program.Result refused = Program.run("report", recording.toString(), "--out", "a.doc");
        assertThat(refused.code()).isEqualTo(2);
        assertThat(refused.complaints()).hasSize(1).first().asString().contains(".pdf or .html");
    }

    @Test
    void givenARealBrowserWithoutNetwork_whenThePageIsPrinted_thenItsTextIsOnPaper() throws Exception {
        Peers.needProgram("chromium");
        Path html = report("browser.html");
        Path pdf = folder.resolve("browser.pdf");
        Process browser = new ProcessBuilder(
                        "chromium",
                        "--headless",
                        "--no-sandbox",
                        "--disable-gpu",
                        "--disable-dev-shm-usage",
                        "--user-data-dir=" + folder.resolve("profile"),
                        "--host-resolver-rules=MAP * ~NOTFOUND",
                        "--print-to-pdf=" + pdf,
                        html.toUri().toString())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("browser.log").toFile())
                .start();
        assertThat(browser.waitFor(120, TimeUnit.SECONDS)).isTrue();
        assertThat(text(pdf)).contains("Verdict", "Worst moments", "Carbon monoxide kills", "set point");
    }
}
