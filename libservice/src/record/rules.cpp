#include "record/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

#include "record/times.h"

namespace service::record {
namespace {

template <class... Columns>
constexpr std::uint32_t set_of(Columns... columns) {
  return (0U | ... | (1U << index_of(columns)));
}

struct Uses {
  std::uint32_t needed;
  std::uint32_t optional;
};

constexpr std::uint32_t came_in =
    set_of(Column::id, Column::entered, Column::entered_by, Column::origin, Column::batch);

constexpr Uses uses_of(FactKind of_kind) {
  using enum Column;
  const std::uint32_t of_machine = set_of(kind, machine, on);
  switch (of_kind) {
    case FactKind::reading:
      return {of_machine | set_of(at), set_of(meter, sure)};
    case FactKind::service:
      return {of_machine | set_of(task), set_of(at, meter, position, found, by, note, sure, history)};
    case FactKind::sign:
      return {of_machine | set_of(name), set_of(note)};
    case FactKind::looked_at:
      return {of_machine | set_of(name, note), set_of(found, by)};
    case FactKind::measurement:
      return {of_machine | set_of(name, value), set_of(unit, position)};
    case FactKind::meter_change:
      return {of_machine | set_of(last, first), set_of(meter, sure)};
    case FactKind::put_off:
      return {of_machine | set_of(task), set_of(until, at, position, by, note)};
    case FactKind::laid_up:
      return {of_machine, set_of(until, note)};
    case FactKind::out_of_use:
    case FactKind::back:
      return {of_machine, set_of(note)};
    case FactKind::count:
      return {set_of(kind, part, on, value), 0};
    case FactKind::strike:
      return {set_of(kind, strikes), set_of(on, note)};
  }
  return {0, 0};
}

bool needs_whole_day(FactKind kind) {
  return kind == FactKind::reading || kind == FactKind::measurement || kind == FactKind::meter_change;
}

bool is_control(unsigned char c, unsigned char next) {
  return c < 0x20 || c == 0x7f || (c == 0xc2 && next >= 0x80 && next < 0xa0);
}

// Where a value is there but does not suit: only what the parsers cannot know.
void check_values(const Fact& fact, std::vector<ColumnDiagnostic>& diagnostics) {
  if (has_day(fact) && needs_whole_day(fact.kind) && !fact.on.whole_day()) {
    diagnostics.push_back({Column::on, "needs-whole-day",
                           fmt::format("a fact of kind {} needs a whole day, and `{}` is a longer span",
                                       to_text(fact.kind), to_text(fact.on)),
                           "write the date as year-month-day"});
  }
  if (fact.kind == FactKind::put_off && !fact.until && !fact.at) {
    diagnostics.push_back({Column::until, "missing-value", "a put-off needs `until` or `at`",
                           "say until which day, or until which meter value, it is put off"});
  }
  if (fact.kind == FactKind::count && fact.value && fact.value->millionths < 0) {
    diagnostics.push_back({Column::value, "negative-value", "a count is not negative", "write how many there are"});
  }
  if (fact.strikes && fact.id.number != 0 && fact.id <= *fact.strikes) {
    diagnostics.push_back({Column::strikes, "early-strike", "a strike has a later id than the fact it strikes",
                           "strike the fact with the command, which draws a fitting id"});
  }
}

bool within(std::optional<Amount> amount) {
  return !amount || (amount->hundredths >= 0 && amount->hundredths <= 100'000'000'000);
}

bool within(Day day) { return day >= day_of(1900, 1, 1) && day <= day_of(2199, 12, 31); }

// What no file can say, because its parsers refuse it: the caller's own mistakes.
void check_bounds(const Fact& fact, std::vector<ColumnDiagnostic>& diagnostics) {
  const auto out = [&](Column column) {
    diagnostics.push_back(
        {column, "out-of-bounds", fmt::format("`{}` cannot be stored", to_text(column)), "give another"});
  };
  if (fact.id.number < 1) out(Column::id);
  if (fact.entered < 0 || fact.entered > last_moment) out(Column::entered);
  if (!within(fact.at)) out(Column::at);
  if (!within(fact.last)) out(Column::last);
  if (!within(fact.first)) out(Column::first);
  constexpr std::int64_t most = 1'000'000'000'000'000;
  if (fact.value && (fact.value->millionths < -most || fact.value->millionths > most)) out(Column::value);
  if (fact.until && !within(*fact.until)) out(Column::until);
  if (fact.strikes && fact.strikes->number < 1) out(Column::strikes);
  const bool on_is_good = within(fact.on.first) && within(fact.on.last);
  if (!on_is_good) {
    out(Column::on);
  } else if (!fact.on.whole_day()) {
    const auto again = parse_day_span(to_text(fact.on));
    if (!again || !(*again == fact.on)) out(Column::on);
  }
}

}  // namespace

Use use_of(FactKind kind, Column column) {
  const Uses uses = uses_of(kind);
  const std::uint32_t bit = set_of(column);
  if ((uses.needed & bit) != 0) return Use::needed;
  return ((uses.optional | came_in) & bit) != 0 ? Use::optional : Use::unused;
}

std::string text_problem(Column column, std::string_view text) {
  if (text.size() > 10'000) return "is longer than 10000 bytes";
  // Most text is plain, and a file has many.
  if (std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; })) return {};
  if (first_bad_utf8(text)) return "is not UTF-8 text";
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const auto next = static_cast<unsigned char>(i + 1 < text.size() ? text[i + 1] : '\0');
    if (!is_control(byte, next)) continue;
    if (column == Column::note && (byte == '\n' || byte == '\t')) continue;
    return column == Column::note ? "has a control character that is neither a line break nor a tab"
                                  : "has a control character, such as a line break or a tab";
  }
  return {};
}

