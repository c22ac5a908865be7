// The book read again beside the fleet files of today.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "service/snapshot.h"
#include "snapshot/judge_names.h"

namespace service {
namespace {

JudgedAgain unlisted(const Fleet& fleet, const Fact& first, int facts) {
  std::vector<std::string> names;
  for (const Machine& machine : fleet.machines) names.push_back(machine.key);
  const std::string near = did_you_mean(first.machine, names);
  return {first.id,
          {"unlisted-machine",
           fmt::format("{} about `{}`, which the fleet does not list", counted(facts, "fact", "facts"),
                       cleaned(first.machine)),
           (near.empty() ? "" : near + " ") + "list the machine again, with `left:` if it is gone"}};
}

}  // namespace

std::vector<JudgedAgain> judge_again(const Fleet& fleet, const std::vector<Fact>& facts, Day today) {
  std::vector<JudgedAgain> wrong;
  std::map<std::string, std::pair<Fact, int>> unknown_machines;
  const std::vector<Fact> standing = unstruck(facts);
  WhatWasSeen seen(fleet);
  for (const Fact& fact : standing) seen.add(fact);
  for (const Fact& fact : standing) {
    if (fact.kind == FactKind::strike || fact.on.first > today) continue;  // those are not there yet
    if (!fact.machine.empty() && fleet.machine(fact.machine) == nullptr) {
      ++unknown_machines.try_emplace(fact.machine, fact, 0).first->second.second;
      continue;
    }
    Fact copy = fact;               // the judge completes what it looks at
    std::vector<std::string> said;  // what is kept as seen, and is on the due list
    if (auto what = judge_names(fleet, copy, today, seen, said)) wrong.push_back({fact.id, std::move(*what)});
  }
  for (const auto& [machine, told] : unknown_machines) wrong.push_back(unlisted(fleet, told.first, told.second));
  return wrong;
}

}  // namespace service
