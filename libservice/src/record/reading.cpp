#include "record/reading.h"

#include <SQLiteCpp/Exception.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>

#include "record/checksum.h"
#include "record/errors.h"
#include "record/kept.h"
#include "record/order.h"
#include "record/steps.h"

namespace service::record {

FactReader::FactReader(SQLite::Database& database, const RecordProgress* watch)
    : database_(database),
      watch_(watch),
      command_query_(database, "SELECT id, entered, entered_by, origin, from_copy FROM command WHERE key = ?"),
      task_query_(database, "SELECT name FROM task WHERE key = ?") {}

void FactReader::note(std::string code, std::string message) {
  diagnostics.push_back(damaged(std::move(code), std::move(message)));
}

const std::string& FactReader::task_name(std::int64_t key) {
  const auto [at, is_new] = task_names_.try_emplace(key);
  if (is_new) {
    task_query_.reset();
    task_query_.bind(1, key);
    // A missing name stays empty, and the checksums of its facts will not agree.
    if (task_query_.executeStep()) at->second = task_query_.getColumn(0).getString();
    task_query_.reset();
  }
  return at->second;
}

bool FactReader::add_command(std::int64_t key, Fact& fact) {
  if (key != command_key_) {
    command_key_ = 0;
    command_query_.reset();
    command_query_.bind(1, key);
    if (!command_query_.executeStep()) return false;
    const auto id = command_id_at(command_query_, 0);
    if (!id) return false;
    command_.id.command = *id;
    command_.entered = command_query_.getColumn(1).getInt64();
    command_.entered_by = command_query_.getColumn(2).getString();
    command_.origin = command_query_.getColumn(3).getString();
    command_.from_copy = command_query_.getColumn(4).getInt() != 0;
    command_query_.reset();
    command_key_ = key;
  }
  fact.id.command = command_.id.command;
  fact.entered = command_.entered;
  fact.entered_by = command_.entered_by;
  fact.origin = command_.origin;
  fact.from_copy = command_.from_copy;
  return true;
}

std::optional<Fact> FactReader::whole(RawFact raw, const std::string& machine) {
  Fact& fact = raw.fact;
  fact.machine = machine;
  fact.task = task_name(raw.keys.task);
  const bool has_command = add_command(raw.keys.command, fact);
  if (raw.readable && has_command && checksum_of(fact) == raw.keys.checksum) return std::move(fact);
  note("damaged-fact",
       fmt::format("fact {} about {} is damaged: it does not agree with its checksum",
                   has_command ? to_text(fact.id) : fmt::format("{} of command {}", fact.id.number, raw.keys.command),
                   machine.empty() ? "no machine" : cleaned(machine)));
  return std::nullopt;
}

void FactReader::compare(const Tally& stored, const Tally& seen, const std::string& machine) {
  if (stored == seen) return;
  const std::string whose = machine.empty() ? "no machine" : cleaned(machine);
  if (stored.facts == seen.facts) {
    note("missing-facts", fmt::format("the facts about {} are not those that were stored", whose));
  } else {
    note("missing-facts", fmt::format("the record holds {} about {}, and {} were stored",
                                      counted(seen.facts, "fact", "facts"), whose, stored.facts));
  }
}

std::vector<MachineRow> FactReader::machines() {
  std::vector<MachineRow> rows = read_machines(database_);
  if (verified_machines_) return rows;
  verified_machines_ = true;
  Tally sum;
  for (const MachineRow& row : rows) {
    sum.count(row.tally);
    if (!row.sealed) diagnostics.push_back(damaged_machine(row.name));
  }
  const BookRow book = read_book(database_);
  if (!book.sealed) {
    diagnostics.push_back(damaged_book());
  } else if (const auto seen = static_cast<std::int64_t>(rows.size()); seen != book.machines) {
    note("missing-machines",
         fmt::format("the record holds {}, and {} were stored", counted(seen, "machine", "machines"), book.machines));
  } else if (book.tally != sum) {
    note("missing-facts", "the facts of the machines do not add up to those of the whole book");
  }
  return rows;
}

void FactReader::load_machines() {
  for (MachineRow& row : machines()) seen_.push_back({std::move(row), {}});
}

void FactReader::scan(SQLite::Statement& query) {
  std::int64_t stored = 0;
  for (const Seen& seen : seen_) stored += seen.row.tally.facts;
  // A damaged tally must not ask for all the memory there is.
  facts.reserve(static_cast<std::size_t>(std::clamp<std::int64_t>(stored, 0, 1 << 20)));
  Steps steps(watch_, RecordWork::reading, static_cast<std::size_t>(std::max<std::int64_t>(stored, 0)));
  while (query.executeStep()) {
    steps.next();
    RawFact raw = fact_at(query);
    last_ = {raw.keys.command, raw.fact.id.number};
    const auto at = std::lower_bound(seen_.begin(), seen_.end(), raw.keys.machine,
                                     [](const Seen& seen, std::int64_t key) { return seen.row.key < key; });
    const bool is_known = at != seen_.end() && at->row.key == raw.keys.machine;
    const std::uint64_t checksum = raw.keys.checksum;
    auto fact = whole(std::move(raw), is_known ? at->row.name : std::string());
    if (!fact) continue;
    if (is_known) at->tally.count(*fact, checksum);
    facts.push_back(std::move(*fact));
  }
}

void FactReader::compare_all() {
  for (const Seen& seen : seen_) compare(seen.row.tally, seen.tally, seen.row.name);
}

void FactReader::scan_forwards() {
  SQLite::Statement query(database_, select_facts("NOT INDEXED ORDER BY command, n"));
  scan(query);
}

// Back to where the way forwards ended.
void FactReader::scan_backwards() {
  SQLite::Statement query(database_,
                          select_facts("NOT INDEXED WHERE (command, n) > (?, ?) ORDER BY command DESC, n DESC"));
  query.bind(1, last_.first);
  query.bind(2, std::int64_t{last_.second});
  scan(query);
}

void FactReader::read_all() {
  load_machines();
  scan_forwards();
  compare_all();
}

// Whether it could be done. Where the file is damaged, that is noted.
template <class Action>
bool FactReader::past_damage(Action&& action) {
  try {
    action();
    return true;
  } catch (const SQLite::Exception& error) {
    if ((error.getErrorCode() & 0xff) != SQLITE_CORRUPT) throw;
    const bool is_told = std::any_of(diagnostics.begin(), diagnostics.end(),
                                     [](const Diagnostic& told) { return told.code == "damaged-pages"; });
    if (!is_told) note("damaged-pages", "a part of the record cannot be read");
    return false;
  }
}

void FactReader::read_legible() {
  past_damage([&] {
    SQLite::Statement check(database_, "PRAGMA integrity_check(1)");
    if (!check.executeStep() || check.getColumn(0).getString() != "ok") {
      note("damaged-pages", "the structure of the record is damaged");
    }
  });
  const bool has_machines = past_damage([&] { load_machines(); });
  const bool is_read = past_damage([&] { scan_forwards(); });
  if (!is_read) past_damage([&] { scan_backwards(); });
  if (has_machines && is_read) compare_all();
}

KeptBeside FactReader::read_beside() {
  KeptBeside kept;
  past_damage([&] { kept.states = read_kept(database_); });
  past_damage([&] { kept.groups = read_groups(database_); });
  return kept;
}

// By the table, read from end to end: once, however many machines are asked for.
bool FactReader::is_listed(std::string_view machine) {
  if (!listed_) {
    listed_.emplace().rows = machines();
    listed_->names.reserve(listed_->rows.size());
    for (const MachineRow& row : listed_->rows) listed_->names.insert(row.name);
  }
  return listed_->names.contains(machine);
}

const std::vector<MachineRow>* FactReader::listed() const { return listed_ ? &listed_->rows : nullptr; }

void FactReader::read_machine(std::string_view name) {
  if (!machine_rows_) machine_rows_.emplace(database_);
  const auto row = machine_rows_->find(name);
  if (!row) {
    // Nothing is recorded of it, or the way to it is damaged.
    if (is_listed(name)) {
      note("damaged-machine", fmt::format("the row of machine {} cannot be found by its name", cleaned(name)));
    }
    return;
  }
  if (!row->sealed || row->name != name) diagnostics.push_back(damaged_machine(name));
  if (!machine_query_) {
    machine_query_.emplace(database_, select_facts("WHERE machine = ?"));
  }
  SQLite::Statement& query = *machine_query_;
  query.reset();
  query.bind(1, row->key);
  Tally counted;
  while (query.executeStep()) {
    RawFact raw = fact_at(query);
    const std::uint64_t checksum = raw.keys.checksum;
    if (auto fact = whole(std::move(raw), row->name)) {
      counted.count(*fact, checksum);
      facts.push_back(std::move(*fact));
    }
  }
  query.reset();
  compare(row->tally, counted, row->name);
}

void FactReader::sort() { put_in_order(facts); }

}  // namespace service::record
