package draftwitness.recording.parquet;

import draftwitness.recording.parquet.ParquetColumn.Kind;
import java.util.ArrayList;
import java.util.List;
import org.apache.parquet.format.ConvertedType;
import org.apache.parquet.format.DecimalType;
import org.apache.parquet.format.FieldRepetitionType;
import org.apache.parquet.format.LogicalType;
import org.apache.parquet.format.MicroSeconds;
import org.apache.parquet.format.MilliSeconds;
import org.apache.parquet.format.NanoSeconds;
import org.apache.parquet.format.SchemaElement;
import org.apache.parquet.format.TimeUnit;
import org.apache.parquet.format.TimestampType;
import org.apache.parquet.format.Type;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.PrimitiveType;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;
import org.apache.parquet.schema.Type.Repetition;
import org.apache.parquet.schema.Types;

/** Columns as the format describes them, and back. Pure. */
final class Schemas {
    private static final String ROOT = "schema";

    private Schemas() {}

    /** What the library needs to write the columns: all are 64-bit integers. */
    static MessageType message(List<ParquetColumn> columns) {
        List<org.apache.parquet.schema.Type> fields = new ArrayList<>();
        for (ParquetColumn c : columns) {
            fields.add(
                    Types.primitive(PrimitiveTypeName.INT64, c.optional() ? Repetition.OPTIONAL : Repetition.REQUIRED)
                            .named(c.name()));
        }
        return new MessageType(ROOT, fields);
    }

    /** What the library needs to read columns as they are described. */
    static MessageType stored(List<SchemaElement> elements) {
        List<org.apache.parquet.schema.Type> fields = new ArrayList<>();
        for (SchemaElement e : elements) {
            PrimitiveTypeName type = switch (e.getType()) {
                case BYTE_ARRAY -> PrimitiveTypeName.BINARY;
                default -> PrimitiveTypeName.valueOf(e.getType().name());
            };
            Repetition repetition = Repetition.valueOf(e.getRepetition_type().name());
            fields.add(
                    type == PrimitiveTypeName.FIXED_LEN_BYTE_ARRAY
                            ? new PrimitiveType(repetition, type, e.getType_length(), e.getName())
                            : new PrimitiveType(repetition, type, e.getName()));
        }
        return new MessageType(ROOT, fields);
    }

    /** The description that goes into the file. */
    static List<SchemaElement> elements(List<ParquetColumn> columns) {
        List<SchemaElement> elements = new ArrayList<>();
        elements.add(new SchemaElement(ROOT).setNum_children(columns.size()));
        for (ParquetColumn c : columns) {
            SchemaElement element = new SchemaElement(c.name())
                    .setType(Type.INT64)
                    .setRepetition_type(c.optional() ? FieldRepetitionType.OPTIONAL : FieldRepetitionType.REQUIRED);
            elements.add(c.kind() == Kind.INSTANT ? instant(element, c.decimals()) : decimal(element, c.decimals()));
        }
        return elements;
    }

    private static SchemaElement decimal(SchemaElement element, int decimals) {
        return element.setConverted_type(ConvertedType.DECIMAL)
                .setScale(decimals)
                .setPrecision(ParquetColumn.MOST_DIGITS)
                .setLogicalType(LogicalType.DECIMAL(new DecimalType(decimals, ParquetColumn.MOST_DIGITS)));
    }

    private static SchemaElement instant(SchemaElement element, int decimals) {
        TimeUnit unit = switch (decimals) {
            case 3 -> TimeUnit.MILLIS(new MilliSeconds());
            case 6 -> TimeUnit.MICROS(new MicroSeconds());
            case 9 -> TimeUnit.NANOS(new NanoSeconds());
            default -> throw new IllegalArgumentException(decimals + " decimals of an instant");
        };
        if (decimals < 9) {
            element.setConverted_type(decimals == 3 ? ConvertedType.TIMESTAMP_MILLIS : ConvertedType.TIMESTAMP_MICROS);
        }
        return element.setLogicalType(LogicalType.TIMESTAMP(new TimestampType(true, unit)));
    }

    /** A column as somebody described it. */
    static ParquetColumn column(SchemaElement e) {
        boolean optional = e.getRepetition_type() == FieldRepetitionType.OPTIONAL;
        LogicalType logical = e.getLogicalType();
        if (logical != null && logical.isSetTIMESTAMP()) {
            TimestampType t = logical.getTIMESTAMP();
            int decimals = t.getUnit().isSetMILLIS() ? 3 : t.getUnit().isSetMICROS() ? 6 : 9;
            Kind kind = t.isIsAdjustedToUTC() ? Kind.INSTANT : Kind.LOCAL_TIME;
            return new ParquetColumn(e.getName(), kind, decimals, optional);
        }
        ConvertedType old = e.getConverted_type();
        if (old == ConvertedType.TIMESTAMP_MILLIS || old == ConvertedType.TIMESTAMP_MICROS) {
            return new ParquetColumn(
                    e.getName(), Kind.INSTANT, old == ConvertedType.TIMESTAMP_MILLIS ? 3 : 6, optional);
        }
        boolean decimal = old == ConvertedType.DECIMAL || (logical != null && logical.isSetDECIMAL());
        if (decimal) {
            int scale = logical != null && logical.isSetDECIMAL()
                    ? logical.getDECIMAL().getScale()
                    : e.getScale();
            boolean known = scale >= 0 && scale <= ParquetColumn.MOST_DIGITS;
            return new ParquetColumn(e.getName(), known ? Kind.DECIMAL : Kind.OTHER, known ? scale : 0, optional);
        }
        return new ParquetColumn(e.getName(), plainKind(e, logical, old), 0, optional);
    }

    private static Kind plainKind(
            SchemaElement e,
            @org.jspecify.annotations.Nullable LogicalType logical,
            @org.jspecify.annotations.Nullable ConvertedType old) {
        boolean number = (logical == null || logical.isSetINTEGER())
                && (old == null || old.name().startsWith("INT_") || old.name().startsWith("UINT_"));
        return switch (e.getType()) {
            case FLOAT, DOUBLE -> Kind.FLOATING;
            case BOOLEAN -> Kind.DECIMAL;
            case INT32, INT64 -> number ? Kind.DECIMAL : Kind.OTHER;
            case INT96, BYTE_ARRAY, FIXED_LEN_BYTE_ARRAY -> Kind.OTHER;
        };
    }
}
