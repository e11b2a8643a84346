package draftwitness.bridge;

/**
 * How a bridge is doing. Immutable.
 *
 * @param connected whether the other side is there
 * @param words for people: "connected", or what is wrong
 * @param confirmed messages that the other side has confirmed
 * @param waiting messages that wait to be sent or confirmed
 * @param dropped messages lost for want of room
 */
public record BridgeState(boolean connected, String words, long confirmed, int waiting, long dropped) {}
