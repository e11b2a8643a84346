package draftwitness.recording.parquet;

import draftwitness.recording.parquet.ParquetColumn.Kind;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import org.apache.parquet.column.ColumnReader;
import org.apache.parquet.format.ConvertedType;
import org.apache.parquet.format.SchemaElement;
import org.apache.parquet.format.Type;
import org.jspecify.annotations.Nullable;

/** Steps through the values of one column as decimals, however they are stored. One owner thread. */
final class Values {
    /** Decimals that a reading can have; finer ones are rounded. */
    private static final int MOST_DECIMALS = 9;

    private static final double[] POWERS = {1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9};

    private final String name;
    private final Type type;
    private final Kind kind;
    private final int scale;
    private final boolean unsigned;
    private @Nullable ColumnReader reader;
    private final int presentLevel;

    boolean present;
    long count;
    int decimals;

    Values(SchemaElement element, ParquetColumn column) {
        name = column.name();
        type = element.getType();
        kind = column.kind();
        scale = column.decimals();
        decimals = Math.min(scale, MOST_DECIMALS);
        ConvertedType old = element.getConverted_type();
        unsigned = old != null && old.name().startsWith("UINT_");
        presentLevel = column.optional() ? 1 : 0;
    }

    void begin(ColumnReader begun) {
        reader = begun;
    }

    void next() throws IOException {
        ColumnReader r = reader;
        if (r == null) {
            throw new IllegalStateException("no group of rows");
        }
        present = r.getCurrentDefinitionLevel() == presentLevel;
        if (present && kind != Kind.OTHER) {
            read(r);
        }
        r.consume();
    }

    private void read(ColumnReader r) throws IOException {
        switch (type) {
            case INT64 -> integer(r.getLong());
            case INT32 -> integer(unsigned ? Integer.toUnsignedLong(r.getInteger()) : r.getInteger());
            case BOOLEAN -> count = r.getBoolean() ? 1 : 0;
            case DOUBLE -> floating(r.getDouble(), null);
            case FLOAT -> floating(r.getFloat(), Float.toString(r.getFloat()));
            case BYTE_ARRAY, FIXED_LEN_BYTE_ARRAY ->
                exact(new BigDecimal(new BigInteger(r.getBinary().getBytes()), scale));
            case INT96 -> throw new IOException("column " + name + " has times of an outdated kind (INT96)");
        }
    }

    private void integer(long value) throws IOException {
        if (unsigned && value < 0) {
            throw new IOException("column " + name + " has a number of more than 63 bits");
        }
        if (scale > MOST_DECIMALS && kind == Kind.DECIMAL) {
            exact(BigDecimal.valueOf(value, scale));
        } else {
            count = value;
        }
    }

    private void exact(BigDecimal value) throws IOException {
        try {
            BigDecimal rounded =
                    value.setScale(Math.min(Math.max(value.scale(), 0), MOST_DECIMALS), RoundingMode.HALF_EVEN);
            decimals = rounded.scale();
            count = rounded.unscaledValue().longValueExact();
        } catch (ArithmeticException e) {
            throw new IOException("column " + name + " has a number of more than 63 bits", e);
        }
    }

    /** The shortest decimal that means the same number; NaN is no value. */
    private void floating(double value, @Nullable String single) throws IOException {
        if (Double.isNaN(value)) {
            present = false;
            return;
        }
        if (Double.isInfinite(value)) {
            throw new IOException("column " + name + " has an infinite number");
        }
        if (single != null) {
            exact(new BigDecimal(single).stripTrailingZeros());
            return;
        }
        for (int d = 0; d < POWERS.length; d++) {
            double scaled = Math.rint(value * POWERS[d]);
            if (Math.abs(scaled) < 1e15 && scaled / POWERS[d] == value) {
                count = (long) scaled;
                decimals = d;
                return;
            }
        }
        exact(new BigDecimal(Double.toString(value)));
    }
}
