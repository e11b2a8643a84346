package draftwitness.link;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import draftwitness.input.InputException;
import draftwitness.input.Options;
import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * A serial port, or whatever looks like one (USB adapters, pseudo-terminals, symbolic links to them).
 *
 * <p>Reads block in the library without a time-out and end when the port is closed or unplugged. The path is looked up
 * afresh at every opening, since the library follows a symbolic link only once: after a replug the old object would
 * read another device.
 */
final class SerialLink implements ByteLink {
    private static final int BUFFER_BYTES = 4096;

    /** EIO, ENXIO, EBADF, ENODEV, EINVAL, ENOTTY: a line reads as not asserted because it cannot be read. */
    private static final Set<Integer> GONE = Set.of(5, 6, 9, 19, 22, 25);

    private final String path;
    private final SerialPort port;
    private final Ticker ticker;
    private final Optional<LinkAddress> returnAddress;
    private final byte[] buffer = new byte[BUFFER_BYTES];
    private volatile boolean closed;

    private SerialLink(String path, SerialPort port, Ticker ticker, Optional<LinkAddress> returnAddress) {
        this.path = path;
        this.returnAddress = returnAddress;
        this.port = port;
        this.ticker = ticker;
    }

    /** Line settings. */
    record Settings(int baud, int dataBits, int stopBits, int parity, int flow) {
        static Settings of(Options options) throws InputException {
            int parity = switch (word(options, "parity", "none")) {
                case "none" -> SerialPort.NO_PARITY;
                case "even" -> SerialPort.EVEN_PARITY;
                case "odd" -> SerialPort.ODD_PARITY;
                default -> throw new InputException("'" + options + "': parity is none, even or odd");
            };
            int flow = switch (word(options, "flow", "none")) {
                case "none" -> SerialPort.FLOW_CONTROL_DISABLED;
                case "rts-cts" -> SerialPort.FLOW_CONTROL_RTS_ENABLED | SerialPort.FLOW_CONTROL_CTS_ENABLED;
                case "xon-xoff" ->
                    SerialPort.FLOW_CONTROL_XONXOFF_IN_ENABLED | SerialPort.FLOW_CONTROL_XONXOFF_OUT_ENABLED;
                default -> throw new InputException("'" + options + "': flow is none, rts-cts or xon-xoff");
            };
            int stop = options.integer("stop", 1, 1, 2) == 1 ? SerialPort.ONE_STOP_BIT : SerialPort.TWO_STOP_BITS;
            return new Settings(
                    options.integer("baud", 9600, 50, 4_000_000), options.integer("data", 8, 5, 8), stop, parity, flow);
        }

        private static String word(Options options, String key, String byDefault) {
            return options.text(key).orElse(byDefault).toLowerCase(Locale.ROOT);
        }
    }

    static ByteLink open(LinkAddress address, Ticker ticker) throws LinkException {
        return open(address, ticker, StableNames.SYSTEM);
    }

    static ByteLink open(LinkAddress address, Ticker ticker, StableNames names) throws LinkException {
        String path = address.target();
        SerialPort port;
        List<ControlLine> lines = List.of();
        try {
            Settings s = Settings.of(address.options());
            Optional<String> watched = address.options().text(LinkAddress.LINES);
            if (watched.isPresent()) {
                lines = ControlLine.parse(watched.get());
            }
            port = SerialPort.getCommPort(path);
            port.setComPortParameters(s.baud(), s.dataBits(), s.stopBits(), s.parity());
            port.setFlowControl(s.flow());
        } catch (InputException e) {
            throw new LinkException(String.valueOf(e.getMessage()), e);
        } catch (SerialPortInvalidPortException e) {
            throw new LinkException(path + ": no such port; is the instrument plugged in?", e);
        }
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, 0, 0);
        if (!port.openPort(0, BUFFER_BYTES, BUFFER_BYTES)) {
            throw new LinkException(path + ": cannot be opened (" + reason(port)
                    + "); is another program using it, or may you not use it?");
        }
        port.flushIOBuffers(); // what piled up before is of unknown age
        Optional<LinkAddress> back = names.of(path).map(name -> address.at(name.toString()));
        SerialLink link = new SerialLink(path, port, ticker, back);
        return lines.isEmpty() ? link : watched(link, lines, ticker);
    }

    private static ByteLink watched(SerialLink link, List<ControlLine> lines, Ticker ticker) throws LinkException {
        try {
            for (ControlLine line : lines) {
                boolean unused = link.isAsserted(line);
            }
        } catch (LinkException e) {
            link.close();
            throw new LinkException(link.path + ": has no control lines for contacts; use a real serial port", e);
        }
        return new LineWatchLink(link.path, link, lines, link::isAsserted, ticker);
    }

    private boolean isAsserted(ControlLine line) throws LinkException {
        boolean asserted = switch (line) {
            case CTS -> port.getCTS();
            case DSR -> port.getDSR();
            case DCD -> port.getDCD();
            case RI -> port.getRI();
        };
        if (!asserted && GONE.contains(port.getLastErrorCode())) {
            throw new LinkException(path + ": its control lines cannot be read (" + reason(port) + ")");
        }
        return asserted;
    }

    private static String reason(SerialPort port) {
        return "error " + port.getLastErrorCode() + " of the system";
    }

    @Override
    public Optional<Chunk> read() throws LinkException {
        int n = port.readBytes(buffer, buffer.length);
        long arrival = ticker.nanos();
        if (n > 0) {
            return Optional.of(new Chunk(buffer, 0, n, arrival));
        }
        throw new LinkException(closed ? path + ": closed" : path + ": unplugged");
    }

    @Override
    public void write(byte[] bytes) throws LinkException {
        // An unplugged port takes nothing and says 0, not -1.
        if (port.writeBytes(bytes, bytes.length) != bytes.length) {
            throw new LinkException(path + ": took no more bytes; unplugged?");
        }
    }

    @Override
    public Optional<LinkAddress> returnAddress() {
        return returnAddress;
    }

    @Override
    public void close() {
        closed = true;
        port.closePort();
    }
}
