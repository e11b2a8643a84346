package draftwitness.recording;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4) fed like a checksum. One owner thread. */
final class Fingerprint implements java.util.zip.Checksum {
    private MessageDigest digest = sha256();

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    @Override
    public void update(int b) {
        digest.update((byte) b);
    }

    @Override
    public void update(byte[] bytes, int offset, int length) {
        digest.update(bytes, offset, length);
    }

    /** Not to be had as a number; see {@link #hex()}. */
    @Override
    public long getValue() {
        throw new UnsupportedOperationException("256 bits do not fit into a number");
    }

    @Override
    public void reset() {
        digest = sha256();
    }

    /** 64 hexadecimal digits; the digest begins anew. */
    String hex() {
        return HexFormat.of().formatHex(digest.digest());
    }
}
