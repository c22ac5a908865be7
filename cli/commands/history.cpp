// `history`: the book of one machine, struck facts included.
#include "render/history/history.h"

#include <algorithm>
#include <map>

#include "answering.h"
#include "commands/commands.h"
#include "service/entry.h"
#include "service/first.h"
#include "service/usage.h"
#include "session.h"

namespace cli {
namespace {

using service::Fact;
using service::FactKind;

// Facts about the machine, and the strikes that lead to one of them.
std::vector<bool> concerned(const std::vector<Fact>& facts, const std::string& machine) {
  std::map<service::FactId, std::size_t> index;
  for (std::size_t i = 0; i < facts.size(); ++i) index[facts[i].id] = i;
  std::vector<bool> mine(facts.size());
  for (std::size_t i = 0; i < facts.size(); ++i) {
    std::size_t at = i;
    // A strike has a later id than what it strikes, so this walk ends.
    while (facts[at].kind == FactKind::strike && facts[at].strikes && *facts[at].strikes < facts[at].id) {
      const auto next = index.find(*facts[at].strikes);
      if (next == index.end()) break;
      at = next->second;
    }
    mine[i] = facts[at].machine == machine;
  }
  return mine;
}

// What the strike that holds says.
std::string reason(const std::vector<Fact>& facts, const std::vector<bool>& struck, const Fact& fact) {
  for (std::size_t i = 0; i < facts.size(); ++i) {
    const Fact& strike = facts[i];
    if (struck[i] || strike.kind != FactKind::strike || strike.strikes != fact.id) continue;
    std::string text = to_text(strike.on) + " " + strike.origin + " by " + strike.entered_by;
    return strike.note.empty() ? text : text + ": " + strike.note;
  }
  return "";
}

std::map<service::FactId, service::Amount> usages(const service::Machine* machine, const service::Snapshot& snapshot) {
  std::map<service::FactId, service::Amount> found;
  if (machine == nullptr) return found;
  const auto histories = meter_histories(snapshot, *machine);
  for (const Fact& fact : snapshot.facts_of(machine->key)) {
    if (!fact.at || (fact.kind != FactKind::reading && fact.kind != FactKind::service)) continue;
    const auto* meter = fact.meter.empty() ? machine->first_meter() : machine->meter(fact.meter);
    const auto history = meter == nullptr ? histories.end() : histories.find(meter->name);
    if (history == histories.end()) continue;
    const auto usage = history->second.usage_of(fact.id);
    if (usage && *usage != *fact.at) found[fact.id] = *usage;
  }
  return found;
}

// Of the values in a fact that a meter showed, or will show.
std::string unit_of(const Fact& fact, const service::Fleet& fleet) {
  const service::Machine* machine = fleet.machine(fact.machine);
  if (machine == nullptr || !(fact.at || fact.last || fact.first)) return "";
  const service::Meter* meter = fact.kind == FactKind::put_off ? meter_of_delay(fleet, fact)
                                : fact.meter.empty()           ? machine->first_meter()
                                                               : machine->meter(fact.meter);
  return meter == nullptr ? "" : meter->unit;
}

// A machine that the fleet no longer lists still has its book.
std::string named(const Session& session, const service::Record& record, const std::string& written) {
  const auto known = record.machines();
  if (session.fleet->machine(written) == nullptr && std::find(known.begin(), known.end(), written) != known.end()) {
    return written;
  }
  return the_machine(*session.fleet, written).key;
}

}  // namespace

int history(Context& context) {
  const Session session = open_fleet(context);
  const auto record = open_record(session.folder, service::Access::read);
  const std::string key = named(session, record, context.arguments.words[0]);
  const service::Scope scope{std::vector<std::string>{key}};
  const service::Scope kin = service::kin_of(*session.fleet, scope);
  const auto facts = record.facts(kin);
  const service::Snapshot snapshot(session.fleet, {facts, kin, record.newest_day()}, session.today,
                                   session.day_is_given, scope);
  const service::Machine* machine = session.fleet->machine(key);
  const auto struck = service::struck(facts);
  const auto mine = concerned(facts, key);
  const auto by_fact = usages(machine, snapshot);

  Book book{session.fleet, key, session.today, {}, {}};
  if (machine != nullptr) book.state = use_state(snapshot, *machine);
  for (std::size_t i = 0; i < facts.size(); ++i) {
    const Fact& fact = facts[i];
    if (!mine[i] || fact.on.first > session.today) continue;
    // A strike is told beside the fact that it strikes; by itself it stands in the book only when asked for.
    if (fact.kind == FactKind::strike && !context.arguments.has("all")) continue;
    BookLine line;
    line.fact = fact;
    if (const auto usage = by_fact.find(fact.id); usage != by_fact.end()) line.usage = usage->second;
    line.struck = struck[i];
    if (struck[i]) line.struck_because = reason(facts, struck, fact);
    line.meter_unit = unit_of(fact, *session.fleet);
    if (fact.kind == FactKind::put_off) line.shown = shown_at_end(snapshot, fact);
    book.lines.push_back(std::move(line));
  }
  book.left_off = service::keep_first(book.lines, first_option(context.arguments));
  put_answer(context, history_formats, book, book.left_off);
  return 0;
}

}  // namespace cli