std::vector<ColumnDiagnostic> column_diagnostics(const Fact& fact) {
  std::vector<ColumnDiagnostic> diagnostics;
  const Uses uses = uses_of(fact.kind);
  for (std::size_t i = 0; i < column_count; ++i) {
    const Column column = column_at(i);
    const std::uint32_t bit = set_of(column);
    const bool there = has(fact, column);
    if (!there && (uses.needed & bit) != 0) {
      diagnostics.push_back({column, "missing-value",
                             fmt::format("a fact of kind {} needs `{}`", to_text(fact.kind), to_text(column)),
                             fmt::format("give `{}`", to_text(column))});
    } else if (there && ((uses.needed | uses.optional | came_in) & bit) == 0) {
      diagnostics.push_back({column, "unused-column",
                             fmt::format("a fact of kind {} has no `{}`", to_text(fact.kind), to_text(column)),
                             fmt::format("leave `{}` empty here", to_text(column))});
    }
  }
  check_values(fact, diagnostics);
  return diagnostics;
}

std::vector<Diagnostic> wrong_with(const Fact& fact) {
  std::vector<ColumnDiagnostic> diagnostics = column_diagnostics(fact);
  for (std::size_t i = 0; i < column_count; ++i) {
    std::string Fact::*const member = text_member(column_at(i));
    if (member == nullptr) continue;
    const std::string problem = text_problem(column_at(i), fact.*member);
    if (!problem.empty()) {
      diagnostics.push_back(
          {column_at(i), "bad-text", fmt::format("`{}` {}", to_text(column_at(i)), problem), "write it as plain text"});
    }
  }
  check_bounds(fact, diagnostics);
  std::vector<Diagnostic> wrong;
  for (ColumnDiagnostic& diagnostic : diagnostics) {
    wrong.push_back({std::move(diagnostic.code),
                     fmt::format("fact {} cannot be stored: {}", short_text(fact.id), diagnostic.message),
                     std::move(diagnostic.hint)});
  }
  return wrong;
}

}  // namespace service::record
