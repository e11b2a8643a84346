package draftwitness.recording;

/** Which program wrote a file. */
final class Software {
    private Software() {}

    /** Name and version, for example {@code Draftwitness 1.2.0}; without a version when run from loose classes. */
    static String version() {
        String version = Software.class.getPackage().getImplementationVersion();
        return version == null ? "Draftwitness" : "Draftwitness " + version;
    }
}
