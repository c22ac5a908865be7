// A snapshot of what is left of each machine's facts, in place of the snapshot of all of them.
#pragma once

#include <algorithm>
#include <memory>
#include <set>
#include <string>
#include <utility>

#include "service/machine_book.h"
#include "service/snapshot.h"

namespace test {

struct CondensedSnapshot {
  service::Snapshot snapshot;
  int machines = 0;          // that were condensed
  std::size_t left_out = 0;  // facts
};

// `machines`: all that facts may be about. `on`: the day that is asked about, at or after that of `whole`. A machine
// with facts after that of `whole`, or that is yet to come, is left as it is.
inline CondensedSnapshot condense(const service::Snapshot& whole, const std::set<std::string>& machines,
                                  service::Day on) {
  service::Extract extract;
  int condensed = 0;
  std::size_t left_out = 0;
  for (const std::string& key : machines) {
    const auto facts = whole.facts_of(key);
    const service::Machine* machine = whole.fleet().machine(key);
    const bool to_come =
        machine != nullptr && machine->start.kind != service::StartKind::unknown && on < machine->start.on.first;
    if (machine == nullptr || to_come) {
      extract.facts.insert(extract.facts.end(), facts.begin(), facts.end());
      continue;
    }
    auto all = service::condensed(whole.fleet(), *machine, facts);
    ++condensed;
    left_out += facts.size() - all.facts.size();
    extract.facts.insert(extract.facts.end(), all.facts.begin(), all.facts.end());
    extract.derived.emplace(key, std::make_shared<const service::Derived>(std::move(all.derived)));
  }
  extract.newest = whole.newest_fact();
  return {service::Snapshot(whole.fleet_ptr(), std::move(extract), on, whole.day_is_given(), whole.scope()), condensed,
          left_out};
}

}  // namespace test
