#include "entry/message_who.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/encodings.h"
#include "service/text.h"
#include "service/typed.h"

namespace service::entry::message {
namespace {

using View = std::string_view;

constexpr auto of_days = std::to_array<View>(
    {"tomorrow", "tonight", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday",
     "mondays",  "mon",     "tue",    "tues",    "wed",       "thu",      "thur",   "thurs",    "fri",
     "sat",      "sun",     "next",   "soon",    "later",     "week",     "weeks",  "weekend",  "month",
     "months",   "morning", "noon",   "midday",  "afternoon", "evening",  "night",  "asap"});
constexpr auto of_months =
    std::to_array<View>({"january", "february", "march",    "april", "may", "june", "july",     "august", "september",
                         "october", "november", "december", "jan",   "feb", "mar",  "apr",      "jun",    "jul",
                         "aug",     "sep",      "sept",     "oct",   "nov", "dec",  "yesterday"});
// Not, nobody in particular, or how it came about.
constexpr auto no_names = std::to_array<View>(
    {"no",       "not",      "never",    "none",    "nobody", "noone",     "nothing", "who",  "whom",   "whoever",
     "someone",  "somebody", "anyone",   "anybody", "me",     "myself",    "us",      "him",  "her",    "himself",
     "herself",  "them",     "you",      "end",     "start",  "beginning", "now",     "then", "today",  "when",
     "until",    "till",     "before",   "after",   "since",  "at",        "on",      "in",   "of",     "for",
     "the",      "or",       "but",      "only",    "half",   "rest",      "still",   "yet",  "almost", "nearly",
     "maybe",    "perhaps",  "probably", "should",  "must",   "needs",     "is",      "to",   "hand",   "mistake",
     "accident", "harvest",  "latest",   "due",     "done",   "unknown",   "tbc"});
constexpr auto not_all = std::to_array<View>({"not", "no", "never", "half", "half-done", "rest", "tomorrow", "later",
                                              "still", "yet", "next", "unfinished", "todo", "partly"});

// Letters of names in any writing, and the marks within them; no digits, no pictures.
bool is_of_a_name(char32_t code) {
  if (code < 0x80) {
    return (code >= 'a' && code <= 'z') || (code >= 'A' && code <= 'Z') || code == '.' || code == '-' || code == '\'';
  }
  const bool is_letter = (code >= 0xC0 && code < 0x2000 && code != 0xD7 && code != 0xF7) ||
                         (code >= 0x3040 && code < 0xD800) || code == 0x2019;
  return is_letter;
}

bool is_of_a_name(View text) {
  if (text.empty() || text.find_first_not_of(".-'") == View::npos) return false;
  while (!text.empty()) {
    const auto letter = first_letter(text);
    if (!letter || !is_of_a_name(letter->code)) return false;
    text.remove_prefix(letter->bytes);
  }
  return true;
}

// `will` alone is a name, and behind one it is a promise.
bool is_a_name(const Fleet& fleet, Words words) {
  constexpr std::size_t most_words = 3;
  if (words.empty() || words.size() > most_words) return false;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const Word& word = words[i];
    const bool other = is_one_of(word, no_names) || names_no_certain_day(word) || is_one_of(word, of_months) ||
                       counts_from_today(word.text) || (i > 0 && is_word(word, "will"));
    if (other || !is_of_a_name(word.text)) return false;
  }
  const auto season = season_named(fleet, joined(words));
  return season.one == nullptr && season.several.empty();
}

}  // namespace

bool names_no_certain_day(const Word& word) { return is_one_of(word, of_days); }

void insist_on_a_name(const Fleet& fleet, Words words) {
  std::vector<Word> single;
  for (const Word& word : words) {
    for (Word& part : words_of(word.text)) single.push_back(std::move(part));
  }
  if (is_a_name(fleet, single)) return;
  wrong("no-name", fmt::format("`by {}` names nobody for certain, and may mean until when", joined(words)),
        "where it is done, say by whom in one to three words, by M.T., and its day behind that; where it is not, say "
        "nothing yet");
}

void insist_on_all_done(View note) {
  bool in_doubt = note.find('?') != View::npos || note.find("\uFF1F") != View::npos;
  std::string plain(note);
  std::replace_if(
      plain.begin(), plain.end(), [](char c) { return View(",;:./()!\"").find(c) != View::npos; }, ' ');
  for (const Word& word : words_of(plain)) {
    const std::string folded = folded_name(word.text);
    in_doubt = in_doubt || is_one_of(word, not_all) || folded.ends_with("n't") || folded.ends_with("n\u2019t") ||
               names_no_certain_day(word);
  }
  if (!in_doubt) return;
  wrong("not-all-done", fmt::format("the note `{}` may say that it is not all done", note),
        "where it is done, say so without that, and what is left in a line of its own: saw MACHINE SIGN");
}

}  // namespace service::entry::message
