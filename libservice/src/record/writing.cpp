#include "record/writing.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "record/checksum.h"
#include "record/errors.h"
#include "record/kept.h"
#include "record/opening.h"
#include "record/rules.h"
#include "record/steps.h"

namespace service::record {
namespace {

[[noreturn]] void contradiction(const Fact& fact, const char* what) {
  throw Failure(FailureKind::bad_data,
                {"contradicting-fact", fmt::format("fact {} is known already with another {}", to_text(fact.id), what),
                 "a fact is never edited: take the file as it was exported, and strike what is wrong"});
}

bool same_entry(const Fact& a, const Fact& b) {
  return a.entered == b.entered && a.entered_by == b.entered_by && a.origin == b.origin;
}

void check(const std::vector<Fact>& facts) {
  std::vector<Diagnostic> wrong;
  for (const Fact& fact : facts) {
    for (Diagnostic& diagnostic : wrong_with(fact)) wrong.push_back(std::move(diagnostic));
  }
  if (!wrong.empty()) throw Failure(FailureKind::bad_data, std::move(wrong));
}

}  // namespace

FactWriter::FactWriter(SQLite::Database& database, const RecordProgress* watch)
    : database_(database),
      watch_(watch),
      insert_fact_(database, insert_fact()),
      find_fact_(database, select_facts("WHERE command = ? AND n = ?")),
      machine_rows_(database),
      book_(read_book(database)) {
  if (!book_.sealed) throw Failure(FailureKind::bad_data, damaged_book());
  next_machine_ = number_from(database, "SELECT ifnull(max(key), 0) + 1 FROM machine");
}

FactWriter::Command FactWriter::command_of(const Fact& fact) {
  SQLite::Statement find(database_, "SELECT key, entered, entered_by, origin FROM command WHERE id = ?");
  bind_command_id(find, 1, fact.id.command);
  if (find.executeStep()) {
    Fact stored;
    stored.entered = find.getColumn(1).getInt64();
    stored.entered_by = find.getColumn(2).getString();
    stored.origin = find.getColumn(3).getString();
    if (!same_entry(stored, fact)) contradiction(fact, "`entered`, `entered-by` or `origin`");
    return {find.getColumn(0).getInt64(), false};
  }
  SQLite::Statement insert(database_,
                           "INSERT INTO command (id, entered, entered_by, origin, from_copy) VALUES (?, ?, ?, ?, ?)");
  bind_command_id(insert, 1, fact.id.command);
  insert.bind(2, fact.entered);
  insert.bind(3, fact.entered_by);
  insert.bind(4, fact.origin);
  insert.bind(5, fact.from_copy ? 1 : 0);
  insert.exec();
  return {database_.getLastInsertRowid(), true};
}

bool FactWriter::is_stored(const Command& command, const Fact& fact, std::uint64_t checksum) {
  if (command.is_new) return false;
  find_fact_.reset();
  find_fact_.bind(1, command.key);
  find_fact_.bind(2, std::int64_t{fact.id.number});
  const bool found = find_fact_.executeStep();
  const std::uint64_t stored = found ? fact_at(find_fact_).keys.checksum : 0;
  find_fact_.reset();
  if (found && stored != checksum) contradiction(fact, "content");
  return found;
}

MachineRow& FactWriter::machine_of(const std::string& name) {
  const auto [at, is_new] = machines_.try_emplace(name);
  MachineRow& row = at->second;
  if (!is_new) return row;
  if (auto known = machine_rows_.find(name)) {
    if (!known->sealed) throw Failure(FailureKind::bad_data, damaged_machine(name));
    row = std::move(*known);
    return row;
  }
  row.key = next_machine_++;
  row.name = name;
  machine_rows_.write(row);
  ++book_.machines;
  return row;
}

std::int64_t FactWriter::task_of(const std::string& name) {
  const auto [at, is_new] = tasks_.try_emplace(name);
  if (!is_new) return at->second;
  SQLite::Statement find(database_, "SELECT key FROM task WHERE name = ?");
  find.bind(1, name);
  if (find.executeStep()) {
    at->second = find.getColumn(0).getInt64();
  } else {
    SQLite::Statement insert(database_, "INSERT INTO task (name) VALUES (?)");
    insert.bind(1, name);
    insert.exec();
    at->second = database_.getLastInsertRowid();
  }
  return at->second;
}

void FactWriter::store(const Command& command, const Fact& fact, std::uint64_t checksum) {
  MachineRow& machine = machine_of(fact.machine);
  insert_fact_.reset();
  bind_fact(insert_fact_, {command.key, machine.key, task_of(fact.task), checksum}, fact);
  insert_fact_.exec();
  machine.tally.count(fact, checksum);
  book_.tally.count(fact, checksum);
  if (fact.strikes) touch_struck(fact.id, fact.strikes);
}

// A strike changes what is known of the machine of the fact that it strikes, or of which it strikes a strike. One that
// is not later than its target counts for nothing, so the way is never round.
void FactWriter::touch_struck(FactId strike, std::optional<FactId> target) {
  SQLite::Statement find(database_,
                         "SELECT fact.machine, fact.strikes, fact.strikes_n FROM fact "
                         "JOIN command ON command.key = fact.command WHERE command.id = ? AND fact.n = ?");
  while (target && *target < strike) {
    strike = *target;
    target.reset();
    find.reset();
    bind_command_id(find, 1, strike.command);
    find.bind(2, std::int64_t{strike.number});
    if (!find.executeStep()) return;
    touched_.insert(find.getColumn(0).getInt64());
    if (const auto next = command_id_at(find, 1)) target = FactId{*next, find.getColumn(2).getInt()};
  }
}

void FactWriter::finish() {
  for (const auto& [name, row] : machines_) {
    machine_rows_.write(row);
    touched_.insert(row.key);
  }
  forget_kept(database_, {touched_.begin(), touched_.end()});
  write_book(database_, book_);
}

std::vector<MachineRow> FactWriter::machines_after(const std::vector<MachineRow>& before) const {
  std::vector<MachineRow> rows = before;
  std::unordered_map<std::string_view, const MachineRow*> written;
  for (const auto& [name, row] : machines_) written.emplace(name, &row);
  for (MachineRow& row : rows) {
    const auto found = written.find(row.name);
    if (found == written.end()) continue;
    row = *found->second;
    written.erase(found);
  }
  for (const auto& [name, row] : written) rows.push_back(*row);
  std::sort(rows.begin(), rows.end(), [](const MachineRow& a, const MachineRow& b) { return a.key < b.key; });
  return rows;
}

std::vector<Fact> FactWriter::add(std::vector<Fact> wanted) {
  check(wanted);
  std::vector<std::size_t> order(wanted.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto by_id = [&](std::size_t a, std::size_t b) { return wanted[a].id < wanted[b].id; };
  if (!std::is_sorted(order.begin(), order.end(), by_id)) std::stable_sort(order.begin(), order.end(), by_id);

  std::vector<bool> is_added(wanted.size(), false);
  Command command;
  const Fact* last = nullptr;
  Steps steps(watch_, RecordWork::storing, wanted.size());
  for (const std::size_t i : order) {
    steps.next();
    const Fact& fact = wanted[i];
    if (last != nullptr && last->id == fact.id) {
      if (!same_content(*last, fact) || !same_entry(*last, fact)) contradiction(fact, "content in the same file");
      continue;
    }
    if (last == nullptr || last->id.command != fact.id.command) {
      command = command_of(fact);
    } else if (!same_entry(*last, fact)) {
      contradiction(fact, "`entered`, `entered-by` or `origin` in the same file");
    }
    last = &fact;
    const std::uint64_t checksum = checksum_of(fact);
    if (is_stored(command, fact, checksum)) continue;
    store(command, fact, checksum);
    is_added[i] = true;
  }

  std::size_t added = 0;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (!is_added[i]) continue;
    if (added != i) wanted[added] = std::move(wanted[i]);
    ++added;
  }
  wanted.resize(added);
  if (added != 0) finish();
  return wanted;
}

}  // namespace service::record
