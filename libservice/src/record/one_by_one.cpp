#include "record/one_by_one.h"

#include <algorithm>

namespace service::record {

MachineByMachine::MachineByMachine(SQLite::Database& database)
    : database_(database), reader_(database), kept_query_(database, "SELECT state FROM derived WHERE machine = ?") {
  database.exec("PRAGMA cache_size = -16384");  // each page is asked for a few times at once, and not again
  std::vector<MachineRow> rows = reader_.machines();
  // Strikes and counts are there, whatever they are about.
  if (std::erase_if(rows, [](const MachineRow& row) { return row.name.empty(); }) > 0) reader_.read_machine("");
  std::sort(rows.begin(), rows.end(), [](const MachineRow& a, const MachineRow& b) { return a.name < b.name; });
  names_.reserve(rows.size());
  rows_.reserve(rows.size());
  for (MachineRow& row : rows) {
    rows_.push_back({row.key, told(row.tally)});
    names_.push_back(std::move(row.name));
  }
  insist_on_no_damage();
  voided_ = struck_by(reader_.facts);
}

void MachineByMachine::insist_on_no_damage() {
  if (!reader_.diagnostics.empty()) throw Failure(FailureKind::bad_data, std::move(reader_.diagnostics));
}

std::optional<std::size_t> MachineByMachine::place_of(std::string_view machine) const {
  const auto name = std::lower_bound(names_.begin(), names_.end(), machine);
  if (name == names_.end() || *name != machine) return std::nullopt;
  return static_cast<std::size_t>(name - names_.begin());
}

std::optional<KeptState> MachineByMachine::kept(std::string_view machine) {
  const auto place = place_of(machine);
  if (!place) return std::nullopt;
  KeptState state{names_[*place], rows_[*place].tally, {}};
  kept_query_.reset();
  kept_query_.bind(1, rows_[*place].key);
  if (kept_query_.executeStep()) state.bytes = bytes_at(kept_query_, 0);
  return state;
}

std::vector<Fact> MachineByMachine::unstruck(std::string_view machine) {
  if (!place_of(machine)) return {};  // nothing is recorded of it
  reader_.facts.clear();
  reader_.read_machine(machine);
  insist_on_no_damage();
  std::erase_if(reader_.facts, [&](const Fact& fact) { return voided_.contains(fact.id); });
  reader_.sort();
  return std::move(reader_.facts);
}

}  // namespace service::record
