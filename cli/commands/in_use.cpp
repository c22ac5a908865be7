// `lay-up`, `out-of-use` and `back`: whether a machine works at all.
#include <fmt/format.h>

#include <algorithm>

#include "commands/commands.h"
#include "commands/writing.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::FactKind;

// What is said already is stored all the same: whoever types it may know better than the book in what order things
// happened. It may also be another machine that was meant.
void tell_what_stood(const service::Fact& told, const service::UseChange& change, const service::Machine& machine,
                     service::Entered& entered) {
  const service::UseState& before = change.before;
  std::vector<std::string>& said = entered.said;
  // Of a lay-up that was over by its planned day this may be the answer.
  const bool answers = std::any_of(entered.ended_gaps.begin(), entered.ended_gaps.end(), [&](const service::Gap& gap) {
    return gap.kind == service::GapKind::ran_while_not_in_use && gap.machine == machine.key;
  });
  if (told.kind == FactKind::back && !change.changes && !answers) {
    said.push_back(fmt::format("{} was in use already on that day; was another machine meant?", machine.key));
  }
  if (told.kind == FactKind::out_of_use && !change.changes) {
    said.push_back(fmt::format("{} was out of use already since {}{}", machine.key, service::to_text(*before.since),
                               reasons_of(before.reasons, *before.since)));
  }
  if (told.kind == FactKind::laid_up && before.laid_up) {
    const auto until = [](const std::optional<service::Day>& day) {
      return day ? "until " + service::to_text(*day) : std::string("without an end");
    };
    said.push_back(fmt::format("{} was laid up already since {} {}; {}", machine.key,
                               service::to_text(before.laid_up->since), until(before.laid_up->until),
                               change.changes ? "now " + until(told.until) : "that stays so"));
  }
}

constexpr std::string_view day_has_come =
    "That day has come: it counts as in use again. Do what is due before it works, and read its meters: {whichever} "
    "due --machine {machine}";

int write_use(Context& context, FactKind kind, std::string_view what_follows) {
  const Session session = open_fleet(context);
  const auto& machine = the_machine(*session.fleet, context.arguments.words[0]);
  service::Fact fact = fact_about(context, session, kind, machine);
  if (const auto until = context.arguments.value("until")) fact.until = until_option(*until, session.today);
  if (fact.until && *fact.until <= session.today) what_follows = day_has_come;
  auto record = open_record(context, session.folder, service::Access::write);
  service::UseChange change;
  const auto propose = [&](const service::Extract& known) {
    change = use_change(session.fleet, known, machine, fact);
    return std::vector<service::Proposal>{{fact, false, std::nullopt}};
  };
  Written written = write(context, session, record, request_of(context, session, only(machine), propose));
  tell_what_stood(fact, change, machine, written.entered);
  const bool added = !written.entered.added.empty();
  if (kind == FactKind::back && written.entered.after != nullptr) {
    written.before_work = before_work(*written.entered.after, machine);
    if (change.changes) written.ended = service::MachineUse{&machine, change.before};
  }
  if (added && change.stays_out_of_use) {
    written.next.push_back(fmt::format("It is out of use and stays so, whatever the day, until: {} back {}",
                                       context.look.command, machine.key));
  } else if (added) {
    const auto& before = written.before_work;
    const bool told = before && !(before->points.empty() && before->signs.empty() && before->seen.empty());
    written.next.push_back(fmt::format(fmt::runtime(what_follows), fmt::arg("machine", machine.key),
                                       fmt::arg("whichever", context.look.command),
                                       fmt::arg("what", told ? "these" : "what is due")));
  }
  tell(context, written);
  return 0;
}

}  // namespace

int lay_up(Context& context) {
  return write_use(
      context, FactKind::laid_up,
      context.arguments.has("until")
          ? "From that day it counts as in use again. Its calendar keeps running, its meters need no "
            "reading. If it comes back earlier: {whichever} back {machine}"
          : "Its calendar keeps running, its meters need no reading. When it works again: {whichever} back "
            "{machine}");
}

int out_of_use(Context& context) {
  return write_use(
      context, FactKind::out_of_use,
      "It is shown first wherever it appears. Keep the key away from it. When it is safe again: {whichever} "
      "back {machine}");
}

int back(Context& context) {
  return write_use(context, FactKind::back,
                   "Do {what} before it works, and read its meters: {whichever} due --machine {machine}");
}

}  // namespace cli
