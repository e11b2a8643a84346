package draftwitness.link.ble;

/** Why Bluetooth did not do what was asked: one line, without the device's name, that says what to do. */
final class BleException extends Exception {
    private static final long serialVersionUID = 1L;

    BleException(String message) {
        super(message);
    }

    BleException(String message, Throwable cause) {
        super(message, cause);
    }

    String reason() {
        return String.valueOf(getMessage());
    }
}
