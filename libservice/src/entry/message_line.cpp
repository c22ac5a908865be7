#include "entry/message_line.h"

#include <algorithm>

#include "base/encodings.h"
#include "service/base.h"
#include "service/text.h"
#include "service/typed.h"

namespace service::entry::message {
namespace {

constexpr std::array<std::string_view, 6> quotes{"\"", "\u201c", "\u201d", "\u201e", "\u00ab", "\u00bb"};

std::size_t quote_at(std::string_view text) {
  for (const std::string_view quote : quotes) {
    if (text.starts_with(quote)) return quote.size();
  }
  return 0;
}

// Small pictures that say no more than "so it is". What any other says, nobody knows.
bool is_nod(char32_t code) {
  constexpr std::array<char32_t, 13> nods{0x1F44D, 0x1F44C, 0x2705,  0x2714,  0x2713,  0x1F642, 0x1F60A,
                                          0x1F600, 0x1F69C, 0x1F527, 0x1F64F, 0x1F604, 0xFE0F};
  return std::find(nods.begin(), nods.end(), code) != nods.end() || (code >= 0x1F3FB && code <= 0x1F3FF);
}

bool is_cry(char32_t code) {
  constexpr std::array<char32_t, 11> cries{'!',    ' ',     0x203C,  0x2757,  0x2755, 0x26A0,
                                           0xFE0F, 0x1F6A8, 0x1F525, 0x1F4A6, 0x1F4A7};
  return std::find(cries.begin(), cries.end(), code) != cries.end();
}

// Pictures beside a sign only say how somebody feels about it. A cross, or a thumb that points down, may say that there
// is none.
bool is_picture(char32_t code) {
  constexpr std::array<char32_t, 10> noes{0x274C, 0x274E,  0x2715,  0x2716,  0x2717,
                                          0x2718, 0x1F6AB, 0x1F44E, 0x1F645, 0x1F5D9};
  if (std::find(noes.begin(), noes.end(), code) != noes.end()) return false;
  return is_cry(code) || is_nod(code) || code == '.' || code == 0x2026 || code == 0x200D ||
         (code >= 0x2600 && code <= 0x27BF) || (code >= 0x1F000 && code <= 0x1FAFF);
}

template <class Is>
std::string_view without_last(std::string_view text, const Is& is) {
  while (!text.empty()) {
    std::size_t last = text.size() - 1;
    while (last > 0 && (static_cast<unsigned char>(text[last]) & 0xC0U) == 0x80U) --last;
    const auto letter = first_letter(text.substr(last));
    if (!letter || !is(letter->code)) break;
    text = text.substr(0, last);
  }
  return text;
}

// A word of ours, with a colon behind it or without.
bool is_verb(const Word& word, std::string_view text) {
  return is_word(word, text) ||
         (word.text.ends_with(':') && is_word({word.text.substr(0, word.text.size() - 1), word.quoted}, text));
}

}  // namespace

void wrong(std::string code, std::string message, std::string hint) {
  throw Failure(FailureKind::usage, {std::move(code), std::move(message), std::move(hint)});
}

std::string joined(Words words) {
  std::string text;
  for (const Word& word : words) text += (text.empty() ? "" : " ") + word.text;
  return text;
}

std::vector<Word> words_of(std::string_view text) {
  std::vector<Word> words;
  while (!text.empty()) {
    if (text.front() == ' ') {
      text.remove_prefix(1);
      continue;
    }
    if (const std::size_t open = quote_at(text); open > 0) {
      std::size_t end = open;
      while (end < text.size() && quote_at(text.substr(end)) == 0) ++end;
      const std::size_t close = end < text.size() ? quote_at(text.substr(end)) : 0;
      if (close > 0 && (end + close == text.size() || text[end + close] == ' ')) {
        words.push_back({std::string(text.substr(open, end - open)), true});
        text.remove_prefix(end + close);
        continue;
      }
    }
    const std::size_t end = std::min(text.find(' '), text.size());
    words.push_back({std::string(text.substr(0, end)), false});
    text.remove_prefix(end);
  }
  return words;
}

bool is_number(std::string_view text) { return typed_amount(text) && text.find('-') == std::string_view::npos; }

std::string without_stop(const std::string& text) {
  if (text.size() < 2 || (text.back() != '.' && text.back() != '!')) return text;
  std::string rest = text.substr(0, text.size() - 1);
  const bool abbreviates =
      rest.find('.') != std::string::npos && !is_number(rest) && rest.find_first_of("0123456789") == std::string::npos;
  return abbreviates || rest.back() == '.' ? text : rest;
}

void drop_last_nods(std::vector<Word>& words) {
  while (!words.empty() && !words.back().quoted) {
    words.back().text = std::string(without_last(words.back().text, is_nod));
    if (!words.back().text.empty()) break;
    words.pop_back();
  }
}

std::string_view without_cries(std::string_view text) {
  return without_last(text, [](char32_t code) { return is_cry(code) || is_nod(code); });
}

std::string_view without_pictures(std::string_view text) {
  text = without_last(text, is_picture);
  while (!text.empty()) {
    const auto letter = first_letter(text);
    if (!letter || !is_picture(letter->code)) break;
    text.remove_prefix(letter->bytes);
  }
  return text;
}

std::string option_of(const Word& word) {
  if (word.quoted) return "";
  for (const std::string_view dashes : {"--", "\u2014", "\u2013"}) {
    if (word.text.starts_with(dashes) && word.text.size() > dashes.size()) {
      return folded_name(std::string_view(word.text).substr(dashes.size()));
    }
  }
  return "";
}

bool is_word(const Word& word, std::string_view text) { return !word.quoted && folded_name(word.text) == text; }

bool is_one_of(const Word& word, std::span<const std::string_view> words) {
  constexpr std::string_view marks = ".,;:!?()\"'-";
  std::string text = folded_name(word.text);
  const auto from = std::min(text.find_first_not_of(marks), text.size());
  text = text.substr(from, text.find_last_not_of(marks) + 1 - from);
  return std::find(words.begin(), words.end(), text) != words.end();
}

std::optional<std::pair<Verb, std::size_t>> verb_of(Words words) {
  if (words.size() > 2 && is_word(words[0], "out") && is_word(words[1], "of") && is_verb(words[2], "use")) {
    return std::pair{Verb::out_of_use, std::size_t{3}};
  }
  for (const auto& [name, verb] : verbs) {
    if (!words.empty() && is_verb(words[0], name)) return std::pair{verb, std::size_t{1}};
  }
  return std::nullopt;
}

}  // namespace service::entry::message
