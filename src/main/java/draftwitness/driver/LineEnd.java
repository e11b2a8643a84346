package draftwitness.driver;

/** What ends a line of text. */
enum LineEnd {
    /** CR, LF or both. */
    ANY,
    CR,
    LF,
    /** CR then LF; one alone is damage. */
    CRLF
}
