// Names that are near, plural forms, and text made safe to show.
#include <algorithm>
#include <numeric>
#include <utility>

#include "base/encodings.h"
#include "service/base.h"

namespace service {
namespace {

bool is_lower_or_digit(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); }

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

bool is_ascii(char c) { return static_cast<unsigned char>(c) < 0x80; }

// Not what steers a terminal (C0, DEL, C1), turns the direction of text or ends a line, nor what cannot be seen.
bool can_be_shown(char32_t code) {
  const auto within = [code](char32_t first, char32_t last) { return code >= first && code <= last; };
  const bool control = code < 0x20 || within(0x7F, 0x9F);
  const bool turns_or_ends = within(0x200E, 0x200F) || within(0x2028, 0x202E) || within(0x2066, 0x2069);
  const bool unseen = code == 0x200B || code == 0x2060 || code == 0xFEFF;
  return !control && !turns_or_ends && !unseen;
}

// Of the letters of Latin, Greek and Cyrillic that have case; others stay. What it gives is below U+0800.
char32_t lower_case(char32_t code) {
  const auto within = [code](char32_t first, char32_t last) { return code >= first && code <= last; };
  if (within('A', 'Z')) return code + 0x20;
  if (within(0xC0, 0xDE) && code != 0xD7) return code + 0x20;
  if (code == 0x178) return 0xFF;
  const bool even_is_upper = (within(0x100, 0x137) && code != 0x130) || within(0x14A, 0x177);
  const bool odd_is_upper = within(0x139, 0x148) || within(0x179, 0x17E);
  if (even_is_upper || odd_is_upper) return code + ((code % 2 == 0) == even_is_upper ? 1 : 0);
  if (within(0x391, 0x3A9)) return code + 0x20;
  if (code == 0x386) return 0x3AC;
  if (within(0x388, 0x38A)) return code + 0x25;
  if (code == 0x38C) return 0x3CC;
  if (within(0x38E, 0x38F)) return code + 0x3F;
  if (code == 0x3C2) return 0x3C3;  // sigma at the end of a word
  if (within(0x410, 0x42F)) return code + 0x20;
  if (within(0x400, 0x40F)) return code + 0x50;
  return code;
}

// Of one below U+0800.
void add_letter(std::string& text, char32_t code) {
  if (code < 0x80) {
    text += static_cast<char>(code);
    return;
  }
  text += static_cast<char>(0xC0U | (code >> 6U));
  text += static_cast<char>(0x80U | (code & 0x3FU));
}

// Of what stands between blanks, hyphens and the like; folded.
std::vector<std::string> words_in(std::string_view name) {
  constexpr std::string_view between = " -_/@.,";
  std::vector<std::string> words;
  while (!name.empty()) {
    const std::size_t end = std::min(name.find_first_of(between), name.size());
    if (end > 0) words.push_back(folded(name.substr(0, end)));
    name.remove_prefix(std::min(end + 1, name.size()));
  }
  return words;
}

// Those that have a word in common with it, of three letters or more.
std::vector<std::string> with_same_word(std::string_view written, std::span<const std::string> names) {
  constexpr std::size_t shortest = 3;
  const std::vector<std::string> words = words_in(written);
  std::vector<std::string> same;
  for (const std::string& name : names) {
    const std::vector<std::string> of_name = words_in(name);
    const bool shares = std::any_of(of_name.begin(), of_name.end(), [&](const std::string& word) {
      return word.size() >= shortest && std::find(words.begin(), words.end(), word) != words.end();
    });
    if (shares) same.push_back(name);
  }
  return same;
}

std::string listed(std::span<const std::string> names) {
  std::string all;
  for (const std::string& name : names) all += (all.empty() ? "" : ", ") + name;
  return all;
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
    if (std::find(best.begin(), best.end(), names[index]) == best.end()) best.push_back(names[index]);
  }
  return best;
}

std::string did_you_mean(std::span<const std::string> near) {
  if (near.empty()) return {};
  std::string text = "did you mean ";
  for (std::size_t i = 0; i < near.size(); ++i) {
    if (i > 0) text += i + 1 == near.size() ? " or " : ", ";
    text += '`' + near[i] + '`';
  }
  return text + '?';
}

