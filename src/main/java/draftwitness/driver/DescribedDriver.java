package draftwitness.driver;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;

/** A driver made from a TOML description. */
final class DescribedDriver implements Driver {
    private final String name;
    private final String title;
    private final String description;
    private final List<ReadingSpec> readings;
    private final Supplier<Decoder> decoders;
    private final Supplier<Decoder> listeners;
    private final Optional<GattNeeds> gatt;
    private final Set<String> controlLines;
    private final Optional<SampleRate> sampleRate;

    DescribedDriver(
            String name,
            String title,
            String description,
            Plan plan,
            List<ContactDecoder.Contact> contacts,
            Optional<SampleRate> sampleRate) {
        this.name = name;
        this.title = title;
        this.description = description;
        this.readings = Stream.concat(plan.readings().stream(), ContactDecoder.specs(contacts).stream())
                .toList();
        this.decoders = contacts.isEmpty()
                ? plan.decoders()
                : () -> new ContactDecoder(plan.decoders().get(), contacts);
        this.listeners = plan.listeners();
        this.gatt = Optional.ofNullable(plan.gatt());
        this.controlLines = Set.copyOf(ContactDecoder.lines(contacts));
        this.sampleRate = sampleRate;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public String title() {
        return title;
    }

    @Override
    public List<ReadingSpec> readings() {
        return readings;
    }

    @Override
    public Decoder newDecoder() {
        return decoders.get();
    }

    @Override
    public Decoder newListener() {
        Decoder listener = listeners.get();
        listener.restartInStep(0);
        return listener;
    }

    @Override
    public String description() {
        return description;
    }

    @Override
    public Optional<GattNeeds> gatt() {
        return gatt;
    }

    @Override
    public Set<String> controlLines() {
        return controlLines;
    }

    @Override
    public Optional<SampleRate> sampleRate() {
        return sampleRate;
    }
}
