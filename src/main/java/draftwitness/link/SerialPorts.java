package draftwitness.link;

import com.fazecast.jSerialComm.SerialPort;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/** Serial ports in reach. Any thread; asks the system each time. */
public final class SerialPorts {
    private SerialPorts() {}

    /**
     * One port.
     *
     * @param path what {@code serial:} takes
     * @param description what the system calls the device
     */
    public record Found(String path, String description) {}

    /**
     * When the program is told to end from outside, the serial library closes all ports at once, which looks like
     * unplugging while recording is still being ended in good order. It waits for this first.
     *
     * @param wait returns when the ports are no longer needed
     */
    public static void cleanUpOnlyAfter(Runnable wait) {
        SerialPort.addShutdownHook(new Thread(wait, "serial-clean-up"));
    }

    /** Ports that the system lists, by path. Pseudo-terminals are not listed; their path can be given all the same. */
    public static List<Found> list() {
        return Arrays.stream(SerialPort.getCommPorts())
                .map(p -> new Found(p.getSystemPortPath(), p.getDescriptivePortName()))
                .sorted(Comparator.comparing(Found::path))
                .toList();
    }
}
