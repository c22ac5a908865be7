#include "entry/message_who.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/encodings.h"
#include "entry/message_denial.h"
#include "service/text.h"

namespace service::entry::message {
namespace {

using View = std::string_view;

constexpr auto of_days = std::to_array<View>(
    {"tomorrow", "tonight", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday",
     "mondays",  "mon",     "tue",    "tues",    "wed",       "thu",      "thur",   "thurs",    "fri",
     "sat",      "sun",     "next",   "soon",    "later",     "week",     "weeks",  "weekend",  "month",
     "months",   "morning", "noon",   "midday",  "afternoon", "evening",  "night",  "asap"});

// What is planned, hoped for, asked, or quoted, and so is none yet. No list of such words is whole, nor of those that
// deny (`is_denial`); these are the usual ones, and whoever is called like one of them is known once the book has his
// name.
constexpr auto of_no_fact_yet = std::to_array<View>(
    {"plan",      "plans",    "planned",   "planning",  "todo",      "to",       "due",      "pending",  "open",
     "scheduled", "booked",   "upcoming",  "proposed",  "suggested", "expected", "intended", "need",     "needs",
     "needed",    "wanted",   "must",      "shall",     "should",    "could",    "would",    "might",    "can",
     "delayed",   "waiting",  "wait",      "if",        "when",      "once",     "until",    "unless",   "before",
     "old",       "outdated", "previous",  "draft",     "example",   "examples", "sample",   "test",     "demo",
     "template",  "reminder", "reminders", "remind",    "remember",  "ask",      "asks",     "asked",    "asking",
     "question",  "query",    "request",   "requested", "please",    "maybe",    "perhaps",  "probably", "possibly",
     "hopefully", "void",     "fwd",       "forwarded", "quote",     "copy"});

// What is written like initials, and is none for certain: times, and that nobody knows yet.
constexpr auto short_words = std::to_array<View>({"A.M.", "P.M.", "N.A.", "N.B.", "T.B.", "T.B.A.", "T.B.C.", "T.B.D.",
                                                  "E.O.D.", "C.O.B.", "E.T.A.", "A.S.A.", "I.E.", "E.G.", "O.K."});

// Of the letters of Latin that have case.
bool is_capital(char32_t code) {
  return (code >= 'A' && code <= 'Z') || (code >= 0xC0 && code <= 0xDE && code != 0xD7);
}

}  // namespace

namespace {

enum class Case { none, small, capital };

// Nothing where it is no letter.
std::optional<Case> case_of(View bytes, char32_t code) {
  if (folded_name(bytes) != bytes) return Case::capital;
  if (code >= 'a' && code <= 'z') return Case::small;
  const auto within = [code](char32_t first, char32_t last) { return code >= first && code <= last; };
  if (within(0x1E00, 0x1EFF)) return code % 2 == 0 ? Case::capital : Case::small;
  if (within(0xDF, 0x24F) || within(0x370, 0x52F)) return Case::small;
  const bool is_letter = within(0x531, 0x1FFF) || within(0x3041, 0xD7FF) || within(0xF900, 0xFAFF) ||
                         within(0xFE70, 0xFEFC) || within(0x20000, 0x3FFFF);
  return is_letter ? std::optional(Case::none) : std::nullopt;
}

// `Anna`, `O'Neill`, `N.`, `A.F.`. Capitals alone may be a word: `NOT`.
bool is_word_of_name(View word) {
  constexpr View marks = ".'-\u2019";
  std::size_t capitals = 0;
  std::size_t others = 0;
  bool is_first = true;
  bool has_point = false;
  while (!word.empty()) {
    const auto letter = first_letter(word);
    if (!letter) return false;
    const View bytes = word.substr(0, letter->bytes);
    word.remove_prefix(bytes.size());
    const bool is_mark = !is_first && marks.find(bytes) != View::npos;
    has_point = has_point || bytes == ".";
    if (is_mark) continue;
    const auto its = case_of(bytes, letter->code);
    if (!its || (is_first && *its == Case::small)) return false;
    ++(*its == Case::capital ? capitals : others);
    is_first = false;
  }
  return others > 0 || capitals == 1 || (has_point && capitals <= 3);
}

// `Planned`, `To-do`, `Don\u2019t`.
bool says_it_is_no_fact(const Word& word) {
  std::string text = folded_name(word.text);
  for (auto at = text.find("\u2019"); at != std::string::npos; at = text.find("\u2019")) text.replace(at, 3, "'");
  for (View rest = text; !rest.empty();) {
    View part = rest.substr(0, rest.find('-'));
    rest.remove_prefix(std::min(rest.size(), part.size() + 1));
    while (part.ends_with('.')) part.remove_suffix(1);
    if (is_denial(part) || std::find(of_no_fact_yet.begin(), of_no_fact_yet.end(), part) != of_no_fact_yet.end()) {
      return true;
    }
  }
  return false;
}

bool is_telephone_number(View text) {
  constexpr std::ptrdiff_t shortest = 5;
  const auto digits = std::count_if(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
  return digits >= shortest && text.find_first_not_of("+0123456789 ()-/.") == View::npos;
}

}  // namespace

bool is_plain_name(View text) {
  text = without_pictures(text);
  for (const View before : {"~", " "}) {
    while (text.starts_with(before)) text.remove_prefix(before.size());
  }
  if (is_telephone_number(text)) return true;
  const std::vector<Word> words = words_of(text);
  constexpr std::size_t most = 3;
  return !words.empty() && words.size() <= most && std::all_of(words.begin(), words.end(), [](const Word& word) {
    return !word.quoted && is_word_of_name(word.text) && !names_no_certain_day(word) && !says_it_is_no_fact(word);
  });
}

bool are_initials(View text) {
  if (std::find(short_words.begin(), short_words.end(), text) != short_words.end()) return false;
  std::size_t letters = 0;
  while (!text.empty()) {
    const auto letter = first_letter(text);
    if (!letter || !is_capital(letter->code)) return false;
    text.remove_prefix(letter->bytes);
    if (!text.starts_with('.')) return false;
    text.remove_prefix(1);
    ++letters;
  }
  return letters == 2 || letters == 3;
}

std::optional<std::string> who_if_certain(const Told& told, Words words) {
  if (words.empty()) return std::nullopt;
  std::string text = joined(words);
  if (auto known = told.somebody(text)) return known;
  return are_initials(text) ? std::optional(std::move(text)) : std::nullopt;
}

std::string who_told(const Told& told, Words words) {
  if (auto who = who_if_certain(told, words)) return std::move(*who);
  wrong(
      "no-name", fmt::format("`by {}` names nobody whom the record knows, and may mean until when", joined(words)),
      "say initials with points and nothing more, by M.T., or a name as the record has it; somebody new is known once "
      "a command was entered with his name; where it is not done yet, say nothing yet");
}

bool names_no_certain_day(const Word& word) { return is_one_of(word, of_days); }

bool says_not_yet(View text) {
  constexpr auto to_come = std::to_array<View>({"tomorrow", "tonight", "next", "soon", "later", "will", "asap"});
  constexpr auto before_days = std::to_array<View>({"for", "by", "until", "till"});
  constexpr auto of_work = std::to_array<View>({"do", "be", "come"});
  constexpr auto to = std::to_array<View>({"to"});
  // What may stand before something that has come.
  constexpr auto of_facts =
      std::to_array<View>({"correction", "sorry", "wrong", "mistake", "error", "fwd", "forwarded", "quote", "copy",
                           "ask", "asks", "asked", "not", "no", "nobody", "neither", "nor", "without", "untrue"});
  const std::vector<Word> words = words_of(text);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool has_next = i + 1 < words.size();
    if (is_one_of(words[i], to) && !(has_next && is_one_of(words[i + 1], of_work))) continue;
    std::string plain = words[i].text;
    while (!plain.empty() && View(".,;:!?()\"").find(plain.back()) != View::npos) plain.pop_back();
    while (!plain.empty() && View("(\"*-").find(plain.front()) != View::npos) plain.erase(0, 1);
    const bool is_day_to_come = is_one_of(words[i], before_days) && has_next && names_no_certain_day(words[i + 1]);
    const bool is_no_fact = says_it_is_no_fact({plain}) && !is_one_of(words[i], of_facts);
    if (is_one_of(words[i], to_come) || is_no_fact || is_day_to_come) return true;
  }
  return false;
}

bool makes_a_condition(const Word& word) {
  constexpr auto conditions = std::to_array<View>({"if", "unless", "whether"});
  return is_one_of(word, conditions);
}

}  // namespace service::entry::message
