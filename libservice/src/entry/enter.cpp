// Judge, stamp, store, compare: one transaction, and then what it changed.
#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <iterator>
#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <unordered_set>
#include <utility>

#include "entry/added_ids.h"
#include "entry/against_stop.h"
#include "entry/ended_doubts.h"
#include "entry/first_values.h"
#include "entry/meters_counted.h"
#include "entry/refused_values.h"
#include "entry/untold_values.h"
#include "service/entry.h"
#include "service/in_scope.h"
#include "service/kept_books.h"

namespace service {
namespace {

int line_of(const Diagnostic& diagnostic) { return diagnostic.place ? diagnostic.place->line : 0; }

// What was not read and what was refused, in the order of the file's lines.
std::vector<Diagnostic> all_wrong(const std::vector<Diagnostic>& unread, std::vector<Diagnostic> refused) {
  refused.insert(refused.begin(), unread.begin(), unread.end());
  std::stable_sort(refused.begin(), refused.end(),
                   [](const Diagnostic& a, const Diagnostic& b) { return line_of(a) < line_of(b); });
  return refused;
}

// One mistyped value may concern several facts of a command; it is said once. Rows of a file are each said.
std::vector<Diagnostic> once_each(std::vector<Diagnostic> wrong) {
  std::set<std::string> said;
  std::erase_if(wrong, [&](const Diagnostic& diagnostic) {
    return !diagnostic.place && !said.insert(diagnostic.message).second;
  });
  return wrong;
}

[[noreturn]] void refuse(std::vector<Diagnostic> wrong) {
  // A name that somebody mistypes is his slip; in a file it is the file that is wrong.
  const bool mistyped = std::all_of(wrong.begin(), wrong.end(), [](const Diagnostic& diagnostic) {
    return !diagnostic.place && diagnostic.code.starts_with("unknown-");
  });
  throw Failure(mistyped ? FailureKind::usage : FailureKind::bad_data, once_each(std::move(wrong)));
}

// Facts of a machine that was not read would be judged as if it had none.
void insist_on_scope(const Scope& scope, const std::vector<Proposal>& proposals) {
  const InScope in_scope(scope);
  for (const Proposal& proposal : proposals) {
    if (in_scope.holds(proposal.fact.machine)) continue;
    throw Failure(FailureKind::internal,
                  {"scope-too-small", fmt::format("a fact about {} is outside of what was read", proposal.fact.machine),
                   "name all machines that the facts are about"});
  }
}

// The machines that facts are about: of a strike, those of the struck fact.
std::vector<std::string> machines_of(const std::vector<Fact>& added, const std::vector<Fact>& known) {
  std::unordered_set<std::string_view> machines;
  std::map<FactId, const Fact*> by_id;  // the book, once a strike asks
  std::vector<const Fact*> open;
  const auto take = [&](const Fact& fact) {
    if (!fact.machine.empty()) machines.insert(fact.machine);
    if (!fact.strikes) return;
    if (by_id.empty()) {
      for (const Fact& each : known) by_id.emplace(each.id, &each);
    }
    const auto target = by_id.find(*fact.strikes);
    if (target != by_id.end() && target->first < fact.id) open.push_back(target->second);
  };
  for (const Fact& fact : added) take(fact);
  while (!open.empty()) {
    const Fact* fact = open.back();
    open.pop_back();
    take(*fact);
  }
  std::vector<std::string> names(machines.begin(), machines.end());
  std::sort(names.begin(), names.end());
  return names;
}

// What is to be looked at on a list, to be compared with another one.
class SeenOn {
 public:
  explicit SeenOn(const DueList& list) {
    for (const SeenSign& one : list.seen) by_fact_.emplace(one.fact, &one);
  }

  bool holds(const SeenSign& one) const {
    const auto [from, to] = by_fact_.equal_range(one.fact);
    return std::any_of(from, to, [&](const auto& other) {
      return other.second->found == one.found && other.second->looked_on == one.looked_on;
    });
  }

