package draftwitness.recording.parquet;

import io.airlift.compress.Decompressor;
import io.airlift.compress.MalformedInputException;
import io.airlift.compress.lz4.Lz4Decompressor;
import io.airlift.compress.snappy.SnappyDecompressor;
import io.airlift.compress.zstd.ZstdCompressor;
import io.airlift.compress.zstd.ZstdDecompressor;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.zip.GZIPInputStream;
import org.apache.parquet.format.CompressionCodec;

/** Packs pages with Zstandard (RFC 8878), and unpacks what other writers use. One owner thread. */
final class Compression {
    private final ZstdCompressor packer = new ZstdCompressor();

    byte[] pack(byte[] bytes) {
        byte[] packed = new byte[packer.maxCompressedLength(bytes.length)];
        int size = packer.compress(bytes, 0, bytes.length, packed, 0, packed.length);
        return Arrays.copyOf(packed, size);
    }

    static boolean knows(CompressionCodec codec) {
        return switch (codec) {
            case UNCOMPRESSED, SNAPPY, GZIP, ZSTD, LZ4_RAW -> true;
            case LZO, BROTLI, LZ4 -> false;
        };
    }

    /**
     * Unpacks bytes.
     *
     * @param size how many they are unpacked
     * @throws IOException if they are damaged or of another size
     */
    static byte[] unpack(CompressionCodec codec, byte[] bytes, int from, int length, int size) throws IOException {
        return switch (codec) {
            case UNCOMPRESSED -> Arrays.copyOfRange(bytes, from, from + length);
            case GZIP -> gunzip(bytes, from, length, size);
            case SNAPPY -> unpack(new SnappyDecompressor(), bytes, from, length, size);
            case ZSTD -> unpack(new ZstdDecompressor(), bytes, from, length, size);
            case LZ4_RAW -> unpack(new Lz4Decompressor(), bytes, from, length, size);
            case LZO, BROTLI, LZ4 -> throw new IOException("compressed with " + codec);
        };
    }

    private static byte[] unpack(Decompressor unpacker, byte[] bytes, int from, int length, int size)
            throws IOException {
        byte[] out = new byte[size];
        try {
            if (size > 0 && unpacker.decompress(bytes, from, length, out, 0, size) != size) {
                throw new IOException("a page is shorter than it says");
            }
        } catch (MalformedInputException e) {
            throw new IOException("a page cannot be unpacked", e);
        }
        return out;
    }

    private static byte[] gunzip(byte[] bytes, int from, int length, int size) throws IOException {
        try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(bytes, from, length))) {
            byte[] out = in.readNBytes(size);
            if (out.length != size) {
                throw new IOException("a page is shorter than it says");
            }
            return out;
        }
    }
}
