package draftwitness.link.ble;

import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicLong;
import org.bluez.Adapter1;
import org.bluez.Device1;
import org.bluez.GattCharacteristic1;
import org.bluez.GattDescriptor1;
import org.freedesktop.dbus.connections.IDisconnectCallback;
import org.freedesktop.dbus.connections.impl.DBusConnection;
import org.freedesktop.dbus.connections.impl.DBusConnectionBuilder;
import org.freedesktop.dbus.exceptions.DBusException;
import org.freedesktop.dbus.exceptions.DBusExecutionException;
import org.freedesktop.dbus.interfaces.CallbackHandler;
import org.freedesktop.dbus.interfaces.DBus;
import org.freedesktop.dbus.interfaces.DBusInterface;
import org.freedesktop.dbus.interfaces.ObjectManager;
import org.freedesktop.dbus.interfaces.Properties;
import org.freedesktop.dbus.types.Variant;
import org.jspecify.annotations.Nullable;

/**
 * One connection to the system's bus, and BlueZ on it. Any thread may call; what BlueZ signals is handed on by D-Bus's
 * one signal thread, in the order in which it was sent.
 *
 * <p>A bus belongs to one run of BlueZ: when BlueZ or the bus goes away, it is {@link #isLost lost} for good and a new
 * one is needed.
 */
final class Bus implements AutoCloseable {
    private static final String NAME = "org.bluez";
    /** Stands for the answer of a call that returns nothing. */
    private static final Object DONE = "done";

    private static final int BUS_MILLIS = 1000;
    private static final long START_SECONDS = 30; // systemd may have to start BlueZ

    /** Hears what BlueZ signals. Called on D-Bus's thread: must neither wait nor call BlueZ. */
    interface Listener {
        /** A characteristic's value, notified or read. */
        void value(String path, byte[] value);

        /** Something else at this path is new or different, or gone. */
        void changed(String path);
    }

    private final DBusConnection connection;
    private final List<Listener> listeners = new CopyOnWriteArrayList<>();
    private final Map<Long, CompletableFuture<Object>> pending = new ConcurrentHashMap<>();
    private final AtomicLong calls = new AtomicLong();
    private final Map<String, CompletableFuture<Void>> leaving = new ConcurrentHashMap<>();
    private volatile boolean lost;

    private Bus(DBusConnection connection) {
        this.connection = connection;
    }

    /**
     * Connects.
     *
     * @param address of the bus; empty for the system's own
     */
    static Bus open(String address) throws BleException {
        Lost callback = new Lost();
        DBusConnection connection;
        try {
            DBusConnectionBuilder builder = address.isEmpty()
                    ? DBusConnectionBuilder.forSystemBus()
                    : DBusConnectionBuilder.forAddress(address);
            connection = builder.withShared(false)
                    .withDisconnectCallback(callback)
                    .transportConfig()
                    .withTimeout(BUS_MILLIS) // else a bus that is not there is waited for 10 s
                    .back()
                    .build();
        } catch (DBusException | RuntimeException e) {
            throw new BleException("no D-Bus system bus (" + words(e) + "); Bluetooth needs it", e);
        }
        Bus bus = new Bus(connection);
        callback.bus = bus;
        try {
            bus.listen();
            return bus;
        } catch (DBusException | RuntimeException e) {
            bus.close();
            throw noBlueZ(words(e), e);
        } catch (BleException e) {
            bus.close();
            throw noBlueZ(e.reason(), e);
        }
    }

    private static BleException noBlueZ(String why, Exception e) {
        return new BleException("BlueZ does not answer (" + why + "); install it or start the service 'bluetooth'", e);
    }

    private static String words(Exception e) {
        return String.valueOf(e.getMessage())
                .lines()
                .findFirst()
                .orElse(e.getClass().getSimpleName());
    }

    /** D-Bus tells on a thread of its own that the connection broke. */
    private static final class Lost implements IDisconnectCallback {
        private volatile @Nullable Bus bus;

        @Override
        public void disconnectOnError(IOException e) {
            Bus broken = bus;
            if (broken != null) {
                broken.lose();
            }
        }
    }

