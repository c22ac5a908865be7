#include "record/kept.h"

#include <algorithm>
#include <set>

#include "record/order.h"
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

  std::optional<KeptState> of(const MachineRow& machine) {
    if (!begun_ || machine.key < at_) begin(machine.key);
    while (there_ && at_ < machine.key) step();
    if (!there_ || at_ != machine.key) return std::nullopt;
    return KeptState{machine.name, told(machine.tally), bytes_at(query_, 1)};
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

void keep(SQLite::Database& database, std::int64_t machine, const std::string& bytes) {
  SQLite::Statement insert(database, "INSERT OR REPLACE INTO derived (machine, state) VALUES (?, ?)");
  insert.bind(1, machine);
  insert.bindNoCopy(2, bytes.data(), static_cast<int>(bytes.size()));
  insert.exec();
}

// A state that cannot be worked out is none: the facts are stored all the same.
std::optional<std::string> worked_out(const StateKeeper& keeper, const MachineRow& machine,
                                      const std::vector<Fact>& unstruck) {
  try {
    return keeper.work_out(machine.name, told(machine.tally), unstruck);
  } catch (const std::exception&) {
    return std::nullopt;
  }
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
    const auto state = row.name.empty() || !row.sealed ? std::nullopt : kept.of(row);
    if (state && take(*state)) {
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
    if (auto state = kept.of(row)) all.push_back(std::move(*state));
  }
  return all;
}

void forget_kept(SQLite::Database& database, const std::vector<std::int64_t>& machines) {
  SQLite::Statement forget(database, "DELETE FROM derived WHERE machine = ?");
  for (const std::int64_t machine : machines) {
    forget.reset();
    forget.bind(1, machine);
    forget.exec();
  }
}

void renew_kept(SQLite::Database& database, const StateKeeper& keeper) {
  std::vector<MachineRow> wanted;
  {
    Kept kept(database);
    for (MachineRow& row : read_machines(database)) {
      if (row.name.empty() || !row.sealed || !keeper.wants(row.name)) continue;
      const auto state = kept.of(row);
      if (!state || !keeper.holds(*state)) wanted.push_back(std::move(row));
    }
  }
  if (wanted.empty()) return;
  FactReader reader(database);
  reader.read_machine("");
  if (!reader.diagnostics.empty()) return;
  const std::set<FactId> voided = struck_by(reader.facts);
  for (const MachineRow& row : wanted) {
    reader.facts.clear();
    reader.read_machine(row.name);
    if (!reader.diagnostics.empty()) {  // nothing is worked out of damaged facts
      reader.diagnostics.clear();
      continue;
    }
    std::erase_if(reader.facts, [&](const Fact& fact) { return voided.contains(fact.id); });
    reader.sort();
    if (const auto bytes = worked_out(keeper, row, reader.facts)) keep(database, row.key, *bytes);
  }
}

}  // namespace service::record
