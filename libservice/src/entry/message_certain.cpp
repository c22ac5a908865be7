#include "entry/message_certain.h"

#include <fmt/format.h>

#include <algorithm>

#include "entry/message_answers.h"
#include "entry/message_who.h"
#include "entry/message_words.h"
#include "service/typed.h"

namespace service::entry {
namespace {

// What says that it has not come yet, and that more follows: `Planned for tomorrow:`. Empty: nothing does.
std::string plan_in(const TextBesideBook& beside, const Draft& draft) {
  if (!beside.is_plainly_sent(draft)) return message::says_not_yet(draft.line.sender) ? draft.line.sender + ':' : "";
  if (draft.line.fate != LineFate::refused) return "";
  const std::string& text = draft.said.empty() ? draft.line.text : draft.said;
  const std::string_view plain = message::without_pictures(text);
  return plain.ends_with(':') && message::says_not_yet(plain) ? std::string(plain) : "";
}

}  // namespace

void insist_on_certainty(const TextBesideBook& text, const Clearing& clearing, Draft& draft) {
  if (draft.line.fate != LineFate::taken || !clearing.clears_anything(draft)) return;
  if (!draft.names_day && draft.above_stamps) {
    refuse(draft, {"day-not-certain", "it names no day, and stands above the first stamp", "say its day at its end"});
  } else if (!text.is_plainly_sent(draft)) {
    draft.line.instead = draft.facts;
    refuse(draft, {"no-plain-sender",
                   fmt::format("`{}` stands before it, which is no plain name, and may say that it is not so",
                               draft.line.sender),
                   "where it is so, send it without that"});
  }
}

void insist_on_no_plan(TextBesideBook& text, const Clearing& clearing) {
  const auto is_below = [](const Draft& plan, const Draft& draft) {
    if (plan.block == draft.block) return plan.line.number <= draft.line.number;
    return !plan.line.sender.empty() && folded_name(plan.line.sender) == folded_name(draft.line.sender) &&
           plan.sent_on == draft.sent_on;
  };
  for (std::size_t i = 0; i < text.drafts().size(); ++i) {
    const std::string plan = plan_in(text, text.drafts()[i]);
    for (std::size_t k = i; !plan.empty() && k < text.drafts().size(); ++k) {
      Draft& draft = text.drafts()[k];
      const bool is_meant = draft.line.fate == LineFate::taken && is_below(text.drafts()[i], draft) &&
                            std::none_of(draft.facts.begin(), draft.facts.end(), raises);
      // What clears something is asked back anyway, for that line is not taken.
      if (!is_meant || clearing.clears_anything(draft)) continue;
      draft.asked_back_for_others = true;
      refuse(draft, {"planned", fmt::format("`{}` stands before it, and may say that it is not so yet", plan),
                     "where it is so already, send it without that"});
    }
  }
}

void insist_on_what_came_first(const TextBesideBook& text, Draft& draft) {
  if (draft.line.fate != LineFate::taken) return;
  for (std::size_t j = 0; j < draft.facts.size(); ++j) {
    const Fact& answer = draft.facts[j];
    if (!draft.is_new[j] || !may_answer(answer)) continue;
    const Fact* sign = text.sign_in_book(answer);
    if (sign == nullptr) continue;
    draft.line.instead = draft.facts;
    refuse(draft, {"which-came-first",
                   fmt::format("`{}` of {} was seen the same day, {}, and nobody knows which came first", sign->name,
                               sign->machine, to_text(sign->on)),
                   "where this came after it, enter it by the command"});
    return;
  }
}

}  // namespace service::entry
