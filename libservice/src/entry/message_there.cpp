#include "entry/message_there.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "entry/message_answers.h"
#include "entry/message_line.h"
#include "service/typed.h"

namespace service::entry {
namespace {

// Whether the book tells of this already, but for its day. Of what clears something, who did it and what else was said
// of it is left aside, and what one of the two does not say: the office writes the same look down in its own words.
bool same_as_told(Fact book, Fact told) {
  if (!clears(told)) return same_content(book, told);
  for (Fact* fact : {&book, &told}) {
    fact->by.clear();
    fact->note.clear();
    fact->sure = fact->history = false;
  }
  if (!book.at || !told.at) {
    for (Fact* fact : {&book, &told}) {
      fact->at.reset();
      fact->meter.clear();
    }
  }
  if (!book.found || !told.found) book.found = told.found = std::nullopt;
  return same_content(book, told);
}

// The line with a whole date in place of the word that counts from when it is read, or behind it.
std::string with_date(const std::string& said, bool counts, Day day) {
  constexpr std::string_view marks = ".,!";
  const std::vector<message::Word> words = message::words_of(said);
  for (auto word = words.rbegin(); counts && word != words.rend(); ++word) {
    const auto end = word->text.find_last_not_of(marks) + 1;
    const std::string plain = word->text.substr(0, end);
    if (word->quoted || !counts_from_today(plain)) continue;
    std::string dated = said;
    return dated.replace(said.rfind(word->text), word->text.size(), to_text(day));
  }
  const bool stops = message::without_stop(words.back().text) != words.back().text;
  return fmt::format("{} {}", std::string_view(said).substr(0, said.size() - (stops ? 1 : 0)), to_text(day));
}

class WhatIsThere {
 public:
  explicit WhatIsThere(TextBesideBook& text) : text_(text) {}

  void find() {
    std::map<std::string, std::size_t> taken_for;  // equal facts of the book that a line stands for already
    for (std::size_t i = 0; i < text_.drafts().size(); ++i) {
      Draft& draft = text_.drafts()[i];
      if (draft.line.fate != LineFate::taken) continue;
      std::size_t there = 0;
      for (std::size_t j = 0; j < draft.facts.size(); ++j) {
        const Fact& fact = draft.facts[j];
        const auto equal = equal_in_book(fact);
        const bool anew = !equal.empty() && answered_since(fact, equal.back());
        std::size_t& used = taken_for[content_key(fact)];
        const int before = said_by_line_before(i, j);
        if (!anew && used < equal.size()) {
          ++used;
          ++there;
          draft.is_new[j] = false;
        } else if (before > 0) {
          draft.is_new[j] = false;
          draft.line.as_line = before;
        } else {
          draft.line.anew = draft.line.anew || anew;
        }
      }
      const bool any_new = std::find(draft.is_new.begin(), draft.is_new.end(), true) != draft.is_new.end();
      if (any_new) continue;
      draft.line.fate = there == draft.facts.size() ? LineFate::already_there : LineFate::said_before;
    }
  }

 private:
  // What the book holds of it: facts that are the same, unstruck, in their order.
  std::vector<std::size_t> equal_in_book(const Fact& fact) const {
    std::vector<std::size_t> found;
    const auto book = text_.book().find(fact.machine);
    if (book == text_.book().end()) return found;
    for (std::size_t i = 0; i < book->second.size(); ++i) {
      if (same_content(book->second[i], fact)) found.push_back(i);
    }
    return found;
  }

  // What a worker saw must not vanish: answered on the day on which the book last told of it, by something that this
  // text does not tell of, it is taken to be seen anew. Answered on a later day, it is an old message.
  bool answered_since(const Fact& fact, std::size_t last_equal) const {
    const Machine& machine = *text_.fleet().machine(fact.machine);
    const auto& book = text_.book().at(fact.machine);
    return raises(fact) &&
           std::any_of(book.begin() + static_cast<std::ptrdiff_t>(last_equal) + 1, book.end(), [&](const Fact& later) {
             return later.on.first <= fact.on.last && answers(text_.fleet(), machine, later, fact) &&
                    !text_.told_by_this_text(later);
           });
  }

  // The line that says the same new fact, with nothing behind it that ends what it raised; 0: none.
  int said_by_line_before(std::size_t at, std::size_t which) const {
    const Fact& fact = text_.drafts()[at].facts[which];
    const Machine& machine = *text_.fleet().machine(fact.machine);
    int before = 0;
    for (std::size_t i = 0; i <= at; ++i) {
      const Draft& draft = text_.drafts()[i];
      for (std::size_t j = 0; j < (i == at ? which : draft.facts.size()); ++j) {
        if (!draft.is_new[j]) continue;
        if (same_content(draft.facts[j], fact)) before = draft.line.number;
        if (raises(fact) && answers(text_.fleet(), machine, draft.facts[j], fact)) before = 0;
      }
    }
    return before;
  }

  TextBesideBook& text_;
};

void insist_on_a_day(const TextBesideBook& text, Draft& draft) {
  if (draft.names_day) return;
  constexpr auto week = std::chrono::days{7};
  for (std::size_t j = 0; j < draft.facts.size(); ++j) {
    Fact told = draft.facts[j];
    const auto book = text.book().find(told.machine);
    if (!draft.is_new[j] || book == text.book().end()) continue;
    const Day today = told.on.first;
    for (const Fact& fact : book->second) {
      const bool lately = fact.on.whole_day() && fact.on.first < today && fact.on.first >= today - week;
      if (!lately) continue;
      told.on = fact.on;
      if (!same_as_told(fact, told)) continue;
      refuse(draft, {"told-lately",
                     fmt::format("the record has the same of {}, and this names no date: it may be the same message",
                                 to_text(fact.on)),
                     told.kind == FactKind::looked_at && draft.said.find(':') != std::string::npos
                         ? fmt::format("where it is not, say its day before the colon, as {}", to_text(today))
                         : fmt::format("where it is not, say its day as a date: {}",
                                       with_date(draft.said, draft.day_counts, today))});
      return;
    }
  }
}

}  // namespace

void find_what_is_there(TextBesideBook& text) { WhatIsThere(text).find(); }

void insist_on_days(TextBesideBook& text) {
  for (Draft& draft : text.drafts()) {
    if (draft.line.fate == LineFate::taken) insist_on_a_day(text, draft);
  }
}

}  // namespace service::entry
