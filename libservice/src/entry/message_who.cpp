#include "entry/message_who.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/encodings.h"

namespace service::entry::message {
namespace {

using View = std::string_view;

constexpr auto of_days = std::to_array<View>(
    {"tomorrow", "tonight", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday",
     "mondays",  "mon",     "tue",    "tues",    "wed",       "thu",      "thur",   "thurs",    "fri",
     "sat",      "sun",     "next",   "soon",    "later",     "week",     "weeks",  "weekend",  "month",
     "months",   "morning", "noon",   "midday",  "afternoon", "evening",  "night",  "asap"});

// What is written like initials, and is none for certain: times, and that nobody knows yet.
constexpr auto short_words = std::to_array<View>({"A.M.", "P.M.", "N.A.", "N.B.", "T.B.", "T.B.A.", "T.B.C.", "T.B.D.",
                                                  "E.O.D.", "C.O.B.", "E.T.A.", "A.S.A.", "I.E.", "E.G.", "O.K."});

// Of the letters of Latin that have case.
bool is_capital(char32_t code) {
  return (code >= 'A' && code <= 'Z') || (code >= 0xC0 && code <= 0xDE && code != 0xD7);
}

}  // namespace

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

}  // namespace service::entry::message
