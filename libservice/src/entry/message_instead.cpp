#include "entry/message_instead.h"

#include <algorithm>

#include "entry/message_answers.h"
#include "service/snapshot.h"

namespace service::entry {
namespace {

// Who looked, or did it, is to be said of it.
bool needs_who(const TextBesideBook& text, const Fact& fact) {
  if (!fact.by.empty()) return false;
  const Machine& machine = *text.fleet().machine(fact.machine);
  if (fact.kind == FactKind::service) {
    const NamedTask named = task_named(text.fleet().schedule_of(machine), fact.task);
    return named.task != nullptr && named.task->competent_person && named.follow_up == nullptr;
  }
  return fact.kind == FactKind::looked_at && text.is_look_of_safety(fact);
}

}  // namespace

void tell_how_to_enter(const TextBesideBook& text, const SaidAgainst& said_against, Draft& draft) {
  using Against = SaidAgainst::Against;
  std::vector<Fact>& instead = draft.line.instead;
  if (draft.line.fate != LineFate::refused) instead.clear();
  const bool is_told = !draft.line.wrong.empty() && draft.line.wrong.front().code == "which-came-first";
  const bool clears_more = std::any_of(instead.begin(), instead.end(), [&](const Fact& answer) {
    const bool in_text = std::any_of(text.drafts().begin(), text.drafts().end(), [&](const Draft& its) {
      return its.line.number != draft.line.number &&
             std::any_of(its.facts.begin(), its.facts.end(), [&](const Fact& said) {
               const Against against = said_against.speaks_against(said, its, answer, draft);
               const bool may_be_newer = against != Against::nothing && !is_earlier(said, its, answer, draft);
               return may_be_newer && (against == Against::own_words ||
                                       answers(text.fleet(), *text.fleet().machine(said.machine), answer, said));
             });
    });
    return in_text || (!is_told && may_answer(answer) && text.sign_in_book(answer) != nullptr);
  });
  if (clears_more) instead.clear();
  for (const Fact& fact : instead) draft.line.who_is_missing = draft.line.who_is_missing || needs_who(text, fact);
}

}  // namespace service::entry
