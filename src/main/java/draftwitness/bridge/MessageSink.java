package draftwitness.bridge;

/** Takes messages for somebody elsewhere. Called on the session's thread: must return at once. */
interface MessageSink {

    /** Queues a message. */
    void send(Message message);
}
