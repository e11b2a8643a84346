package draftwitness.driver;

import draftwitness.input.InputException;
import java.util.List;
import java.util.Map;

/** One driver on offer: a description or a plug-in. Immutable. */
interface Offer {
    String name();

    /** Where it was found. */
    String origin();

    /**
     * The driver with these parameter values.
     *
     * @param spec what the person wrote, for messages
     */
    Driver driver(String spec, Map<String, String> overrides) throws InputException;

    /** What a list shows of it; what cannot be used is listed with the reason. */
    DriverCatalog.Entry entry(String shadows);

    /** Its name, alone and with each set of parameters that is worth trying on unknown bytes. */
    List<String> variants();
}
