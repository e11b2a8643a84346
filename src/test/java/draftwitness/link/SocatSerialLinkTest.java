package draftwitness.link;

import draftwitness.testkit.Cable;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;

/** A serial link over pseudo-terminals that another program made. */
class SocatSerialLinkTest extends ByteLinkContract {
    @TempDir
    Path folder;

    private Cable cable;

    @Override
    void startInstrument() throws Exception {
        cable = new Cable(folder);
    }

    @Override
    LinkAddress address() throws Exception {
        return LinkAddress.parse("serial:" + cable.near());
    }

    @Override
    void instrumentSends(byte[] bytes) throws Exception {
        try (OutputStream out = Files.newOutputStream(cable.far())) {
            out.write(bytes);
        }
    }

    @Override
    void instrumentLeaves() throws Exception {
        cable.close();
    }
}
