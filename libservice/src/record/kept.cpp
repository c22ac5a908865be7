#include "record/kept.h"

#include <sqlite3.h>

#include <algorithm>
#include <set>
#include <string_view>
#include <unordered_map>

#include "record/order.h"
#include "record/steps.h"
#include "record/writing.h"
#include "service/in_scope.h"

namespace service::record {

FactTally told(const Tally& tally) {
  FactTally facts{tally.facts, tally.checksums, std::nullopt};
  if (tally.newest) facts.newest = Day{std::chrono::days{static_cast<int>(*tally.newest)}};
  return facts;
}

std::set<FactId> struck_by(const std::vector<Fact>& facts) {
  const std::vector<bool> is_void = struck(facts);
  std::set<FactId> ids;
  for (std::size_t i = 0; i < facts.size(); ++i) {
    if (facts[i].strikes && !is_void[i] && facts[i].id > *facts[i].strikes) ids.insert(*facts[i].strikes);
  }
  return ids;
}

std::string bytes_at(SQLite::Statement& row, int column) {
  const SQLite::Column bytes = row.getColumn(column);
  const auto* const first = static_cast<const char*>(bytes.getBlob());
  return first == nullptr ? std::string() : std::string(first, static_cast<std::size_t>(bytes.getBytes()));
}

namespace {

// Of one machine after the other, in the order of their keys.
class Kept {
 public:
  explicit Kept(SQLite::Database& database)
      : query_(database, "SELECT machine, state FROM derived WHERE machine >= ? ORDER BY machine") {}

  KeptState of(const MachineRow& machine) {
    KeptState kept{machine.name, told(machine.tally), {}};
    if (!begun_ || machine.key < at_) begin(machine.key);
    while (there_ && at_ < machine.key) step();
    if (there_ && at_ == machine.key) kept.bytes = bytes_at(query_, 1);
    return kept;
  }

 private:
  void begin(std::int64_t key) {
    begun_ = true;
    query_.reset();
    query_.bind(1, key);
    step();
  }
  void step() {
    there_ = query_.executeStep();
    if (there_) at_ = query_.getColumn(0).getInt64();
  }

