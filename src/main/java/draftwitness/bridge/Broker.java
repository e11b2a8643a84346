package draftwitness.bridge;

import draftwitness.input.InputException;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * Where a broker is and how to speak to it.
 *
 * @param host name or address
 * @param port 1 to 65535
 * @param tls whether the connection is encrypted and the broker's certificate checked
 * @param authority file with the certificates (PEM) that vouch for the broker, or null for those the machine trusts
 * @param user name to log in with, or null
 * @param password goes with the name, or null
 */
public record Broker(
        String host,
        int port,
        boolean tls,
        @Nullable Path authority,
        @Nullable String user,
        @Nullable String password) {
    private static final int PLAIN_PORT = 1883;
    private static final int TLS_PORT = 8883;

    public Broker {
        if (host.isEmpty() || port < 1 || port > 65535) {
            throw new IllegalArgumentException("no broker at '" + host + "' port " + port);
        }
    }

    /**
     * Reads {@code mqtt://HOST[:PORT]} or {@code mqtts://HOST[:PORT]}.
     *
     * @param authority file of certificates, or null
     * @param user or null
     * @param password or null
     * @throws InputException naming what is wrong with the address
     */
    public static Broker parse(String url, @Nullable Path authority, @Nullable String user, @Nullable String password)
            throws InputException {
        URI uri;
        try {
            uri = new URI(url);
        } catch (URISyntaxException e) {
            throw new InputException("'" + url + "' is not mqtt://HOST:PORT or mqtts://HOST:PORT", e);
        }
        boolean tls = "mqtts".equals(uri.getScheme());
        boolean extra = uri.getUserInfo() != null || uri.getQuery() != null || uri.getFragment() != null;
        String path = uri.getPath() == null ? "" : uri.getPath();
        if ((!tls && !"mqtt".equals(uri.getScheme())) || uri.getHost() == null || extra || path.length() > 1) {
            throw new InputException("'" + url + "' is not mqtt://HOST:PORT or mqtts://HOST:PORT"
                    + (uri.getUserInfo() == null ? "" : "; give the name by --user and the password by a file"));
        }
        if (authority != null && !Files.isReadable(authority)) {
            throw new InputException(authority + ": no such file of certificates");
        }
        int port = uri.getPort() < 0 ? (tls ? TLS_PORT : PLAIN_PORT) : uri.getPort();
        if (port < 1 || port > 65535) {
            throw new InputException("'" + url + "': port " + port + " is not from 1 to 65535");
        }
        return new Broker(uri.getHost(), port, tls, authority, user, password);
    }

    /** For people; without the password. */
    @Override
    public String toString() {
        return (tls ? "mqtts://" : "mqtt://") + host + ":" + port;
    }
}
