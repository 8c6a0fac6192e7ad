// Bytes to text, and text for people.
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"

#include <gtest/gtest.h>

#include <string>

namespace samelight::io::test {
namespace {

using namespace std::string_literals;

/// Demands this text, and the one sentence that says how it was written (or none).
void expect_text(const std::string& bytes, const std::string& text, const std::string& understood) {
    const DecodedText decoded = decode_text(bytes, "file");
    EXPECT_EQ(decoded.text, text);
    if (understood.empty()) {
        EXPECT_TRUE(decoded.understood.empty()) << decoded.understood.front();
    } else {
        ASSERT_EQ(decoded.understood.size(), 1U);
        EXPECT_EQ(decoded.understood.front(), understood);
    }
}

void expect_error(const std::string& bytes, const std::string& message) {
    try {
        (void)decode_text(bytes, "file");
        ADD_FAILURE() << "accepted";
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::input);
        EXPECT_EQ(std::string(error.what()).rfind(message, 0), 0U) << error.what();
    }
}

TEST(TextDecoding, Utf8PassesUnchanged) {
    expect_text("", "", "");
    expect_text("plain\r\n\ttext\f", "plain\r\n\ttext\f", "");
    // The first and the last character of each length (RFC 3629, section 3), and those around the surrogates.
    const std::string edges = "\x7e\u00a0\u07ff\u0800\ud7ff\ue000\uffff\U00010000\U0010ffff";
    expect_text(edges, edges, "");
    expect_text("\xef\xbb\xbfλ", "λ", "UTF-8 with a byte order mark.");
    expect_text("\xef\xbb\xbf", "", "UTF-8 with a byte order mark.");
    expect_text("end\x1a", "end", "");
}

TEST(TextDecoding, Utf16ByMarkOrByEvidence) {
    expect_text("\xff\xfe\x61\x00\xb5\x00\xbb\x03"s, "aµλ",
                "UTF-16, little-endian, with a byte order mark.");
    expect_text("\xfe\xff\x00\x61\x00\xb5\x03\xbb"s, "aµλ",
                "UTF-16, big-endian, with a byte order mark.");
    // U+1F4A1 is d83d dca1 (RFC 2781, section 2.1).
    expect_text("\xff\xfe\x3d\xd8\xa1\xdc"s, "\U0001f4a1",
                "UTF-16, little-endian, with a byte order mark.");
    expect_text("n\0m\0,\0r\0e\0d\0"s, "nm,red",
                "UTF-16, little-endian, without a byte order mark.");
    expect_text("\0n\0m\0,\0r\0e\0d"s, "nm,red", "UTF-16, big-endian, without a byte order mark.");
    expect_text("\xff\xfe\x61\x00\x1a\x00"s, "a", "UTF-16, little-endian, with a byte order mark.");
}

TEST(TextDecoding, Latin1WithItsExtension) {
    const std::string latin = "Letters beyond ASCII read as Latin-1 (Windows-1252).";
    expect_text("\xb5W/m\xb2", "µW/m²", latin);
    expect_text("Wellenl\xe4nge", "Wellenlänge", latin);
    expect_text("\x80\x9f\xa0\xff", "€Ÿ\u00a0ÿ", latin);
    for (const char undefined : {'\x81', '\x8d', '\x8f', '\x90', '\x9d'}) {
        expect_error("ab\xb5" + std::string(1, undefined), "file:1:4: the byte 0x");
    }
}

TEST(TextDecoding, RefusesWhatIsNoText) {
    expect_error("a\nb\r\nc\rde\x01",
                 "file:4:3: the control character 0x01, so this is no text; wanted text in");
    expect_error("ab\0"s, "file:1:3: the control character 0x00");
    expect_error("λ\x7f", "file:1:2: the control character 0x7f");
    expect_error("a\u0085", "file:1:2: the control character 0x85");
    expect_error(
        "\x1a"
        "a",
        "file:1:1: the control character 0x1a");
    expect_error("\xff\xfe\x61\x00\x07\x00"s, "file:1:2: the control character 0x07");
    expect_error("\xff\xfe\0\0a\0\0\0"s, "file:1:1: text in UTF-32");
    expect_error("\0\0\xfe\xff\0\0\0a"s, "file:1:1: text in UTF-32");
    expect_error("\xff\xfe\x61\x00\x00\xdc\x61\x00"s,
                 "file:1:2: half a character (0xdc00) in UTF-16");
    expect_error("\xff\xfe\x61\x00\x00\xd8"s, "file:1:2: half a character (0xd800) in UTF-16");
    expect_error("\xff\xfe\x61"s, "file:1:1: half a character at the end of UTF-16");
}

TEST(TextDecoding, RefusesTwoEncodingsInOne) {
    const std::string mixed = ", which is no UTF-8 though the rest of the file is";
    expect_error("\xef\xbb\xbf\xb5", "file:1:1: the byte 0xb5" + mixed);
    expect_error("µ\n\xb5", "file:2:1: the byte 0xb5" + mixed);
    // Overlong, a surrogate, beyond the last character, broken off: none of them is UTF-8 (RFC 3629, section 4).
    for (const std::string wrong : {"\xc0\x80", "\xe0\x9f\xbf", "\xf0\x8f\xbf\xbf", "\xed\xa0\x80",
                                    "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xe2\x82"}) {
        expect_error("µ" + wrong, "file:1:2: the byte 0x");
    }
}

// ECMA-48, 5th edition, 5.2 and 5.3; Unicode 15, 23.2; RFC 3629, section 4; RFC 8259, section 7.
TEST(Harmless, EscapesWhatSteersOrHides) {
    EXPECT_EQ(harmless("\x1b[31m a\x07 \x7f"), "\\u001b[31m a\\u0007 \\u007f");
    EXPECT_EQ(harmless("two\nlines\t\r"), "two\\u000alines\\u0009\\u000d");
    EXPECT_EQ(harmless("two\nlines", LineFeeds::kept), "two\nlines");
    EXPECT_EQ(harmless("\u009b \u2028 \u202e \u200f \ufeff"),
              "\\u009b \\u2028 \\u202e \\u200f \\ufeff");
    EXPECT_EQ(harmless("\xf3\xa0\x81\x81"), "\\udb40\\udc41");  // U+E0041, a tag
    EXPECT_EQ(harmless("\xff \xc3 \xed\xa0\x80"), "\\xff \\xc3 \\xed\\xa0\\x80");
    EXPECT_EQ(harmless("\0"s), "\\u0000");
}

TEST(Harmless, LeavesWordsAlone) {
    for (const std::string& text : {""s, "Grün \u03bb 380 nm"s, "\u0646\u200c\u0628"s,
                                    "\xf0\x9f\x94\xa6"s, "back\\slash \"quoted\""s}) {
        EXPECT_EQ(harmless(text), text);
        EXPECT_EQ(harmless(harmless(text)), harmless(text));
    }
    EXPECT_EQ(harmless(harmless("\x1b\xff")), harmless("\x1b\xff"));
}

TEST(Harmless, BeginsBetweenCharacters) {
    EXPECT_EQ(beginning_of("äöü", 3), "äöü");
    EXPECT_EQ(beginning_of("äöü", 2), "äö...");
    EXPECT_EQ(beginning_of("\xff\xff\xff", 1), "\xff...");
    EXPECT_EQ(beginning_of("", 0), "");
}

}  // namespace
}  // namespace samelight::io::test
