"""Forty texts that break what is careless: each is a name that somebody could have typed or pasted."""

NAMES = [
    # what starts a formula, or looks as if it did
    "=1+1", "+49 30 1234", "-2+3", "@SUM(A1:A9)", "=HYPERLINK(\"x\",\"y\")", "\uff1d1+1", "'=1+1", "'quoted'",
    # separators and quotes of tables
    "a,b;c|d", "say \"when\"", "semi;colon, comma", "pipe | and \\| more", "back\\slash\\n", "tab\there",
    # markup
    "<script>alert(1)</script>", "</title><b>bold</b>", "\" onmouseover=\"x", "&amp; &lt; &#x41;", "<!-- -->", "]]>",
    "**bold** _it_ `code`", "[link](x)", "# head", "1. list",
    # headers, calendars, terminals
    "x\r\nBcc: a@b.example", "x\nEND:VEVENT\nBEGIN:VEVENT", "\x1b[31mred\x1b[0m", "bell\x07 back\x08 null-ish\x01",
    "c1 \x9b31m csi", "=?UTF-8?B?QQ==?=",
    # letters
    "Mähdrescher groß", "Трактор Ёлка", "拖拉机 二号", "جرار رقم ٣", "e\u0301 combining", "👩\u200d🌾 tractor", "\u202eRTL override",
    "zero\u200bwidth", "  blanks  within  ", "N/A null 0x10 1e3",
]
assert len(NAMES) == len(set(NAMES)) == 40


def shown(text):
    """As text is shown: a tab and the end of a line are a blank, what controls a terminal, turns the direction or cannot be
    seen is made harmless, with or without a mark in its place, so only the rest is compared."""
    blanks = "".join(" " if letter in "\t\n" else letter for letter in text)
    return "".join(letter for letter in blanks if not is_harmful(letter) and letter not in "\u200b\ufffd")


def is_harmful(letter):
    code = ord(letter)
    return code < 32 or 127 <= code < 160 or 0x202A <= code <= 0x202E or 0x2066 <= code <= 0x2069
