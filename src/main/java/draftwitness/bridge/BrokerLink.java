package draftwitness.bridge;

import com.hivemq.client.mqtt.MqttClient;
import com.hivemq.client.mqtt.MqttClientSslConfig;
import com.hivemq.client.mqtt.MqttClientState;
import com.hivemq.client.mqtt.MqttGlobalPublishFilter;
import com.hivemq.client.mqtt.datatypes.MqttQos;
import com.hivemq.client.mqtt.mqtt5.Mqtt5AsyncClient;
import com.hivemq.client.mqtt.mqtt5.Mqtt5ClientBuilder;
import com.hivemq.client.mqtt.mqtt5.exceptions.Mqtt5ConnAckException;
import com.hivemq.client.mqtt.mqtt5.message.auth.Mqtt5SimpleAuth;
import com.hivemq.client.mqtt.mqtt5.message.connect.Mqtt5Connect;
import com.hivemq.client.mqtt.mqtt5.message.connect.Mqtt5ConnectBuilder;
import com.hivemq.client.mqtt.mqtt5.message.publish.Mqtt5Publish;
import java.io.IOException;
import java.io.InputStream;
import java.net.UnknownHostException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateFactory;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.BiConsumer;
import javax.net.ssl.SSLException;
import javax.net.ssl.TrustManagerFactory;
import org.jspecify.annotations.Nullable;

/**
 * One connection to a broker: the only class that knows the MQTT library. At least once (QoS 1) both ways. Connects
 * when told and tells when that fails; whoever owns it decides when to try again. Any thread.
 */
final class BrokerLink implements AutoCloseable {
    private static final int KEEP_ALIVE_SECONDS = 15;
    private static final int CONNECT_SECONDS = 10;

    /** A broker or a stranger on it must not make us hold more than this in one message. */
    private static final int MAX_MESSAGE_BYTES = 4_000_000;

    private final Broker broker;
    private final Mqtt5AsyncClient client;

    /**
     * Prepares a connection.
     *
     * @param clientId unique at the broker
     * @throws BridgeException if the certificates cannot be read
     */
    BrokerLink(Broker broker, String clientId) throws BridgeException {
        this.broker = broker;
        Mqtt5ClientBuilder builder = MqttClient.builder()
                .useMqttVersion5()
                .identifier(clientId)
                .serverHost(broker.host())
                .serverPort(broker.port());
        if (broker.tls()) {
            builder = builder.sslConfig(sslConfig(broker.authority()));
        }
        client = builder.buildAsync();
    }

    private static MqttClientSslConfig sslConfig(@Nullable Path authority) throws BridgeException {
        if (authority == null) {
            return MqttClientSslConfig.builder().build();
        }
        try (InputStream in = Files.newInputStream(authority)) {
            KeyStore trusted = KeyStore.getInstance(KeyStore.getDefaultType());
            trusted.load(null, null);
            int number = 0;
            for (Certificate c : CertificateFactory.getInstance("X.509").generateCertificates(in)) {
                trusted.setCertificateEntry("authority-" + number++, c);
            }
            if (number == 0) {
                throw new BridgeException(authority + ": holds no certificate");
            }
            TrustManagerFactory factory = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
            factory.init(trusted);
            return MqttClientSslConfig.builder().trustManagerFactory(factory).build();
        } catch (IOException | GeneralSecurityException e) {
            throw new BridgeException(authority + ": no certificates can be read from it (" + e.getMessage() + ")", e);
        }
    }

    /**
     * Connects; waits for it.
     *
     * @param will what the broker says in our name when we vanish, retained; null for nothing
     * @param keepSeconds how long the broker keeps what we subscribed to while we are away; 0 to begin anew each time
     * @throws BridgeException if it cannot be reached or refuses
     */
    void connect(@Nullable Will will, long keepSeconds) throws BridgeException, InterruptedException {
        Mqtt5ConnectBuilder connect = Mqtt5Connect.builder()
                .keepAlive(KEEP_ALIVE_SECONDS)
                .cleanStart(keepSeconds == 0)
                .sessionExpiryInterval(keepSeconds)
                .restrictions()
                .maximumPacketSize(MAX_MESSAGE_BYTES)
                .applyRestrictions();
        String user = broker.user();
        if (user != null) {
            connect = connect.simpleAuth(auth(user, broker.password()));
        }
        if (will != null) {
            connect = connect.willPublish()
                    .topic(will.topic())
                    .payload(will.payload())
                    .qos(MqttQos.AT_LEAST_ONCE)
                    .retain(true)
                    .applyWillPublish();
        }
        await("connect", client.connect(connect.build()), CONNECT_SECONDS);
    }

