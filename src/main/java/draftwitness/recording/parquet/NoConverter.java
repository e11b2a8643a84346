package draftwitness.recording.parquet;

import org.apache.parquet.io.api.Converter;
import org.apache.parquet.io.api.GroupConverter;
import org.apache.parquet.io.api.PrimitiveConverter;

/** The library wants somewhere to put whole rows; we take the values column by column instead. */
final class NoConverter extends GroupConverter {
    private static final class NoValue extends PrimitiveConverter {}

    private final NoValue value = new NoValue();

    @Override
    public Converter getConverter(int field) {
        return value;
    }

    @Override
    public void start() {}

    @Override
    public void end() {}
}