 private:
  std::multimap<FactId, const SeenSign*> by_fact_;
};

std::vector<SeenSign> only_in(const DueList& these, const DueList& those) {
  const SeenOn others(those);
  std::vector<SeenSign> found;
  std::copy_if(these.seen.begin(), these.seen.end(), std::back_inserter(found),
               [&](const SeenSign& one) { return !others.holds(one); });
  return found;
}

// Machine and name of all that these facts say is to be kept as seen of the machines on the list.
std::set<std::pair<std::string, std::string>> kept_by(const std::vector<Fact>& facts, const DueList& list) {
  std::map<std::string_view, KeptAsSeen> by_machine;
  for (const SeenSign& one : list.seen) by_machine.try_emplace(one.machine->key, *list.fleet, *one.machine);
  std::set<std::pair<std::string, std::string>> names;
  if (by_machine.empty()) return names;
  for (const Fact& fact : facts) {
    const auto of_machine = by_machine.find(fact.machine);
    if (of_machine == by_machine.end()) continue;
    if (const auto kept = of_machine->second.of(fact)) names.emplace(fact.machine, kept->name);
  }
  return names;
}

// What is to be looked at after these facts: what was not before, or not so, and what they say again.
std::vector<SeenSign> to_be_looked_at(const std::vector<Fact>& added, const DueList& before, const DueList& after) {
  const auto said = kept_by(added, after);
  const SeenOn was(before);
  std::vector<SeenSign> seen;
  for (const SeenSign& one : after.seen) {
    if (!was.holds(one) || said.contains({one.machine->key, one.sign})) seen.push_back(one);
  }
  return seen;
}

using MeterName = std::pair<std::string_view, std::string_view>;  // of which machine, and its own

// Of services without a value: they count by this meter, from what it shows.
bool counts_from(const Fleet& fleet, const Fact& service, const Gap& doubted) {
  const Machine* machine = fleet.machine(service.machine);
  if (service.kind != FactKind::service || service.at || machine == nullptr || service.machine != doubted.machine)
    return false;
  const bool is_behind = !doubted.since || service.on.last >= *doubted.since;
  return is_behind && meters_counted(fleet, *machine, service.task).contains(doubted.meter);
}

// Those of which a value is hard to believe, and of which these facts show one, or from which they count.
std::set<MeterName> doubted_meters_read(const DueList& list, const std::vector<Fact>& facts) {
  std::set<MeterName> read;
  for (const Gap& gap : list.gaps) {
    if (gap.kind != GapKind::doubtful) continue;
    const bool is_read = std::any_of(facts.begin(), facts.end(), [&](const Fact& fact) {
      const bool shows = fact.kind == FactKind::reading || fact.kind == FactKind::service;
      const bool is_its = shows && fact.at && fact.machine == gap.machine && fact.meter == gap.meter;
      return is_its || counts_from(*list.fleet, fact, gap);
    });
    if (is_read) read.insert({gap.machine, gap.meter});
  }
  return read;
}

// Reads what is not read yet of a scope into what is known.
void read_more(const Scope& scope, const Record& record, Extract& known) {
  if (!known.read.machines) return;
  const InScope is_read(known.read);
  Scope more{std::vector<std::string>{}};
  for (const std::string& machine : *scope.machines) {
    if (!is_read.holds(machine)) more.machines->push_back(machine);
  }
  if (more.machines->empty()) return;
  std::vector<Fact> facts = record.facts(more);
  std::erase_if(facts, [](const Fact& fact) { return fact.machine.empty(); });  // those are in every scope
  const auto at_end = static_cast<std::ptrdiff_t>(known.facts.size());
  std::move(facts.begin(), facts.end(), std::back_inserter(known.facts));
  std::inplace_merge(known.facts.begin(), known.facts.begin() + at_end, known.facts.end(), before);
  known.read.machines->insert(known.read.machines->end(), more.machines->begin(), more.machines->end());
}

// Whether the value of a fact is the first that is known of a meter.
bool shows_first(const Fleet& fleet, const Fact& fact, std::span<const Fact> known) {
  const Machine* machine = fleet.machine(fact.machine);
  return machine != nullptr && std::any_of(machine->meters.begin(), machine->meters.end(), [&](const Meter& meter) {
           return shown_by(fact, *machine, meter) && meter_events(*machine, meter, known).empty();
         });
}

// Other machines of a kind are asked what they have run where something is the first that is known of a meter
// (`high_first_values`), and what is open on them where a look was at nothing (`looks_at_nothing`).
bool asks_its_kind(const Fleet& fleet, const std::vector<Fact>& to_store, const std::vector<Fact>& known) {
  std::map<std::string_view, std::vector<Fact>> by_machine;
  for (const Fact& fact : to_store) {
    if (fact.kind == FactKind::looked_at) return true;
    by_machine[fact.machine];
  }
  for (Fact& fact : unstruck(known)) {
    if (const auto found = by_machine.find(fact.machine); found != by_machine.end()) {
      found->second.push_back(std::move(fact));
    }
  }
  return std::any_of(to_store.begin(), to_store.end(),
                     [&](const Fact& fact) { return shows_first(fleet, fact, by_machine.find(fact.machine)->second); });
}

// What was learnt when the facts were stored, of the kinds of which no fact is later than the day: of such a day other
// things are known.
LearntKinds known_on(Day day, LearntKinds learnt, const Fleet& fleet,
                     std::initializer_list<std::span<const Fact>> all) {
  for (const auto& facts : all) {
    for (const Fact& fact : facts) {
      if (!has_day(fact) || fact.on.first <= day) continue;
      const Machine* machine = fleet.machine(fact.machine);
      if (machine != nullptr) learnt.erase(machine->schedule);
    }
  }
  return learnt;
}

// `keeper`: who has seen what was added.
void compare(const std::shared_ptr<const Fleet>& fleet, const EntryRequest& request, const Record& record,
             BookKeeper& keeper, Extract& known, Entered& entered) {
  constexpr std::chrono::days horizon{30};
  entered.machines = machines_of(entered.added, known.facts);
  const Scope scope{entered.machines};
  LearntKinds kinds = known_on(request.today, keeper.learnt(), *fleet, {known.facts, entered.added});
  read_more(kin_of(*fleet, scope, kinds), record, known);
  Extract with_added{{}, known.read, known.newest};
  with_added.facts.reserve(known.facts.size() + entered.added.size());
  with_added.facts.insert(with_added.facts.end(), known.facts.begin(), known.facts.end());
  with_added.facts.insert(with_added.facts.end(), entered.added.begin(), entered.added.end());
  with_added.kinds = std::move(kinds);
  with_added.derived_beside = keeper.take_worked_out_on(request.today);
  entered.was = std::make_shared<const Snapshot>(fleet, known, request.today, request.day_is_given, scope);
  entered.is =
      std::make_shared<const Snapshot>(fleet, std::move(with_added), request.today, request.day_is_given, scope);
  DueAsk ask{request.today + horizon, {}, Detail::coming};
  const auto half = [&request](bool second) -> Progress {
    if (!request.comparing) return {};
    return [&request, second](std::size_t done, std::size_t all) {
      request.comparing(done + (second ? all : 0), 2 * all);
    };
  };
  ask.progress = half(false);
  entered.before = std::make_shared<const DueList>(due_list(*entered.was, ask));
  ask.progress = half(true);
  entered.after = std::make_shared<const DueList>(due_list(*entered.is, ask));
  entered.changes = difference(*entered.before, *entered.after);
  entered.moves = heading_changes(*entered.before, *entered.after);
  entered.seen = to_be_looked_at(entered.added, *entered.before, *entered.after);
  entered.answered = only_in(*entered.before, *entered.after);
  const AddedIds fresh(entered.added);
  const auto meters_read = doubted_meters_read(*entered.after, entered.added);
  for (const Gap& gap : entered.after->gaps) {
    if (gap.kind != GapKind::doubtful) continue;
    const bool is_new =
        std::any_of(gap.facts.begin(), gap.facts.end(), [&](const FactId& fact) { return fresh.contains(fact); });
    // What is newly in doubt is always told: a strike may take back that somebody was sure.
    const bool was_doubted = is_doubted(*entered.before, gap.facts.front());
    if (was_doubted && !is_new && !meters_read.contains({gap.machine, gap.meter})) continue;
    entered.doubts.push_back(gap);
    if (!was_doubted && !fresh.contains(gap.facts.front())) entered.newly_doubted.push_back(gap.facts.front());
  }
  entered.ended_gaps = ended_gaps(*entered.before, *entered.after);
  entered.ended_doubts = ended_doubts(*entered.before, *entered.after, *entered.is);
  entered.high_first_values = high_first_values(entered);
  for (WrittenTwice& twice : written_twice(*entered.is)) {
    const bool is_part = fresh.contains(twice.earlier.id) || fresh.contains(twice.later.id);
    if (is_part) entered.twice.push_back(std::move(twice));
  }
}

// What is left of a judgement to be stored, or the failure that it is.
std::vector<Fact> accepted(Judgement judgement, const EntryRequest& request, Entered& entered) {
  auto wrong = all_wrong(request.unread, std::move(judgement.refused));
  if (!wrong.empty()) {
    if (!request.skip_bad) refuse(std::move(wrong));
    if (request.before_leaving_out) request.before_leaving_out();
  }
  entered.refused = std::move(wrong);
  entered.refused_rows = std::move(judgement.refused_rows);
  entered.already_there = judgement.already_there;
  entered.said = std::move(judgement.said);
  return std::move(judgement.accepted);
}

}  // namespace

Stamp stamp_of(const Writer& writer, std::string origin, std::span<const Proposal> proposals) {
  const std::int64_t now = writer.milliseconds();
  std::int64_t drawn_at = now;
  for (const Proposal& proposal : proposals) {
    if (!proposal.fact.strikes) continue;
    drawn_at = std::max(drawn_at, milliseconds_of(proposal.fact.strikes->command) + 1);
  }
  return {make_command_id(drawn_at, writer.draw()), now, writer.name, std::move(origin)};
}

EntryRequest entry_of(std::string origin, const std::vector<Fact>& facts, Day today, bool day_is_given) {
  std::vector<Proposal> proposals;
  std::set<std::string> machines;
  bool everything = false;
  for (const Fact& fact : facts) {
    proposals.push_back({fact, false, std::nullopt});
    if (!fact.machine.empty()) machines.insert(fact.machine);
    everything = everything || fact.kind == FactKind::strike;  // it may be about any machine
  }
  EntryRequest request;
  request.origin = std::move(origin);
  if (!everything) request.scope.machines.emplace(machines.begin(), machines.end());
  request.propose = [proposals = std::move(proposals)](const Extract&) { return proposals; };
  request.today = today;
  request.day_is_given = day_is_given;
  return request;
}

Entered enter(const std::shared_ptr<const Fleet>& fleet, Record& record, const EntryRequest& request,
              const Writer& writer) {
  Entered entered;
  entered.today = request.today;
  entered.dry_run = request.dry_run;
  // What is expected after a fact is what the due list will say: by what is kept of the kind, or the kin is read as
  // well.
  const auto known = std::make_shared<Extract>(Extract{{}, request.scope, std::nullopt});
  std::size_t to_store = 0;
  bool from_file = false;
  std::vector<Proposal> proposals;
  Stamp stamp;
  BookKeeper keeper(*fleet, BookKeeper::Hold::what_is_worked_out);
  const auto decide = [&](const std::vector<Fact>& facts) {
    known->facts = facts;
    known->newest = record.newest_day();
    if (request.scope.machines) {
      known->kinds = kept_kinds(*fleet, record, request.scope, request.today);
      // What is not stored is not learnt with what is stored; nor is what is only proposed.
      const bool learns = request.dry_run || request.asks_ahead;
      read_more(kin_of(*fleet, request.scope, learns ? LearntKinds{} : known->kinds), record, *known);
    }
    proposals = request.propose(*known);
    insist_on_scope(request.scope, proposals);
    entered.own_ids = std::none_of(proposals.begin(), proposals.end(), [](const Proposal& p) { return p.has_id; });
    stamp = stamp_of(writer, request.origin, proposals);
    entry::refuse_looks_and_returns(proposals);
    auto judgement = judge(*fleet, facts, proposals, stamp, request.today);
    if (entry::refuse_lifting(fleet, *known, judgement.accepted, request.today, proposals)) {
      judgement = judge(*fleet, facts, proposals, stamp, request.today);
    }
    put_likelier_first(*fleet, facts, proposals, stamp, request.today, judgement);
    from_file = std::any_of(proposals.begin(), proposals.end(),
                            [](const Proposal& proposal) { return proposal.place || proposal.has_id; });
    auto store = accepted(std::move(judgement), request, entered);
    to_store = store.size();
    if (!request.scope.machines) {
      known->kinds = kept_kinds(*fleet, record, Scope{machines_of(store, facts)}, request.today);
    } else if (asks_its_kind(*fleet, store, facts)) {
      read_more(kin_of(*fleet, request.scope), record, *known);
    }
    if (from_file) proposals = std::vector<Proposal>();  // not asked about any more, and may be many
    return store;
  };
  entered.added = record.append(request.scope, request.dry_run, decide, &keeper);
  // Facts that came with an id of their own may be there from another copy of the record.
  entered.already_there += static_cast<int>(to_store - entered.added.size());
  entered.known = {known, &known->facts};
  try {
    compare(fleet, request, record, keeper, *known, entered);
    if (!from_file) {
      entered.untold = untold_values(entered);
      entered.meters_meant =
          meters_meant(*fleet, known->facts, proposals, stamp, request.today, entered.added, entered.doubts);
    }
  } catch (const std::exception&) {
    if (request.dry_run || entered.added.empty()) throw;
    // Whoever is told only what is wrong would enter the facts again.
    throw Failure(FailureKind::internal, {"stored-not-compared",
                                          "it is stored, but what it changed could not be worked out",
                                          "do not enter it again",
                                          std::nullopt,
                                          Severity::error,
                                          {{CureKind::ask_due_list}}});
  }
  return entered;
}

}  // namespace service