    /**
     * What the broker says when we vanish.
     *
     * @param topic where
     * @param payload what
     */
    @SuppressWarnings("ArrayRecordComponent") // made for one call and never compared
    record Will(String topic, byte[] payload) {}

    private static Mqtt5SimpleAuth auth(String user, @Nullable String password) {
        var builder = Mqtt5SimpleAuth.builder().username(user);
        return password == null
                ? builder.build()
                : builder.password(password.getBytes(StandardCharsets.UTF_8)).build();
    }

    boolean isConnected() {
        return client.getState() == MqttClientState.CONNECTED;
    }

    /** Sends; done once the broker has it. */
    CompletableFuture<Void> publish(String topic, byte[] payload, boolean retained) {
        return client.publishWith()
                .topic(topic)
                .payload(payload)
                .qos(MqttQos.AT_LEAST_ONCE)
                .retain(retained)
                .send()
                .thenAccept(result -> result.getError().ifPresent(e -> {
                    throw new IllegalStateException(e);
                }));
    }

    /**
     * Has all that comes delivered; to be called once, before connecting.
     *
     * @param receiver gets topic and payload, on the library's thread: must return at once
     */
    void receive(BiConsumer<String, byte[]> receiver) {
        client.publishes(
                MqttGlobalPublishFilter.ALL,
                (Mqtt5Publish p) -> receiver.accept(p.getTopic().toString(), p.getPayloadAsBytes()));
    }

    /** Asks for topics; waits for the broker's consent. */
    void subscribe(String filter) throws BridgeException, InterruptedException {
        var unused = await(
                "subscribe to " + filter,
                client.subscribeWith()
                        .topicFilter(filter)
                        .qos(MqttQos.AT_LEAST_ONCE)
                        .send(),
                CONNECT_SECONDS);
    }

    /** Waits for something asked of the broker. */
    <T> T await(String what, CompletableFuture<T> future, int seconds) throws BridgeException, InterruptedException {
        try {
            return future.get(seconds, TimeUnit.SECONDS);
        } catch (ExecutionException e) {
            throw new BridgeException(broker + ": cannot " + what + ": " + reason(e.getCause()), e);
        } catch (TimeoutException e) {
            throw new BridgeException(broker + ": cannot " + what + ": no answer in " + seconds + " s", e);
        }
    }

    private static String reason(@Nullable Throwable thrown) {
        Throwable cause = thrown;
        while (cause != null) {
            if (cause instanceof Mqtt5ConnAckException refused) {
                return "refused ("
                        + refused.getMqttMessage()
                                .getReasonCode()
                                .name()
                                .toLowerCase(java.util.Locale.ROOT)
                                .replace('_', ' ')
                        + ")";
            }
            if (cause instanceof UnknownHostException) {
                return "no such host";
            }
            if (cause instanceof SSLException) {
                return "its certificate is not trusted, or it does not speak TLS (" + cause.getMessage() + ")";
            }
            if (cause.getCause() == null || cause.getCause() == cause) {
                break;
            }
            cause = cause.getCause();
        }
        return cause == null ? "unknown reason" : String.valueOf(cause.getMessage());
    }

    /** Leaves without the will being said. */
    void disconnect() throws BridgeException, InterruptedException {
        await("disconnect", client.disconnect(), CONNECT_SECONDS);
    }

    /** Leaves if it is there, whatever becomes of that. */
    @Override
    public void close() {
        if (client.getState() != MqttClientState.DISCONNECTED) {
            CompletableFuture<Void> unused = client.disconnect();
        }
    }
}