    private void listen() throws DBusException, BleException {
        DBus daemon = connection.getRemoteObject("org.freedesktop.DBus", "/org/freedesktop/DBus", DBus.class);
        connection.addSigHandler(DBus.NameOwnerChanged.class, s -> {
            if (NAME.equals(s.name) && !s.oldOwner.isEmpty()) {
                lose();
            }
        });
        CompletableFuture<Object> first = call(manager(), "GetManagedObjects");
        await(first, TimeUnit.SECONDS.toNanos(START_SECONDS), "its start");
        String owner = daemon.GetNameOwner(NAME);
        connection.addSigHandler(Properties.PropertiesChanged.class, owner, this::propertiesChanged);
        connection.addSigHandler(
                ObjectManager.InterfacesAdded.class,
                owner,
                s -> tell(s.getSignalSource().getPath()));
        connection.addSigHandler(
                ObjectManager.InterfacesRemoved.class,
                owner,
                s -> tell(s.getSignalSource().getPath()));
    }

    private void propertiesChanged(Properties.PropertiesChanged signal) {
        Variant<?> value = signal.getPropertiesChanged().get("Value");
        if (!BlueZ.CHARACTERISTIC.equals(signal.getInterfaceName())) {
            tell(signal.getPath());
        } else if (value != null) {
            byte[] bytes = bytes(value.getValue());
            listeners.forEach(l -> l.value(signal.getPath(), bytes));
        }
    }

    private void tell(String path) {
        listeners.forEach(l -> l.changed(path));
    }

    /** Bytes inside a variant come as a list of them, those that a call returns as an array. */
    private static byte[] bytes(Object value) {
        if (value instanceof byte[] array) {
            return array;
        }
        List<?> list = value instanceof List<?> l ? l : List.of();
        byte[] array = new byte[list.size()];
        for (int i = 0; i < array.length; i++) {
            array[i] = list.get(i) instanceof Number n ? n.byteValue() : 0;
        }
        return array;
    }

    private void lose() {
        lost = true;
        pending.values()
                .forEach(f -> f.completeExceptionally(new BleException("BlueZ has stopped; it is tried again")));
        tell("/");
    }

    /** True once BlueZ or the bus has gone. */
    boolean isLost() {
        return lost;
    }

    void add(Listener listener) {
        listeners.add(listener);
    }

    void remove(Listener listener) {
        listeners.remove(listener);
    }

    private ObjectManager manager() throws BleException {
        return at("/", ObjectManager.class);
    }

    private <T extends DBusInterface> T at(String path, Class<T> type) throws BleException {
        try {
            return connection.getRemoteObject(NAME, path, type);
        } catch (DBusException e) {
            throw new BleException(path + " cannot be used (" + words(e) + ")", e);
        }
    }

    /** All that BlueZ has now. */
    BlueZ look(long limitNanos) throws BleException {
        Map<?, ?> objects = (Map<?, ?>) await(call(manager(), "GetManagedObjects"), limitNanos, "BlueZ to answer");
        Map<String, Map<String, Map<String, Object>>> plain = new HashMap<>();
        objects.forEach((path, interfaces) -> {
            Map<String, Map<String, Object>> byInterface = new HashMap<>();
            ((Map<?, ?>) interfaces).forEach((name, properties) -> {
                Map<String, Object> values = new HashMap<>();
                ((Map<?, ?>) properties)
                        .forEach((key, variant) -> values.put((String) key, ((Variant<?>) variant).getValue()));
                byInterface.put((String) name, values);
            });
            plain.put(path.toString(), byInterface);
        });
        return new BlueZ(plain);
    }

    /** Begins to listen for devices; those that do not call themselves discoverable too. */
    CompletableFuture<Object> startDiscovery(String adapterPath) throws BleException {
        Adapter1 adapter = at(adapterPath, Adapter1.class);
        Map<String, Variant<?>> filter = Map.of("Transport", new Variant<>("le"));
        return call(adapter, "SetDiscoveryFilter", filter).thenCompose(done -> call(adapter, "StartDiscovery"));
    }