  SQLite::Statement query_;
  bool begun_ = false;
  bool there_ = false;
  std::int64_t at_ = 0;
};

void keep(SQLite::Statement& insert, std::int64_t machine, const std::string& bytes) {
  insert.reset();
  insert.bind(1, machine);
  insert.bindNoCopy(2, bytes.data(), static_cast<int>(bytes.size()));
  insert.exec();
}

// What cannot be worked out is not kept: the facts are stored all the same.
template <class Work>
std::optional<std::string> worked_out(const Work& work) {
  try {
    return work();
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

using Members = std::map<std::string, KeptMember, std::less<>>;  // all machines of which something is recorded

// What this transaction has added. Of a machine new to the record that is all there is, and need not be read back.
class JustAdded {
 public:
  explicit JustAdded(const std::vector<Fact>& added) {
    for (const Fact& fact : added) by_machine_[fact.machine].push_back(&fact);
  }

  bool is_all_of(const MachineRow& row) const {
    const auto found = by_machine_.find(row.name);
    return found != by_machine_.end() && static_cast<std::int64_t>(found->second.size()) == row.tally.facts;
  }

  void copy(const std::string& machine, std::vector<Fact>& facts) const {
    const auto& its = by_machine_.find(machine)->second;
    facts.reserve(its.size());
    for (const Fact* fact : its) facts.push_back(*fact);
  }

 private:
  std::unordered_map<std::string_view, std::vector<const Fact*>> by_machine_;
};

void renew_states(SQLite::Database& database, const StateKeeper& keeper, FactReader& reader,
                  const std::vector<MachineRow>& wanted, const JustAdded& added, Members& members,
                  const RecordProgress* watch) {
  if (wanted.empty()) return;
  reader.facts.clear();
  reader.read_machine("");
  if (!reader.diagnostics.empty()) return;
  const std::set<FactId> voided = struck_by(reader.facts);
  SQLite::Statement insert(database, "INSERT OR REPLACE INTO derived (machine, state) VALUES (?, ?)");
  Steps steps(watch, RecordWork::working_out, wanted.size());
  for (const MachineRow& row : wanted) {
    steps.next();
    reader.facts.clear();
    if (added.is_all_of(row)) {
      added.copy(row.name, reader.facts);
    } else {
      reader.read_machine(row.name);
    }
    if (!reader.diagnostics.empty()) {  // nothing is worked out of damaged facts
      reader.diagnostics.clear();
      continue;
    }
    std::erase_if(reader.facts, [&](const Fact& fact) { return voided.contains(fact.id); });
    reader.sort();
    auto bytes = worked_out([&] { return keeper.work_out(row.name, told(row.tally), reader.facts); });
    if (!bytes) continue;
    keep(insert, row.key, *bytes);
    members.find(row.name)->second.seal = keeper.seal_of({row.name, told(row.tally), std::move(*bytes)});
  }
}

// The states of those of which something is recorded; nothing where one of them does not hold.
std::optional<std::vector<KeptState>> states_of(SQLite::Database& database, const KeptGroup& group) {
  std::vector<std::string> recorded;
  for (const KeptMember& member : group.members) {
    if (member.facts.facts == 0) continue;
    if (!member.seal) return std::nullopt;
    recorded.push_back(member.machine);
  }
  if (recorded.empty()) return std::nullopt;
  return read_kept_of(database, recorded);
}

void forget_group(SQLite::Database& database, const std::string& name) {
  SQLite::Statement forget(database, "DELETE FROM derived_together WHERE name = ?");
  forget.bind(1, name);
  forget.exec();
}

void keep_group(SQLite::Database& database, const std::string& name, const std::string& bytes) {
  SQLite::Statement insert(database, "INSERT OR REPLACE INTO derived_together (name, state) VALUES (?, ?)");
  insert.bind(1, name);
  insert.bindNoCopy(2, bytes.data(), static_cast<int>(bytes.size()));
  insert.exec();
}

// What was read from end to end is not asked for again, and its memory serves for what is read next.
void let_go_of_pages(SQLite::Database& database) { sqlite3_db_release_memory(database.getHandle()); }

// Of groups that there are no more nothing is left.
void renew_groups(SQLite::Database& database, const StateKeeper& keeper, const Members& members) {
  std::set<std::string> there;
  SQLite::Statement names(database, "SELECT name FROM derived_together");
  while (names.executeStep()) there.insert(names.getColumn(0).getString());
  for (KeptGroup& group : keeper.groups()) {
    const bool was_kept = there.erase(group.name) != 0;
    for (KeptMember& member : group.members) {
      if (const auto found = members.find(member.machine); found != members.end()) member = found->second;
    }
    if (was_kept) {
      let_go_of_pages(database);
      group.bytes = read_group(database, group.name);
    }
    if (was_kept && keeper.holds_together(group)) continue;
    const auto states = states_of(database, group);
    const auto bytes = states ? worked_out([&] { return keeper.work_out_together(group, *states); }) : std::nullopt;
    if (bytes) {
      keep_group(database, group.name, *bytes);
    } else if (was_kept) {
      forget_group(database, group.name);
    }
  }
  for (const std::string& name : there) forget_group(database, name);
}

}  // namespace

void read_beside(SQLite::Database& database, FactReader& reader, const Scope& scope, const Take& take) {
  const InScope in_scope(scope);
  Kept kept(database);
  std::set<std::string> left;
  std::set<std::string_view> taken;
  std::int64_t facts = 0;
  std::int64_t facts_left = 0;
  const std::vector<MachineRow> rows = reader.machines();
  for (const MachineRow& row : rows) {
    facts += row.tally.facts;
    if (!in_scope.holds(row.name)) continue;
    if (!row.name.empty() && row.sealed && take(kept.of(row))) {
      taken.insert(row.name);
      continue;
    }
    left.insert(row.name);
    facts_left += row.tally.facts;
  }
  // Most of them are sooner read from one end to the other.
  constexpr std::int64_t few = 4;
  if (!scope.machines && facts_left > facts / few) {
    reader.read_all();
    std::erase_if(reader.facts, [&](const Fact& fact) { return taken.contains(fact.machine); });
  } else {
    for (const std::string& name : left) reader.read_machine(name);
  }
}

std::vector<KeptState> read_kept(SQLite::Database& database) {
  std::vector<KeptState> all;
  Kept kept(database);
  for (const MachineRow& row : read_machines(database)) {
    auto state = kept.of(row);
    if (!state.bytes.empty()) all.push_back(std::move(state));
  }
  return all;
}

std::vector<KeptState> read_kept_of(SQLite::Database& database, const std::vector<std::string>& machines) {
  std::vector<KeptState> states;
  MachineRows rows(database);
  SQLite::Statement query(database, "SELECT state FROM derived WHERE machine = ?");
  for (const std::string& machine : machines) {
    const auto row = rows.find(machine);
    if (!row) continue;
    KeptState& state = states.emplace_back(KeptState{machine, told(row->tally), {}});
    query.bind(1, row->key);
    if (row->sealed && query.executeStep()) state.bytes = bytes_at(query, 0);
    query.reset();
  }
  return states;
}

std::string read_group(SQLite::Database& database, const std::string& name) {
  SQLite::Statement query(database, "SELECT state FROM derived_together WHERE name = ?");
  query.bind(1, name);
  return query.executeStep() ? bytes_at(query, 0) : std::string();
}

std::map<std::string, std::string, std::less<>> read_groups(SQLite::Database& database) {
  std::map<std::string, std::string, std::less<>> groups;
  SQLite::Statement query(database, "SELECT name, state FROM derived_together");
  while (query.executeStep()) groups.emplace(query.getColumn(0).getString(), bytes_at(query, 1));
  return groups;
}

void forget_kept(SQLite::Database& database, const std::vector<std::int64_t>& machines) {
  SQLite::Statement forget(database, "DELETE FROM derived WHERE machine = ?");
  for (const std::int64_t machine : machines) {
    forget.reset();
    forget.bind(1, machine);
    forget.exec();
  }
}

void renew_kept(SQLite::Database& database, const StateKeeper& keeper, FactReader& reader, const FactWriter& writer,
                const std::vector<Fact>& added, const RecordProgress* watch) {
  std::vector<MachineRow> wanted;
  Members members;
  {
    Kept kept(database);
    const auto* const before = reader.listed();
    for (MachineRow& row : before != nullptr ? writer.machines_after(*before) : read_machines(database)) {
      if (row.name.empty()) continue;
      KeptMember& member = members[row.name];
      member = {row.name, told(row.tally)};
      if (!row.sealed || !keeper.wants(row.name)) continue;
      const KeptState state = kept.of(row);
      if (keeper.holds(state)) {
        member.seal = keeper.seal_of(state);
      } else {
        wanted.push_back(std::move(row));
      }
    }
  }
  renew_states(database, keeper, reader, wanted, JustAdded(added), members, watch);
  renew_groups(database, keeper, members);
}

}  // namespace service::record
