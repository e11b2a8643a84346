package draftwitness.app.cli;

import java.lang.reflect.Constructor;
import picocli.CommandLine;

/** Makes command objects, giving them the console if their constructor takes it. */
final class CommandFactory implements CommandLine.IFactory {
    private final Console console;

    CommandFactory(Console console) {
        this.console = console;
    }

    @Override
    public <K> K create(Class<K> type) throws Exception {
        for (Constructor<?> constructor : type.getDeclaredConstructors()) {
            if (constructor.getParameterCount() == 1 && constructor.getParameterTypes()[0] == Console.class) {
                constructor.setAccessible(true);
                return type.cast(constructor.newInstance(console));
            }
        }
        return CommandLine.defaultFactory().create(type);
    }
}
