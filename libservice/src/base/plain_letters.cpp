// Latin letters with marks, written without.
#include <algorithm>
#include <string>

#include "base/encodings.h"
#include "service/text.h"

namespace service {
namespace {

struct Alike {
  std::string_view plain;
  std::u32string_view letters;
};

// The letters of Latin-1 and of Latin Extended-A, and the Romanian ones beyond.
constexpr Alike table[] = {
    {"a", U"\u00c0\u00c1\u00c2\u00c3\u00e0\u00e1\u00e2\u00e3\u0100\u0101\u0102\u0103\u0104\u0105"},
    {"aa", U"\u00c5\u00e5"},
    {"ae", U"\u00c4\u00c6\u00e4\u00e6"},
    {"c", U"\u00c7\u00e7\u0106\u0107\u0108\u0109\u010a\u010b\u010c\u010d"},
    {"d", U"\u00d0\u00f0\u010e\u010f\u0110\u0111"},
    {"e",
     U"\u00c8\u00c9\u00ca\u00cb\u00e8\u00e9\u00ea\u00eb\u0112\u0113\u0114\u0115\u0116\u0117\u0118\u0119\u011a\u011b"},
    {"g", U"\u011c\u011d\u011e\u011f\u0120\u0121\u0122\u0123"},
    {"h", U"\u0124\u0125\u0126\u0127"},
    {"i",
     U"\u00cc\u00cd\u00ce\u00cf\u00ec\u00ed\u00ee\u00ef\u0128\u0129\u012a\u012b\u012c\u012d\u012e\u012f\u0130\u0131"},
    {"ij", U"\u0132\u0133"},
    {"j", U"\u0134\u0135"},
    {"k", U"\u0136\u0137\u0138"},
    {"l", U"\u0139\u013a\u013b\u013c\u013d\u013e\u013f\u0140\u0141\u0142"},
    {"n", U"\u00d1\u00f1\u0143\u0144\u0145\u0146\u0147\u0148\u0149"},
    {"ng", U"\u014a\u014b"},
    {"o", U"\u00d2\u00d3\u00d4\u00d5\u00f2\u00f3\u00f4\u00f5\u014c\u014d\u014e\u014f\u0150\u0151"},
    {"oe", U"\u00d6\u00d8\u00f6\u00f8\u0152\u0153"},
    {"r", U"\u0154\u0155\u0156\u0157\u0158\u0159"},
    {"s", U"\u015a\u015b\u015c\u015d\u015e\u015f\u0160\u0161\u017f\u0218\u0219"},
    {"ss", U"\u00df\u1e9e"},
    {"t", U"\u0162\u0163\u0164\u0165\u0166\u0167\u021a\u021b"},
    {"th", U"\u00de\u00fe"},
    {"u",
     U"\u00d9\u00da\u00db\u00f9\u00fa\u00fb\u0168\u0169\u016a\u016b\u016c\u016d\u016e\u016f\u0170\u0171\u0172\u0173"},
    {"ue", U"\u00dc\u00fc"},
    {"w", U"\u0174\u0175"},
    {"y", U"\u00dd\u00fd\u00ff\u0176\u0177\u0178"},
    {"z", U"\u0179\u017a\u017b\u017c\u017d\u017e"},
};

std::string_view plain(char32_t letter) {
  const auto* const found = std::find_if(std::begin(table), std::end(table), [&](const Alike& alike) {
    return alike.letters.find(letter) != std::u32string_view::npos;
  });
  return found == std::end(table) ? std::string_view{} : found->plain;
}

// Marks that stand behind their letter, each for itself.
constexpr char32_t two_dots = 0x308;
bool is_mark(char32_t letter) { return letter >= 0x300 && letter < 0x370; }

}  // namespace

std::string in_plain_letters(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const auto letter = first_letter(text);
    const std::size_t bytes = letter ? letter->bytes : 1;
    const char first = text.front();
    if (!letter || letter->code < 0x80) {
      out += first >= 'A' && first <= 'Z' ? static_cast<char>(first - 'A' + 'a') : first;
    } else if (const std::string_view known = plain(letter->code); !known.empty()) {
      out += known;
    } else if (letter->code == two_dots && !out.empty() &&
               std::string_view("aou").find(out.back()) != std::string::npos) {
      out += 'e';
    } else if (!is_mark(letter->code)) {
      out += text.substr(0, bytes);
    }
    text.remove_prefix(bytes);
  }
  return out;
}

}  // namespace service
