#include "entry/message_judged.h"

#include <fmt/format.h>

#include <algorithm>

#include "entry/refused_values.h"
#include "service/snapshot.h"

namespace service::entry {

std::vector<Proposal> ProposedLines::proposed() {
  std::vector<Proposal> proposals;
  of_.clear();
  for (Draft& draft : text_.drafts()) {
    for (std::size_t j = 0; j < draft.facts.size(); ++j) {
      if (draft.line.fate != LineFate::taken || !draft.is_new[j]) continue;
      proposals.push_back({draft.facts[j], false, std::nullopt});
      of_.push_back(&draft);
    }
  }
  return proposals;
}

bool ProposedLines::judge_all(const std::vector<Proposal>& proposals) {
  const Stamp stamp = text_.stamp_of(proposals);
  auto judgement = judge(text_.fleet(), text_.known().facts, proposals, stamp, text_.ask().today);
  put_likelier_first(text_.fleet(), text_.known().facts, proposals, stamp, text_.ask().today, judgement);
  for (std::size_t i = 0; i < judgement.refused.size(); ++i) {
    MessageLine& refused = of_[judgement.refused_rows[i]]->line;
    refused.fate = LineFate::refused;
    const auto said = [&](const Diagnostic& what) { return what.message == judgement.refused[i].message; };
    if (std::any_of(refused.wrong.begin(), refused.wrong.end(), said)) continue;
    const Proposal& proposal = proposals[judgement.refused_rows[i]];
    refused.wrong.push_back(in_words_of_messages(beside_the_book(judgement.refused[i], proposal), proposal.fact));
  }
  return judgement.refused.empty();
}

Diagnostic ProposedLines::in_words_of_messages(Diagnostic wrong, const Fact& fact) const {
  const std::string day = fact.on == DaySpan(text_.ask().today) ? "" : ' ' + to_text(fact.on);
  std::vector<Cure> cures;
  for (Cure& cure : wrong.cures) {
    std::string say;
    if (cure.kind == CureKind::tell_who && fact.kind == FactKind::looked_at) {
      say = fmt::format("say who looked: looked {} {} by WHO found {}{}", fact.machine, fact.name,
                        fact.found ? to_text(*fact.found) : "good", day);
    } else if (cure.kind == CureKind::tell_who) {
      say = fmt::format("say who did it behind the task: done {} {} by WHO{}", fact.machine, fact.task, day);
    } else if (cure.kind == CureKind::other_meter) {
      say = fmt::format(
          "where meter `{0}` shows it, say so: {1} meter {0}", cure.value("meter"),
          fact.kind == FactKind::reading
              ? fmt::format("{} {}", fact.machine, fact.at ? to_text(*fact.at) : "VALUE")
              : fmt::format("done {} {} {}", fact.machine, fact.task, fact.at ? to_text(*fact.at) : "VALUE"));
    }
    if (say.empty()) {
      cures.push_back(std::move(cure));
    } else {
      wrong.hint += (wrong.hint.empty() ? "" : "; ") + say;
    }
  }
  wrong.cures = std::move(cures);
  return wrong;
}

Diagnostic ProposedLines::beside_the_book(const Diagnostic& refused, const Proposal& proposal) const {
  const std::vector<Proposal> alone{proposal};
  const Stamp stamp = text_.stamp_of(alone);
  auto judgement = judge(text_.fleet(), text_.known().facts, alone, stamp, text_.ask().today);
  put_likelier_first(text_.fleet(), text_.known().facts, alone, stamp, text_.ask().today, judgement);
  const auto same = std::find_if(judgement.refused.begin(), judgement.refused.end(),
                                 [&](const Diagnostic& by_book) { return by_book.code == refused.code; });
  return same == judgement.refused.end() ? refused : *same;
}

}  // namespace service::entry
