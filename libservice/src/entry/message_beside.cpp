#include "entry/message_beside.h"

#include <algorithm>
#include <set>

#include "entry/message_answers.h"
#include "service/snapshot.h"
#include "service/telling.h"

namespace service::entry {
namespace {

// One of another day, or of no known day, may be of before or after: what is of the same is of an unknown order.
bool is_of_day(const Fact& fact, Day day) { return fact.on.whole_day() && fact.on.first == day; }

}  // namespace

TextBesideBook::TextBesideBook(std::shared_ptr<const Fleet> fleet, const MessagesAsk& ask, const Writer& writer,
                               const DraftReader& reader, const Extract& known, std::vector<Draft>& drafts)
    : fleet_(std::move(fleet)), ask_(ask), writer_(writer), reader_(reader), known_(known), drafts_(drafts) {
  for (const Fact& fact : unstruck(known.facts)) by_machine_[fact.machine].push_back(fact);
}

const std::vector<Fact>& TextBesideBook::book_of(const std::string& machine) const {
  static const std::vector<Fact> none;
  const auto book = by_machine_.find(machine);
  return book == by_machine_.end() ? none : book->second;
}

Stamp TextBesideBook::stamp_of(const std::vector<Proposal>& proposals) const {
  return service::stamp_of(writer_, ask_.origin, proposals);
}

const Draft& TextBesideBook::line(int number) const {
  return *std::find_if(drafts_.begin(), drafts_.end(), [&](const Draft& d) { return d.line.number == number; });
}

std::vector<std::string> TextBesideBook::seen_names(const Machine& machine) const {
  std::set<std::string> names;
  const KeptAsSeen kept(*fleet_, machine);
  const auto add = [&](const Fact& fact) {
    if (const auto name = kept.of(fact)) names.insert(name->name);
  };
  if (const auto book = by_machine_.find(machine.key); book != by_machine_.end()) {
    for (const Fact& fact : book->second) add(fact);
  }
  for (const Draft& draft : drafts_) {
    for (const Fact& fact : draft.facts) {
      if (fact.machine == machine.key) add(fact);
    }
  }
  return {names.begin(), names.end()};
}

bool TextBesideBook::told_by_this_text(const Fact& fact) const {
  return std::any_of(drafts_.begin(), drafts_.end(), [&](const Draft& draft) {
    return std::any_of(draft.facts.begin(), draft.facts.end(), [&](const Fact& f) { return same_content(f, fact); });
  });
}

bool TextBesideBook::is_plainly_sent(const Draft& draft) const {
  return draft.line.sender.empty() || reader_.is_plain_name(draft.line.sender);
}

bool TextBesideBook::is_untaken(const Draft& draft) const {
  const Draft& is = draft.line.fate == LineFate::said_before ? line(draft.line.as_line) : draft;
  return is.line.fate == LineFate::refused && !is.asked_back_for_others;
}

bool TextBesideBook::is_look_of_safety(const Fact& fact) const {
  std::vector<Fact> facts;
  if (const auto book = by_machine_.find(fact.machine); book != by_machine_.end()) facts = book->second;
  for (const Draft& draft : drafts_) {
    for (const Fact& told : draft.facts) {
      if (told.machine == fact.machine) facts.push_back(told);
    }
  }
  const auto sign = seen_sign_told(*fleet_, *fleet_->machine(fact.machine), facts, fact.name);
  return sign && sign->safety;
}

bool TextBesideBook::would_answer(const Fact& answer, const Fact& raised) const {
  const bool is_named = raised.kind == FactKind::sign || is_bad_look(raised) ||
                        (raised.kind == FactKind::measurement && answer.kind == FactKind::looked_at);
  return is_named && raised.machine == answer.machine && is_of_day(raised, answer.on.first) &&
         answers(*fleet_, *fleet_->machine(answer.machine), answer, raised);
}

const Fact* TextBesideBook::sign_in_book(const Fact& answer) const {
  const auto book = by_machine_.find(answer.machine);
  if (book == by_machine_.end()) return nullptr;
  const Machine& machine = *fleet_->machine(answer.machine);
  const auto& facts = book->second;
  for (std::size_t i = 0; i < facts.size(); ++i) {
    if (!would_answer(answer, facts[i]) || told_by_this_text(facts[i])) continue;
    const bool is_answered = std::any_of(facts.begin() + static_cast<std::ptrdiff_t>(i) + 1, facts.end(),
                                         [&](const Fact& later) { return answers(*fleet_, machine, later, facts[i]); });
    if (!is_answered) return &facts[i];
  }
  return nullptr;
}

TextBesideBook::Together TextBesideBook::together(const std::string& machine) const {
  struct Told {
    Fact fact;
    std::pair<int, std::size_t> place;
  };
  std::vector<Told> all;
  if (const auto book = by_machine_.find(machine); book != by_machine_.end()) {
    for (const Fact& fact : book->second) all.push_back({fact, {}});
  }
  for (const Draft& draft : drafts_) {
    for (std::size_t j = 0; j < draft.facts.size(); ++j) {
      const bool counts = draft.line.fate == LineFate::taken && draft.is_new[j] && draft.facts[j].machine == machine;
      if (counts) all.push_back({draft.facts[j], {draft.line.number, j}});
    }
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Told& a, const Told& b) { return a.fact.on.first < b.fact.on.first; });
  Together both;
  for (Told& told : all) {
    both.facts.push_back(std::move(told.fact));
    both.places.push_back(told.place);
  }
  return both;
}

}  // namespace service::entry
