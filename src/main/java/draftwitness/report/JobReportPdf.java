package draftwitness.report;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;

/**
 * A job report as pages: the XHTML of {@link JobReportHtml} laid out on paper, with drawings as vectors, text that can
 * be selected and a type face that is in the file. Nothing outside the text is ever fetched. Any thread.
 */
public final class JobReportPdf {
    private static final String FONTS = "/com/formdev/flatlaf/fonts/roboto/";

    /** Where the library keeps a list of the machine's type faces. */
    private static final String FONT_CACHE = "pdfbox.fontcache";

    private JobReportPdf() {}

    /**
     * Writes the pages; may take some seconds.
     *
     * @param out stays the caller's to close
     * @throws IOException if that cannot be written to
     */
    public static void write(JobReport report, Paper paper, OutputStream out) throws IOException {
        XRLog.setLoggingEnabled(false); // it would write to standard error
        if (System.getProperty(FONT_CACHE) == null) {
            System.setProperty(FONT_CACHE, System.getProperty("java.io.tmpdir")); // else it writes into a person's home
        }
        PdfRendererBuilder builder = new PdfRendererBuilder();
        builder.useFastMode();
        font(builder, "Roboto-Regular.ttf", 400, FontStyle.NORMAL);
        font(builder, "Roboto-Bold.ttf", 700, FontStyle.NORMAL);
        font(builder, "Roboto-Italic.ttf", 400, FontStyle.ITALIC);
        builder.useUriResolver((base, uri) -> null);
        builder.useSVGDrawer(new BatikSVGDrawer());
        builder.withProducer(report.software());
        builder.withHtmlContent(JobReportHtml.of(report, paper), "");
        builder.toStream(out);
        builder.run();
    }

    private static void font(PdfRendererBuilder builder, String file, int weight, FontStyle style) {
        builder.useFont(() -> open(file), "Roboto", weight, style, true);
    }

    private static InputStream open(String file) {
        InputStream in = JobReportPdf.class.getResourceAsStream(FONTS + file);
        if (in == null) {
            throw new IllegalStateException("the type face " + file + " is missing from the program");
        }
        return in;
    }
}
