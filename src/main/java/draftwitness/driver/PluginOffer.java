package draftwitness.driver;

import draftwitness.input.InputException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.ServiceConfigurationError;
import java.util.ServiceLoader;

/**
 * A plug-in on offer. Immutable.
 *
 * @param plugin the plug-in, or one that always fails if it could not be loaded
 */
record PluginOffer(DriverPlugin plugin) implements Offer {

    /** All plug-ins on the class path; one that cannot be loaded is offered with the reason and hides no other. */
    static List<Offer> load() {
        List<Offer> out = new ArrayList<>();
        Iterator<DriverPlugin> plugins = ServiceLoader.load(DriverPlugin.class, DriverPlugin.class.getClassLoader())
                .iterator();
        while (true) {
            try {
                if (!plugins.hasNext()) {
                    return out;
                }
                out.add(new PluginOffer(plugins.next()));
            } catch (ServiceConfigurationError e) {
                out.add(new PluginOffer(new Broken("plug-in-" + (out.size() + 1), String.valueOf(e.getMessage()))));
            }
        }
    }

    @Override
    public String name() {
        return plugin.name();
    }

    @Override
    public String origin() {
        return "plug-in " + plugin.getClass().getName();
    }

    @Override
    public Driver driver(String spec, Map<String, String> overrides) throws InputException {
        Map<String, String> values = new LinkedHashMap<>(plugin.parameters());
        for (Map.Entry<String, String> one : overrides.entrySet()) {
            if (values.replace(one.getKey(), one.getValue()) == null) {
                throw Parameters.unknown(spec, one.getKey(), values.keySet());
            }
        }
        return plugin.driver(values);
    }

    @Override
    public DriverCatalog.Entry entry(String shadows) {
        String problem = plugin instanceof Broken broken ? broken.reason() : "";
        return new DriverCatalog.Entry(
                name(), "plug-in", plugin.title(), origin(), shadows, plugin.parameters(), problem);
    }

    @Override
    public List<String> variants() {
        return List.of(name());
    }

    /** Stands for a plug-in that could not be loaded. */
    private record Broken(String name, String reason) implements DriverPlugin {
        @Override
        public String title() {
            return "cannot be used";
        }

        @Override
        public Map<String, String> parameters() {
            return Map.of();
        }

        @Override
        public Driver driver(Map<String, String> values) throws InputException {
            throw new InputException("driver " + name + " cannot be loaded: " + reason);
        }
    }
}
