#include "record/columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "record/times.h"

namespace service::record {
namespace {

constexpr std::array<std::string_view, column_count> names = {
    "kind",    "machine", "on",      "meter",      "at",     "task",  "position", "name", "value",
    "unit",    "last",    "first",   "until",      "part",   "found", "by",       "note", "sure",
    "history", "id",      "entered", "entered-by", "origin", "batch", "strikes"};

// What people call these columns in lists of their own, as `column_name` leaves it.
struct Everyday {
  std::string_view word;
  Column column;
};

constexpr Everyday everyday[] = {
    {"date", Column::on},         {"day", Column::on},       {"datum", Column::on},
    {"done-on", Column::on},      {"read-on", Column::on},   {"hours", Column::at},
    {"hour", Column::at},         {"hrs", Column::at},       {"h", Column::at},
    {"reading", Column::at},      {"stunden", Column::at},   {"meter-reading", Column::at},
    {"vehicle", Column::machine}, {"service", Column::task}, {"job", Column::task},
    {"notes", Column::note},      {"remark", Column::note},  {"remarks", Column::note},
};

// Puts what was parsed where it belongs; the clause of what is wrong, or empty.
template <class T, class Target>
std::string take(const Parsed<T>& parsed, Target& target) {
  if (!parsed) return parsed.problem;
  target = *parsed;
  return {};
}

std::vector<std::string> words(std::size_t count, std::string_view (*word)(std::size_t)) {
  std::vector<std::string> all;
  for (std::size_t i = 0; i < count; ++i) all.emplace_back(word(i));
  return all;
}

std::string set_kind(Fact& fact, std::string_view text) {
  if (const auto kind = parse_fact_kind(text)) {
    fact.kind = *kind;
    return {};
  }
  const auto kinds = words(kind_count, [](std::size_t i) { return service::to_text(static_cast<FactKind>(i)); });
  const std::string near = did_you_mean(text, kinds);
  return near.empty() ? "is no kind of fact" : "is no kind of fact; " + near;
}

std::string set_found(Fact& fact, std::string_view text) {
  const auto found = parse_found(text);
  if (!found) return "must be good, worn or failed";
  fact.found = found;
  return {};
}

std::string set_flag(bool& flag, std::string_view text) {
  if (text != "yes" && text != "no") return "must be yes, or left empty";
  flag = text == "yes";
  return {};
}

std::string set_id(Fact& fact, std::string_view text) {
  const auto id = parse_fact_id(text);
  if (!id) return "is not the id of a fact";
  fact.id = *id;
  return {};
}

std::string set_strikes(Fact& fact, std::string_view text) {
  fact.strikes = parse_fact_id(text);
  return fact.strikes ? "" : "is not the full id of a fact, as `export` and `history` show it";
}

}  // namespace

std::string_view to_text(Column column) { return names[index_of(column)]; }

std::optional<Column> parse_column(std::string_view name) {
  const auto* const at = std::find(names.begin(), names.end(), name);
  if (at == names.end()) return std::nullopt;
  return column_at(static_cast<std::size_t>(at - names.begin()));
}

std::string nearest_column(std::string_view written, std::string otherwise) {
  for (const Everyday& one : everyday) {
    if (one.word == written) return fmt::format("call it `{}`", to_text(one.column));
  }
  const auto all = words(column_count, [](std::size_t i) { return names[i]; });
  return nearest_or(written, all, std::move(otherwise));
}

std::string Fact::*text_member(Column column) {
  switch (column) {
    case Column::machine:
      return &Fact::machine;
    case Column::meter:
      return &Fact::meter;
    case Column::task:
      return &Fact::task;
    case Column::position:
      return &Fact::position;
    case Column::name:
      return &Fact::name;
    case Column::unit:
      return &Fact::unit;
    case Column::part:
      return &Fact::part;
    case Column::by:
      return &Fact::by;
    case Column::note:
      return &Fact::note;
    case Column::entered_by:
      return &Fact::entered_by;
    case Column::origin:
      return &Fact::origin;
    default:
      return nullptr;
  }
}

bool is_number(Column column) {
  return column == Column::at || column == Column::value || column == Column::last || column == Column::first;
}

bool is_flag(Column column) { return column == Column::sure || column == Column::history; }

bool has(const Fact& fact, Column column) {
  if (std::string Fact::*const member = text_member(column)) return !(fact.*member).empty();
  switch (column) {
    case Column::kind:
      return true;
    case Column::on:
      return has_day(fact);
    case Column::at:
      return fact.at.has_value();
    case Column::value:
      return fact.value.has_value();
    case Column::last:
      return fact.last.has_value();
    case Column::first:
      return fact.first.has_value();
    case Column::until:
      return fact.until.has_value();
    case Column::found:
      return fact.found.has_value();
    case Column::sure:
      return fact.sure;
    case Column::history:
      return fact.history;
    case Column::strikes:
      return fact.strikes.has_value();
    default:
      return fact.id.number != 0;  // id, entered, batch
  }
}

std::string text_of(const Fact& fact, Column column) {
  if (std::string Fact::*const member = text_member(column)) return fact.*member;
  if (!has(fact, column)) return {};
  switch (column) {
    case Column::kind:
      return std::string(service::to_text(fact.kind));
    case Column::on:
      return service::to_text(fact.on);
    case Column::at:
      return service::to_text(*fact.at);
    case Column::value:
      return service::to_text(*fact.value);
    case Column::last:
      return service::to_text(*fact.last);
    case Column::first:
      return service::to_text(*fact.first);
    case Column::until:
      return service::to_text(*fact.until);
    case Column::found:
      return std::string(service::to_text(*fact.found));
    case Column::sure:
    case Column::history:
      return "yes";
    case Column::strikes:
      return service::to_text(*fact.strikes);
    case Column::id:
      return service::to_text(fact.id);
    case Column::entered:
      return time_text(fact.entered);
    default:
      return service::to_text(fact.id.command);  // batch
  }
}

std::string set(Fact& fact, Column column, std::string_view text) {
  if (std::string Fact::*const member = text_member(column)) {
    fact.*member = text;
    return {};
  }
  switch (column) {
    case Column::kind:
      return set_kind(fact, text);
    case Column::on:
      return take(parse_day_span(text), fact.on);
    case Column::at:
      return take(parse_amount(text), fact.at);
    case Column::value:
      return take(parse_measure(text), fact.value);
    case Column::last:
      return take(parse_amount(text), fact.last);
    case Column::first:
      return take(parse_amount(text), fact.first);
    case Column::until:
      return take(parse_day(text), fact.until);
    case Column::found:
      return set_found(fact, text);
    case Column::sure:
      return set_flag(fact.sure, text);
    case Column::history:
      return set_flag(fact.history, text);
    case Column::strikes:
      return set_strikes(fact, text);
    case Column::id:
      return set_id(fact, text);
    case Column::entered:
      return take(parse_time(text), fact.entered);
    default:
      return {};  // batch says again what the id says
  }
}

}  // namespace service::record
