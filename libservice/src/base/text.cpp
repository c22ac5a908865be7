// Names that are near, plural forms, and text made safe to show.
#include <algorithm>
#include <numeric>

#include "service/base.h"

namespace service {
namespace {

// Edits between two words: insert, delete, replace, or swap two neighbours (optimal string alignment).
std::size_t edits(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(last.begin(), last.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], before_last[j - 2] + 1);
      }
    }
    std::swap(before_last, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

std::string folded(std::string_view word) {
  std::string text;
  for (const char c : word) {
    if (c == '-' || c == '_' || c == ' ') continue;
    text += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return text;
}

// `oil` of `engine-oil`: a whole part of a name, which people know better than its spelling.
bool is_part_of(std::string_view word, std::string_view name) {
  constexpr std::string_view marks = "-_@/ ";
  const std::size_t at = word.size() < 3 ? std::string_view::npos : name.find(word);
  if (at == std::string_view::npos || word.size() == name.size()) return false;
  const bool begins = at == 0 || marks.find(name[at - 1]) != std::string_view::npos;
  const std::size_t end = at + word.size();
  return begins && (end == name.size() || marks.find(name[end]) != std::string_view::npos);
}

}  // namespace

std::vector<std::string> nearest(std::string_view written, std::span<const std::string> names) {
  constexpr std::size_t longest = 64;  // longer words are not typing slips of a name, and the table is quadratic
  if (written.empty() || written.size() > longest) return {};
  const std::string word = folded(written);
  std::vector<std::pair<std::size_t, std::size_t>> found;  // distance, index
  for (std::size_t i = 0; i < names.size(); ++i) {
    const std::string name = folded(names[i]);
    if (is_part_of(written, names[i])) {
      found.emplace_back(1, i);
      continue;
    }
    const std::size_t shorter = std::min(word.size(), name.size());
    const std::size_t allowed = shorter <= 2 ? 1 : shorter <= 5 ? 2 : 3;
    if (std::max(word.size(), name.size()) - shorter > allowed) continue;
    const std::size_t distance = edits(word, name);
    if (distance <= allowed && distance < std::max<std::size_t>(1, std::max(word.size(), name.size()))) {
      found.emplace_back(distance, i);
    }
  }
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> best;
  for (const auto& [distance, index] : found) {
    // Something much farther than the best one is noise beside it.
    if (best.size() == 3 || distance > found.front().first + 1) break;
    best.push_back(names[index]);
  }
  return best;
}

std::string did_you_mean(std::string_view written, std::span<const std::string> names) {
  const auto best = nearest(written, names);
  if (best.empty()) return {};
  std::string text = "did you mean ";
  for (std::size_t i = 0; i < best.size(); ++i) {
    if (i > 0) text += i + 1 == best.size() ? " or " : ", ";
    text += '`' + best[i] + '`';
  }
  return text + '?';
}

std::string counted(std::int64_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + ' ' + std::string(count == 1 ? one : many);
}

std::optional<std::size_t> first_bad_utf8(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  std::size_t i = 0;
  while (i < text.size()) {
    const unsigned char lead = byte(i);
    if (lead < 0x80) {
      ++i;
      continue;
    }
    const std::size_t length = lead >= 0xC2 && lead <= 0xDF   ? 2
                               : (lead & 0xF0U) == 0xE0       ? 3
                               : lead >= 0xF0 && lead <= 0xF4 ? 4
                                                              : 0;
    if (length == 0 || i + length > text.size()) return i;
    for (std::size_t k = 1; k < length; ++k) {
      if ((byte(i + k) & 0xC0U) != 0x80) return i;
    }
    const unsigned char second = byte(i + 1);
    const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
    const bool surrogate = lead == 0xED && second >= 0xA0;
    const bool too_high = lead == 0xF4 && second >= 0x90;
    if (overlong || surrogate || too_high) return i;
    i += length;
  }
  return std::nullopt;
}

std::string cleaned(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  const std::string_view replacement = "\xEF\xBF\xBD";
  const auto bad = first_bad_utf8(text);
  std::size_t i = 0;
  while (i < text.size()) {
    const auto c = static_cast<unsigned char>(text[i]);
    if (bad && i >= *bad && c >= 0x80) {  // not text from here on: no byte above ASCII is trusted
      out += replacement;
      ++i;
    } else if (c < 0x20 || c == 0x7F) {
      out += c == '\t' || c == '\n' ? std::string_view{" "} : replacement;
      ++i;
    } else if (c == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0) {
      out += replacement;  // C1 controls
      i += 2;
    } else if (c == 0xE2 && i + 2 < text.size()) {
      const auto b1 = static_cast<unsigned char>(text[i + 1]);
      const auto b2 = static_cast<unsigned char>(text[i + 2]);
      // U+200E, 200F, 202A..202E, 2066..2069 turn the direction of text; U+2028 and 2029 end a line; U+200B and 2060
      // cannot be seen.
      const bool turns = (b1 == 0x80 && (b2 == 0x8B || b2 == 0x8E || b2 == 0x8F || (b2 >= 0xA8 && b2 <= 0xAE))) ||
                         (b1 == 0x81 && (b2 == 0xA0 || (b2 >= 0xA6 && b2 <= 0xA9)));
      out += turns ? replacement : text.substr(i, 3);
      i += 3;
    } else if (text.substr(i).starts_with("\xEF\xBB\xBF")) {
      out += replacement;  // a byte order mark inside of a text, which cannot be seen
      i += 3;
    } else {
      out += text[i++];
    }
  }
  return out;
}

}  // namespace service
