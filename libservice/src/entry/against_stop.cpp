#include "entry/against_stop.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>

#include "service/not_to_run.h"
#include "service/told_signs.h"

namespace service::entry {
namespace {

Diagnostic against(const Fact& fact, MustNotRun says, const std::string& what, const char* did,
                   const std::string& named) {
  return {"good-but-not-to-run",
          fmt::format("{}, and its note `{}` {} that the machine must not run; it is not taken", what, fact.note,
                      says == MustNotRun::said ? "says" : "may say"),
          "",
          std::nullopt,
          Severity::error,
          {{CureKind::tell_found,
            {{"machine", fact.machine}, {"did", did}, {"what", named}, {"by", fact.by}, {"note", fact.note}}}}};
}

// Of an old book only what is certain: nobody is there to be asked about each note.
bool counts(MustNotRun says, bool in_file) {
  return says == MustNotRun::said || (says == MustNotRun::may_be_said && !in_file);
}

// Whatever it found: of what is renewed that was the old one.
bool says_against(const Fact& fact, bool in_file) {
  return fact.kind == FactKind::service && counts(stop_told(fact.note).says, in_file);
}

std::optional<Diagnostic> in_look_or_return(const Fact& fact, bool in_file) {
  const MustNotRun says = stop_told(fact.note).says;
  if (fact.kind == FactKind::looked_at && !found_bad(fact) && counts(says, in_file)) {
    return against(fact, says, fmt::format("`{}` of {} is found good", fact.name, fact.machine), "looked", fact.name);
  }
  if (fact.kind == FactKind::back && says == MustNotRun::said) {
    return against(fact, says, fact.machine + " is said to be back", "back", "");
  }
  return std::nullopt;
}

// A judge completes other parts of a fact.
auto key_of(const Fact& fact) {
  return std::tie(fact.machine, fact.task, fact.position, fact.on.first, fact.on.last, fact.note);
}

// All that forbids to run a machine, by name.
std::set<std::string> bans_of(const std::shared_ptr<const Fleet>& fleet, const Extract& known,
                              const std::vector<Fact>& added, Day today, const Scope& scope) {
  Extract with{known.facts, known.read, known.newest};
  with.kinds = known.kinds;
  with.facts.insert(with.facts.end(), added.begin(), added.end());
  const Snapshot then(fleet, std::move(with), today, true, scope);
  const DueList list = due_list(then, {today, {}, Detail::coming});
  std::set<std::string> names;
  for (const RunBan& ban : run_bans(list)) {
    for (const Point* point : ban.points) names.insert(point_label(point->name, point->position));
    for (const SeenSign* seen : ban.seen) names.insert("seen " + seen->sign);
  }
  return names;
}

}  // namespace

void refuse_looks_and_returns(std::vector<Proposal>& proposals) {
  for (Proposal& proposal : proposals) {
    if (proposal.has_id) continue;
    if (auto wrong = in_look_or_return(proposal.fact, proposal.place.has_value())) proposal.wrong = std::move(wrong);
  }
}

bool refuse_lifting(const std::shared_ptr<const Fleet>& fleet, const Extract& known, const std::vector<Fact>& accepted,
                    Day today, std::vector<Proposal>& proposals) {
  const bool in_file =
      std::any_of(proposals.begin(), proposals.end(), [](const Proposal& each) { return each.place.has_value(); });
  std::set<std::string> machines;
  for (const Proposal& proposal : proposals) {
    if (!proposal.has_id && says_against(proposal.fact, in_file)) machines.insert(proposal.fact.machine);
  }
  bool any = false;
  for (const std::string& machine : machines) {
    std::vector<Fact> others;
    std::vector<Fact> against_it;
    for (const Fact& fact : accepted) {
      if (fact.machine == machine || fact.kind == FactKind::strike) {
        (says_against(fact, in_file) && !fact.from_copy ? against_it : others).push_back(fact);
      }
    }
    const Scope scope{std::vector{machine}};
    const auto stands = bans_of(fleet, known, others, today, scope);
    for (const Fact& service : against_it) {
      std::vector<Fact> with = others;
      with.push_back(service);
      const auto left = bans_of(fleet, known, with, today, scope);
      if (std::includes(left.begin(), left.end(), stands.begin(), stands.end())) continue;
      // A check that found it worn or failed puts a ban of its own in the place of the one that asked for it.
      if (found_bad(service) && left.size() >= stands.size()) continue;
      for (Proposal& proposal : proposals) {
        if (proposal.has_id || !says_against(proposal.fact, in_file) || key_of(proposal.fact) != key_of(service))
          continue;
        const std::string label = point_label(service.task, service.position);
        proposal.wrong = against(service, stop_told(service.note).says,
                                 fmt::format("{} of {} would take what forbids to run it off the list", label, machine),
                                 "done", label);
        any = true;
      }
    }
  }
  return any;
}

}  // namespace service::entry