    CompletableFuture<Object> stopDiscovery(String adapterPath) throws BleException {
        return call(at(adapterPath, Adapter1.class), "StopDiscovery");
    }

    /** Connects to a device, after an earlier leaving of it has come to its end. */
    CompletableFuture<Object> connect(String devicePath) throws BleException {
        Device1 device = at(devicePath, Device1.class);
        return leaving.getOrDefault(devicePath, CompletableFuture.completedFuture(null))
                .thenCompose(gone -> call(device, "Connect"));
    }

    /** Disconnects a device, or gives up connecting to it; nobody needs to wait for it. */
    void leave(String devicePath) {
        CompletableFuture<Void> gone = new CompletableFuture<>();
        leaving.put(devicePath, gone);
        CompletableFuture<Object> answer;
        try {
            answer = call(at(devicePath, Device1.class), "Disconnect");
        } catch (BleException e) {
            answer = CompletableFuture.failedFuture(e);
        }
        CompletableFuture<Object> unused = answer.whenComplete((done, failure) -> {
            leaving.computeIfPresent(devicePath, (path, latest) -> latest == gone ? null : latest);
            gone.complete(null);
        });
    }

    CompletableFuture<Object> startNotify(String path) throws BleException {
        return call(at(path, GattCharacteristic1.class), "StartNotify");
    }

    CompletableFuture<Object> readCharacteristic(String path) throws BleException {
        return call(at(path, GattCharacteristic1.class), "ReadValue", Map.of());
    }

    CompletableFuture<Object> readDescriptor(String path) throws BleException {
        return call(at(path, GattDescriptor1.class), "ReadValue", Map.of());
    }

    /** Waits for an answer that is bytes. */
    static byte[] awaitBytes(CompletableFuture<Object> answer, long limitNanos, String what) throws BleException {
        return bytes(await(answer, limitNanos, what));
    }

    /** Waits for an answer. */
    static <T> T await(CompletableFuture<T> answer, long limitNanos, String what) throws BleException {
        try {
            return answer.get(limitNanos, TimeUnit.NANOSECONDS);
        } catch (TimeoutException e) {
            throw new BleException("waited in vain for " + what, e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new BleException("interrupted", e);
        } catch (ExecutionException e) {
            Throwable cause = root(e);
            throw cause instanceof BleException ours
                    ? ours
                    : Refusals.explain(what, String.valueOf(cause.getMessage()), cause);
        }
    }

    private static Throwable root(Throwable e) {
        Throwable cause = e.getCause();
        boolean wrapped = e instanceof ExecutionException || e instanceof CompletionException;
        return wrapped && cause != null ? root(cause) : e;
    }

    private CompletableFuture<Object> call(DBusInterface object, String method, Object... parameters) {
        CompletableFuture<Object> answer = new CompletableFuture<>();
        long number = calls.incrementAndGet();
        pending.put(number, answer);
        CompletableFuture<Object> tidied = answer.whenComplete((done, failure) -> pending.remove(number));
        if (lost) {
            answer.completeExceptionally(new BleException("BlueZ has stopped; it is tried again"));
            return tidied;
        }
        try {
            connection.callWithCallback(object, method, new Answer(answer), parameters);
        } catch (RuntimeException e) {
            answer.completeExceptionally(e);
        }
        return tidied;
    }

    /** Hands an answer on. */
    private record Answer(CompletableFuture<Object> to) implements CallbackHandler<Object> {
        @Override
        public void handle(@Nullable Object result) {
            to.complete(result == null ? DONE : result);
        }

        @Override
        public void handleError(DBusExecutionException e) {
            to.completeExceptionally(e);
        }
    }

    /** Waits a little for devices to be left, and hangs up. */
    @Override
    public void close() {
        try {
            CompletableFuture.allOf(leaving.values().toArray(new CompletableFuture<?>[0]))
                    .get(1, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (ExecutionException | TimeoutException e) {
            // BlueZ has been told and goes on without us.
        }
        connection.disconnect();
    }
}
