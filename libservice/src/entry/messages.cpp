// Which lines of a pasted text are taken, and what each brought about.
#include "service/messages.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "entry/message_agreeing.h"
#include "entry/message_beside.h"
#include "entry/message_certain.h"
#include "entry/message_instead.h"
#include "entry/message_judged.h"
#include "entry/message_one_voice.h"
#include "entry/message_people.h"
#include "entry/message_there.h"
#include "entry/message_words.h"
#include "service/spreadsheet.h"
#include "service/telling.h"
#include "service/told_signs.h"

namespace service {
namespace {

using entry::Draft;

constexpr std::size_t most_lines = 2000;

// What of the text the book lets through: each rule asks back what it cannot let pass, and what one asks back may
// leave less for another.
std::vector<Proposal> proposals_of(entry::TextBesideBook& text) {
  std::vector<Draft>& drafts = text.drafts();
  entry::Clearing clearing(text);
  const entry::SaidAgainst against(text);
  entry::OneVoice voice(text, clearing, against);
  entry::ProposedLines lines(text);
  find_what_is_there(text);
  insist_on_days(text);
  insist_on_no_plan(text, clearing);
  insist_on_values_that_agree(text);
  clearing.find_what_heals();
  for (Draft& draft : drafts) insist_on_certainty(text, clearing, draft);
  voice.insist();
  for (Draft& draft : drafts) insist_on_what_came_first(text, draft);
  voice.insist();
  auto proposals = lines.proposed();
  // A line is taken whole or not at all, so what is left is judged again.
  for (bool all_well = false; !all_well; proposals = lines.proposed()) {
    all_well = lines.judge_all(proposals);
    if (!all_well) voice.insist();
  }
  tell_what_is_cleared(text);
  for (Draft& draft : drafts) tell_how_to_enter(text, against, draft);
  for (Draft& draft : drafts) {
    if (draft.line.fate != LineFate::said_before) continue;
    const Draft& first = text.line(draft.line.as_line);
    if (first.line.fate != LineFate::refused) continue;
    draft.line.fate = LineFate::refused;
    draft.line.wrong = first.line.wrong;
  }
  return proposals;
}

// As telephones and word processors save it too.
std::string decoded(const std::string& text) {
  auto plain = from_utf16(text);
  if (!plain) {
    throw Failure(FailureKind::bad_data, {"utf16", "the text is UTF-16 that is cut off or broken", "save it as UTF-8"});
  }
  return std::move(*plain);
}

void insist_on_messages(const std::vector<Draft>& drafts) {
  if (drafts.size() <= most_lines) return;
  throw Failure(FailureKind::bad_data,
                {"too-many-lines",
                 fmt::format("it has {} lines, and more than {} are not read at once", drafts.size(), most_lines),
                 "paste them in parts; a file of facts is no text of messages"});
}

// A line's facts as they were added, with the roll-over that one of them implies before it.
void share_out(std::vector<Draft>& drafts, const Entered& entered) {
  auto next = entered.added.begin();
  for (Draft& draft : drafts) {
    if (draft.line.fate != LineFate::taken) continue;
    auto to_come = std::count(draft.is_new.begin(), draft.is_new.end(), true);
    while (to_come > 0 && next != entered.added.end()) {
      if (next->kind != FactKind::meter_change) --to_come;
      draft.line.facts.push_back(*next++);
    }
  }
}

// What is asked beside the facts of a line needs no answer where its machine is out of use all the same, or where they
// were in the book already.
void drop_idle_asks(MessageLine& line, const Entered& entered) {
  if (line.fate != LineFate::taken) line.asks.clear();
  if (line.asks.empty()) return;
  const Machine* const machine = entered.is->fleet().machine(line.facts.front().machine);
  const UseState* const state = entered.after->state_of(*machine);
  if (state != nullptr && state->kind == UseKind::out_of_use) line.asks.clear();
}

}  // namespace

bool is_settled(const MessageLine& line) { return !is_refused(line) && line.asks.empty(); }

std::string_view to_text(LineFate fate) {
  switch (fate) {
    case LineFate::taken:
      return "taken";
    case LineFate::already_there:
      return "already-there";
    case LineFate::said_before:
      return "said-before";
    case LineFate::heading:
      return "heading";
    case LineFate::refused:
      break;
  }
  return "refused";
}

bool is_refused(const MessageLine& line) { return line.fate == LineFate::refused; }

Messages enter_messages(const std::shared_ptr<const Fleet>& fleet, Record& record, const MessagesAsk& asked,
                        const Writer& writer) {
  MessagesAsk ask = asked;
  ask.text = decoded(asked.text);
  entry::KnownPeople known_people(record, ask, writer);
  const entry::DraftReader reader(*fleet, ask, [&](std::string_view written) { return known_people.called(written); });
  std::vector<Draft> drafts = reader.read();
  insist_on_messages(drafts);
  std::set<std::string> machines;
  for (Draft& draft : drafts) {
    reader.understand(draft, [](const Machine&) { return std::vector<std::string>{}; });
    // Those of lines that are not understood too: what was seen of a machine may tell how.
    for (std::string& machine : entry::machines_in(*fleet, draft.said)) machines.insert(std::move(machine));
  }
  EntryRequest request;
  request.origin = ask.origin;
  request.scope.machines.emplace(machines.begin(), machines.end());
  request.today = ask.today;
  request.day_is_given = ask.day_is_given;
  request.dry_run = ask.dry_run;
  request.asks_ahead = true;
  request.propose = [&](const Extract& known) {
    entry::TextBesideBook text(fleet, ask, writer, reader, known, drafts);
    for (Draft& draft : drafts) {
      reader.understand(draft, [&](const Machine& machine) { return text.seen_names(machine); });
    }
    return proposals_of(text);
  };
  Messages messages;
  messages.utf16 = is_utf16(asked.text);
  messages.entered = enter(fleet, record, request, writer);
  share_out(drafts, messages.entered);
  for (Draft& draft : drafts) {
    if (draft.line.fate == LineFate::already_there) {
      messages.entered.already_there += static_cast<int>(draft.facts.size());
    }
    for (std::size_t i = 0; i < draft.line.facts.size(); ++i) {
      const Fact& fact = draft.line.facts[i];
      const bool seen = fact.kind == FactKind::sign || fact.kind == FactKind::measurement;
      if (!seen || draft.line.near) continue;
      draft.line.near = near_told(*fleet, *fleet->machine(fact.machine), fact);
      draft.line.near_fact = i;
    }
    drop_idle_asks(draft.line, messages.entered);
    messages.lines.push_back(std::move(draft.line));
  }
  std::sort(messages.lines.begin(), messages.lines.end(),
            [](const MessageLine& a, const MessageLine& b) { return a.number < b.number; });
  return messages;
}

}  // namespace service