std::string did_you_mean(std::string_view written, std::span<const std::string> names) {
  return did_you_mean(nearest(written, names));
}

std::string nearest_or(std::string_view written, std::span<const std::string> names, std::string otherwise) {
  std::string near = did_you_mean(written, names);
  return near.empty() ? std::move(otherwise) : near;
}

std::string names_instead(std::string_view written, std::span<const std::string> names, std::string_view none) {
  constexpr std::size_t few = 20;
  if (names.empty()) return std::string(none);
  const std::vector<std::string> same = with_same_word(written, names);
  if (!same.empty() && same.size() <= few && same.size() < names.size()) {
    return nearest_or(written, names,
                      "the nearest are: " + listed(same) + "; there are " + std::to_string(names.size()) + " in all");
  }
  std::string all = "there are: " + listed(names);
  if (names.size() > few) all = "there are " + std::to_string(names.size()) + "; the fleet files list them";
  return nearest_or(written, names, std::move(all));
}

std::string folded_name(std::string_view name) {
  constexpr std::string_view blanks = " \t\u00a0";
  std::string folded;
  bool gap = false;
  while (!name.empty()) {
    const auto letter = first_letter(name);
    const std::string_view bytes = name.substr(0, letter ? letter->bytes : 1);
    name.remove_prefix(bytes.size());
    if (blanks.find(bytes) != std::string_view::npos) {
      gap = true;
      continue;
    }
    if (gap && !folded.empty()) folded += ' ';
    gap = false;
    if (const char32_t lower = letter ? lower_case(letter->code) : 0; letter && lower != letter->code) {
      add_letter(folded, lower);
    } else {
      folded += bytes;
    }
  }
  return folded;
}

std::vector<std::string> folded_words(std::string_view name) {
  std::string with_blanks(name);
  std::replace(with_blanks.begin(), with_blanks.end(), '-', ' ');
  const std::string folded = folded_name(with_blanks);
  std::vector<std::string> words;
  for (std::string_view rest = folded; !rest.empty();) {
    words.emplace_back(rest.substr(0, rest.find(' ')));
    rest.remove_prefix(std::min(rest.size(), words.back().size() + 1));
  }
  return words;
}

std::optional<std::string> name_written(std::string_view written, std::span<const std::string> names) {
  if (std::find(names.begin(), names.end(), written) != names.end()) return std::string(written);
  const auto words = folded_words(written);
  std::optional<std::string> only;
  for (const std::string& name : names) {
    if (folded_words(name) != words) continue;
    if (only && *only != name) return std::nullopt;
    only = name;
  }
  return only;
}

std::string counted(std::int64_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + ' ' + std::string(count == 1 ? one : many);
}

std::string cleaned(std::string_view text) {
  constexpr std::string_view replacement = "\xEF\xBF\xBD";
  std::string out;
  out.reserve(text.size());
  bool trusted = true;  // behind the first byte that is no text, no byte above ASCII is
  while (!text.empty()) {
    const auto letter = trusted || is_ascii(text.front()) ? first_letter(text) : std::nullopt;
    trusted = trusted && letter;
    if (letter && (letter->code == '\t' || letter->code == '\n')) {
      out += ' ';
    } else {
      out += letter && can_be_shown(letter->code) ? text.substr(0, letter->bytes) : replacement;
    }
    text.remove_prefix(letter ? letter->bytes : 1);
  }
  return out;
}

bool is_name(std::string_view text) {
  return !text.empty() && text.front() != '-' &&
         std::all_of(text.begin(), text.end(), [](char c) { return is_lower_or_digit(c) || c == '-'; });
}

std::string as_name(std::string_view text) {
  std::string name;
  for (char c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (is_lower_or_digit(c)) {
      name += c;
    } else if (!name.empty() && name.back() != '-') {
      name += '-';
    }
  }
  while (name.ends_with('-')) name.pop_back();
  return name;
}

}  // namespace service
