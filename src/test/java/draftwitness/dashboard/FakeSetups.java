package draftwitness.dashboard;

import draftwitness.input.InputException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Setups kept in memory. */
public final class FakeSetups implements SetupEditor.Store {
    public final Map<String, String> kept = new LinkedHashMap<>();
    public boolean full;

    @Override
    public List<String> names() {
        return List.copyOf(kept.keySet());
    }

    @Override
    public String read(String name) throws InputException {
        String toml = kept.get(name);
        if (toml == null) {
            throw new InputException("There is no setup '" + name + "'.");
        }
        return toml;
    }

    @Override
    public void save(String name, String toml) throws InputException {
        if (full) {
            throw new InputException("The disk is full. Free some space and save again.");
        }
        kept.put(name, toml);
    }
}
