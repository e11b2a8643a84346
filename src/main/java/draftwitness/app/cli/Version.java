package draftwitness.app.cli;

import picocli.CommandLine.IVersionProvider;

/** The program's version, from the jar. */
final class Version implements IVersionProvider {

    @Override
    public String[] getVersion() {
        String version = Version.class.getPackage().getImplementationVersion();
        return new String[] {"draftwitness " + (version == null ? "(not packaged)" : version)};
    }
}
