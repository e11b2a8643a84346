package draftwitness.link.ble;

/** Where Bluetooth links can work. */
final class Platform {
    private Platform() {}

    static void check() throws BleException {
        check(System.getProperty("os.name", ""));
    }

    static void check(String system) throws BleException {
        if (!system.startsWith("Linux")) {
            throw new BleException("Bluetooth links need Linux with BlueZ; on " + system
                    + " connect the instrument by cable, or from a Linux computer");
        }
    }
}
