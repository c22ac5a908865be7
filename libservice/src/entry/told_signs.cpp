// Listed signs with more said behind them.
#include "service/told_signs.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "entry/clauses.h"
#include "entry/message_overheard.h"
#include "service/text.h"

namespace service {
namespace {

// A clause of such words alone may say that there is no sign: `(fixed)`, `not any more`.
bool may_take_back(std::string_view clause) {
  constexpr auto taking = std::to_array<std::string_view>(
      {"no",      "none",  "not",    "nope", "never",  "isn't", "wasn't",  "fixed",  "mended",    "repaired",
       "sorted",  "done",  "gone",   "ok",   "okay",   "good",  "fine",    "false",  "wrong",     "sorry",
       "mistake", "cured", "solved", "away", "ignore", "stop",  "nothing", "cancel", "cancelled", "correction"});
  constexpr auto beside = std::to_array<std::string_view>(
      {"any",   "more",  "longer", "anymore", "now", "is",      "was",   "it",    "its",  "it's",
       "all",   "again", "alarm",  "been",    "has", "already", "today", "since", "just", "yet",
       "there", "that",  "this",   "by",      "me",  "us",      "i",     "we"});
  const auto words = entry::plain_words(clause);
  const auto is_among = [](const auto& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
  };
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) { return is_among(taking, word); }) &&
         std::all_of(words.begin(), words.end(),
                     [&](const std::string& word) { return is_among(taking, word) || is_among(beside, word); });
}

// Every word of some listed or measured name but these stands in the clause.
bool holds_another(const std::vector<std::string>& names, const std::vector<SignNoted>& but, std::string_view clause) {
  const auto words = entry::plain_words(clause);
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    if (std::any_of(but.begin(), but.end(), [&](const SignNoted& sign) { return sign.name == name; })) return false;
    const auto its = entry::plain_words(name);
    return std::all_of(its.begin(), its.end(), [&](const std::string& word) {
      return std::any_of(words.begin(), words.end(),
                         [&](const std::string& one) { return one == word || one == word + 's' || one + 's' == word; });
    });
  });
}

void add_note(SignNoted& sign, std::string_view more) {
  if (!more.empty()) sign.note += (sign.note.empty() ? "" : ", ") + std::string(more);
}

// Each once, with all that is said of it.
void add_sign(std::vector<SignNoted>& signs, SignNoted sign) {
  const auto told = std::find_if(signs.begin(), signs.end(), [&](const auto& one) { return one.name == sign.name; });
  if (told == signs.end()) {
    signs.push_back(std::move(sign));
  } else {
    add_note(*told, sign.note);
  }
}

// The clauses from one listed sign to the next.
struct Stretch {
  std::size_t from = 0;
  std::size_t end = 0;
  bool listed = false;  // those are in `signs`
  std::vector<SignNoted> signs;
};

}  // namespace

SignsTold signs_told(const Fleet& fleet, const Machine& machine, std::string_view written, const ListedIn& listed_in) {
  SignsTold in_own_words{{{std::string(written), ""}}, false};
  std::vector<Stretch> parts;
  std::vector<SignNoted> all;
  for (const std::string_view clause : entry::clauses_of(written)) {
    const auto from = static_cast<std::size_t>(clause.data() - written.data());
    Stretch part{from, from + clause.size(), false, listed_in(clause)};
    part.listed = !part.signs.empty();
    if (!part.listed && may_take_back(clause)) return in_own_words;
    all.insert(all.end(), part.signs.begin(), part.signs.end());
    parts.push_back(std::move(part));
  }
  const auto first = std::find_if(parts.begin(), parts.end(), [](const Stretch& part) { return part.listed; });
  if (first == parts.end()) return in_own_words;
  SignsTold told;
  if (first != parts.begin()) {
    const std::string before(entry::without_marks(written.substr(0, first->from)));
    if (entry::denies(before)) return in_own_words;
    told.signs.push_back({before, ""});
    told.with_words = true;
  }
  std::vector<std::string> names;
  for (const ListedSign& sign : listed_signs(fleet, machine)) names.push_back(sign.name);
  for (const MeasuredName& measured : measured_names(fleet, machine)) names.push_back(measured.name);
  for (auto part = first; part != parts.end();) {
    const auto next = std::find_if(part + 1, parts.end(), [](const Stretch& one) { return one.listed; });
    const std::size_t end = next == parts.end() ? written.size() : next->from;
    const std::string_view behind = entry::without_marks(written.substr(part->end, end - part->end));
    const bool more = next != part + 1;
    const bool another = more && holds_another(names, all, behind);
    if (more && !another) add_note(part->signs.back(), behind);
    for (SignNoted& sign : part->signs) add_sign(told.signs, std::move(sign));
    if (another) told.signs.push_back({std::string(behind), ""});
    told.with_words = told.with_words || more;
    part = next;
  }
  return told;
}

SignsTold signs_told(const Fleet& fleet, const Machine& machine, std::string_view written) {
  std::vector<std::string> names;
  for (const ListedSign& sign : listed_signs(fleet, machine)) names.push_back(sign.name);
  return signs_told(fleet, machine, written, [&](std::string_view clause) {
    const auto name = name_written(clause, names);
    return name ? std::vector<SignNoted>{{*name, ""}} : std::vector<SignNoted>{};
  });
}

std::optional<NearName> near_told(const Fleet& fleet, const Machine& machine, const Fact& seen) {
  auto near = near_name(fleet, machine, seen.kind, seen.name);
  if (near || seen.kind != FactKind::sign) return near;
  std::vector<std::string> names;
  for (const ListedSign& sign : listed_signs(fleet, machine)) names.push_back(sign.name);
  const auto clauses = entry::clauses_of(seen.name);
  if (name_written(seen.name, names) || clauses.size() < 2) return std::nullopt;
  return near_name(fleet, machine, seen.kind, clauses.front());
}

}  // namespace service
