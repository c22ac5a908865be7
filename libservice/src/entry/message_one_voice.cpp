#include "entry/message_one_voice.h"

#include <fmt/format.h>

#include <algorithm>

#include "entry/message_words.h"
#include "service/typed.h"

namespace service::entry {

void OneVoice::insist() {
  for (bool again = true; again;) {
    for (bool heals = true; heals;) {
      clearing_.find_what_heals();
      heals = false;
      for (Draft& draft : text_.drafts()) heals = clearing_.refuse_what_heals(draft) || heals;
      heals = clearing_.refuse_what_ends() || heals;
    }
    again = false;
    for (std::size_t i = 0; i < text_.drafts().size(); ++i) again = refuse_beside_a_sign(i) || again;
    const auto untaken = untaken_of_one_voice(lines_sent(), [&](std::size_t at, std::size_t other) {
      return speaks_of(text_.drafts()[at], text_.drafts()[other]);
    });
    const auto machines = machines_of_untaken();
    for (std::size_t i = 0; i < text_.drafts().size(); ++i) {
      if (untaken[i]) again = refuse_beside(text_.drafts()[i], text_.drafts()[*untaken[i]], machines) || again;
    }
  }
}

std::vector<LineSent> OneVoice::lines_sent() {
  std::vector<LineSent> sent;
  bool any_untaken = false;
  for (const Draft& draft : text_.drafts()) {
    const bool is_plain = text_.is_plainly_sent(draft);
    const bool clears = draft.line.fate == LineFate::taken && clearing_.clears_anything(draft);
    sent.push_back({draft.line.number, folded_name(draft.line.sender), is_plain && draft.line.fate == LineFate::heading,
                    !is_plain || text_.is_untaken(draft), clears, clears && clearing_.clears_safety(draft)});
    any_untaken = any_untaken || sent.back().untaken;
  }
  // What a reading takes off the list has to be reckoned, and matters only where anything may speak against it.
  for (std::size_t i = 0; any_untaken && i < text_.drafts().size(); ++i) {
    if (sent[i].clears || text_.drafts()[i].line.fate != LineFate::taken) continue;
    const TakesOff& off = taken_off_by_reading(text_.drafts()[i]);
    sent[i].clears = off.any;
    sent[i].safety = off.safety;
  }
  return sent;
}

const TakesOff& OneVoice::taken_off_by_reading(const Draft& draft) {
  const auto [found, is_first] = off_by_reading_.try_emplace(draft.line.number);
  const Fact& fact = draft.facts.front();
  if (is_first && fact.kind == FactKind::reading) {
    const std::vector<Proposal> alone{{fact, false, std::nullopt}};
    found->second = lists_.taken_off_by(fact, text_.stamp_of(alone));
  }
  return found->second;
}

std::vector<std::string> OneVoice::unread(const Draft& draft) const {
  if (draft.said.empty() && text_.is_plainly_sent(draft)) return {draft.line.text};
  if (text_.is_plainly_sent(draft)) return {draft.said};
  return {draft.line.sender, draft.line.sender + ' ' + draft.said};
}

const std::vector<Overheard>& OneVoice::overheard(const Draft& draft) {
  const auto [found, is_first] = overheard_.try_emplace(draft.line.number);
  if (is_first) {
    for (const std::string& text : unread(draft)) found->second.emplace_back(text_.fleet(), text);
  }
  return found->second;
}

SpeaksOf OneVoice::speaks_of(const Draft& cleared, const Draft& other) {
  if (!other.line.wrong.empty() && other.line.wrong.front().code == "unreadable") return SpeaksOf::it;
  const Machine& machine = *text_.fleet().machine(cleared.facts.front().machine);
  const std::vector<std::string>& things = against_.things_of(cleared);
  SpeaksOf most = SpeaksOf::talk;
  for (const Overheard& heard : overheard(other)) {
    most = std::min(most, heard.speaks_of(machine, things));
  }
  return most;
}

bool OneVoice::may_be_named(const Machine& machine) {
  return std::any_of(text_.drafts().begin(), text_.drafts().end(), [&](const Draft& draft) {
    if (!text_.is_untaken(draft)) return false;
    const auto& all = overheard(draft);
    return std::any_of(all.begin(), all.end(), [&](const auto& heard) { return heard.may_name(machine); });
  });
}

std::set<std::string> OneVoice::machines_of_untaken() const {
  std::set<std::string> machines;
  for (const Draft& draft : text_.drafts()) {
    if (!text_.is_untaken(draft)) continue;
    for (std::string& machine : machines_in(text_.fleet(), draft.said)) machines.insert(std::move(machine));
  }
  return machines;
}

bool OneVoice::refuse_beside_a_sign(std::size_t at) {
  Draft& draft = text_.drafts()[at];
  if (draft.line.fate != LineFate::taken) return false;
  for (std::size_t j = 0; j < draft.facts.size(); ++j) {
    if (!clearing_.clears_at(draft, j)) continue;
    const Fact& answer = draft.facts[j];
    for (const Draft& its : text_.drafts()) {
      for (const Fact& said : its.facts) {
        const auto against = against_.speaks_against(said, its, answer, draft);
        if (against == SaidAgainst::Against::nothing || its.line.number == draft.line.number) continue;
        draft.line.instead = draft.facts;
        draft.asked_back_for_others = true;
        refuse(draft, against_.why_against(against, said, its, answer, draft));
        return true;
      }
    }
  }
  return false;
}

bool OneVoice::refuse_beside(Draft& draft, const Draft& other, const std::set<std::string>& machines_of_untaken) {
  if (draft.line.fate != LineFate::taken) return false;
  draft.asked_back_for_others = true;
  const std::string& machine = draft.facts.front().machine;
  if (!machines_of_untaken.contains(machine) && !may_be_named(*text_.fleet().machine(machine))) {
    draft.line.instead = draft.facts;
  }
  refuse(draft, {"untaken-beside",
                 fmt::format("{}line {} is not taken, and may say that it is not so",
                             text_.is_untaken(other) ? "" : "what stands before ", other.line.number),
                 "where it is so, send it alone"});
  return true;
}

}  // namespace service::entry
