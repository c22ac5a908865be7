// The columns in which facts travel: one list for CSV, JSON Lines and the rules of each kind.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "service/record.h"

namespace service::record {

// In the order in which they are written.
enum class Column {
  kind,
  machine,
  on,
  meter,
  at,
  task,
  position,
  name,
  value,
  unit,
  last,
  first,
  until,
  part,
  found,
  by,
  note,
  sure,
  history,
  id,
  entered,
  entered_by,
  origin,
  batch,
  strikes
};

inline constexpr std::size_t column_count = 25;

constexpr std::size_t index_of(Column column) { return static_cast<std::size_t>(column); }
constexpr Column column_at(std::size_t index) { return static_cast<Column>(index); }

std::string_view to_text(Column column);
std::optional<Column> parse_column(std::string_view name);
std::string nearest_column(std::string_view written, std::string otherwise);  // "did you mean ...?", else that

// The member of a column of free text, nullptr for the others.
std::string Fact::*text_member(Column column);

// True where JSON writes it without quotes.
bool is_number(Column column);

// `yes`, or nothing; in JSON true.
bool is_flag(Column column);

// Whether the fact has anything in that column, and what is written there. A fact without id (number 0) has none of
// the columns that say how it came into the book.
bool has(const Fact& fact, Column column);
std::string text_of(const Fact& fact, Column column);

// Reads the text into the fact. Returns in one clause what is wrong with it, or an empty text. `batch` sets nothing.
std::string set(Fact& fact, Column column, std::string_view text);

}  // namespace service::record
