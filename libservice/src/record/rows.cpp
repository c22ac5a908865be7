#include "record/rows.h"

#include <SQLiteCpp/Column.h>

#include <algorithm>
#include <bit>
#include <limits>

namespace service::record {
namespace {

constexpr const char* columns =
    "command, n, kind, machine, task, first_day, last_day, meter, at, position, name, value, unit, last, first, until, "
    "part, found, by, note, sure, history, strikes, strikes_n, checksum";
constexpr const char* blanks = "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?";

// Reads values of a row, and remembers whether one could not have been stored by us.
class RowReader {
 public:
  explicit RowReader(const SQLite::Statement& row) : row_(row) {}

  bool readable() const { return readable_; }

  std::int64_t number(int column) const { return row_.getColumn(column).getInt64(); }
  std::string text(int column) const { return row_.getColumn(column).getString(); }

  std::optional<std::int64_t> number_if_any(int column) const {
    const SQLite::Column value = row_.getColumn(column);
    if (value.isNull()) return std::nullopt;
    return value.getInt64();
  }

  int small(int column, int least, int most) {
    const std::int64_t value = number(column);
    if (value >= least && value <= most) return static_cast<int>(value);
    readable_ = false;
    return least;
  }

  std::optional<Amount> amount(int column) const {
    const auto value = number_if_any(column);
    if (!value) return std::nullopt;
    return Amount{*value};
  }

  std::optional<Day> day(int column) {
    if (!number_if_any(column)) return std::nullopt;
    return Day{std::chrono::days{small(column, -25567, 84005)}};
  }

  void unreadable() { readable_ = false; }

 private:
  const SQLite::Statement& row_;
  bool readable_ = true;
};

void bind_if_any(SQLite::Statement& insert, int index, std::optional<std::int64_t> value) {
  if (value) {
    insert.bind(index, *value);
  } else {
    insert.bind(index);
  }
}

void bind_amount(SQLite::Statement& insert, int index, std::optional<Amount> amount) {
  bind_if_any(insert, index, amount ? std::optional(amount->hundredths) : std::nullopt);
}

void bind_day(SQLite::Statement& insert, int index, std::optional<Day> day) {
  bind_if_any(insert, index, day ? std::optional<std::int64_t>(day->time_since_epoch().count()) : std::nullopt);
}

}  // namespace

std::string select_facts(const char* rest) { return std::string("SELECT ") + columns + " FROM fact " + rest; }

std::string insert_fact() { return std::string("INSERT INTO fact (") + columns + ") VALUES (" + blanks + ")"; }

RawFact fact_at(const SQLite::Statement& row) {
  RowReader reader(row);
  RawFact raw;
  Fact& fact = raw.fact;
  raw.keys.command = reader.number(0);
  fact.id.number = reader.small(1, 1, std::numeric_limits<int>::max());
  fact.kind = static_cast<FactKind>(reader.small(2, 1, static_cast<int>(kind_count)) - 1);
  raw.keys.machine = reader.number(3);
  raw.keys.task = reader.number(4);
  const auto first_day = reader.day(5);
  const auto last_day = reader.day(6);
  if (first_day && last_day) fact.on = DaySpan(*first_day, *last_day);
  fact.meter = reader.text(7);
  fact.at = reader.amount(8);
  fact.position = reader.text(9);
  fact.name = reader.text(10);
  if (const auto value = reader.number_if_any(11)) fact.value = Measure{*value};
  fact.unit = reader.text(12);
  fact.last = reader.amount(13);
  fact.first = reader.amount(14);
  fact.until = reader.day(15);
  fact.part = reader.text(16);
  if (reader.number_if_any(17)) fact.found = static_cast<Found>(reader.small(17, 1, 3) - 1);
  fact.by = reader.text(18);
  fact.note = reader.text(19);
  fact.sure = reader.small(20, 0, 1) != 0;
  fact.history = reader.small(21, 0, 1) != 0;
  if (!row.getColumn(22).isNull()) {
    const auto command = command_id_at(row, 22);
    if (!command) reader.unreadable();
    fact.strikes = FactId{command.value_or(CommandId{}), reader.small(23, 1, std::numeric_limits<int>::max())};
  }
  raw.keys.checksum = std::bit_cast<std::uint64_t>(reader.number(24));
  raw.readable = reader.readable();
  return raw;
}

void bind_fact(SQLite::Statement& insert, const RowKeys& keys, const Fact& fact) {
  insert.bind(1, keys.command);
  insert.bind(2, std::int64_t{fact.id.number});
  insert.bind(3, static_cast<std::int64_t>(fact.kind) + 1);
  insert.bind(4, keys.machine);
  insert.bind(5, keys.task);
  bind_day(insert, 6, has_day(fact) ? std::optional(fact.on.first) : std::nullopt);
  bind_day(insert, 7, has_day(fact) ? std::optional(fact.on.last) : std::nullopt);
  insert.bindNoCopy(8, fact.meter);
  bind_amount(insert, 9, fact.at);
  insert.bindNoCopy(10, fact.position);
  insert.bindNoCopy(11, fact.name);
  bind_if_any(insert, 12, fact.value ? std::optional(fact.value->millionths) : std::nullopt);
  insert.bindNoCopy(13, fact.unit);
  bind_amount(insert, 14, fact.last);
  bind_amount(insert, 15, fact.first);
  bind_day(insert, 16, fact.until);
  insert.bindNoCopy(17, fact.part);
  bind_if_any(insert, 18, fact.found ? std::optional(static_cast<std::int64_t>(*fact.found) + 1) : std::nullopt);
  insert.bindNoCopy(19, fact.by);
  insert.bindNoCopy(20, fact.note);
  insert.bind(21, fact.sure ? 1 : 0);
  insert.bind(22, fact.history ? 1 : 0);
  if (fact.strikes) {
    bind_command_id(insert, 23, fact.strikes->command);
    insert.bind(24, std::int64_t{fact.strikes->number});
  } else {
    insert.bind(23);
    insert.bind(24);
  }
  insert.bind(25, std::bit_cast<std::int64_t>(keys.checksum));
}

std::optional<CommandId> command_id_at(const SQLite::Statement& row, int column) {
  const SQLite::Column value = row.getColumn(column);
  CommandId id;
  const void* const blob = value.getBlob();
  if (blob == nullptr || value.getBytes() != static_cast<int>(id.bytes.size())) return std::nullopt;
  std::copy_n(static_cast<const std::uint8_t*>(blob), id.bytes.size(), id.bytes.begin());
  return id;
}

void bind_command_id(SQLite::Statement& statement, int index, const CommandId& id) {
  statement.bind(index, id.bytes.data(), static_cast<int>(id.bytes.size()));
}

}  // namespace service::record
