// What can be wrong with a machine when each of its values is right.
#include <fmt/format.h>

#include <unordered_map>

#include "fleet/draft.h"

namespace service::fleet {
namespace {

void check_left(const MachineDraft& machine, Diagnostics& diagnostics) {
  const Machine& m = machine.machine;
  if (!m.left || m.start.kind == StartKind::unknown || *m.left >= m.start.on.first) return;
  diagnostics.error(
      code::left_before_start, *machine.left,
      fmt::format("`{}` left on {}, but began on {}", cleaned(m.key), to_text(*m.left), to_text(m.start.on)),
      "mend one of the two days");
}

void check_expect(const MachineDraft& machine, Diagnostics& diagnostics) {
  const Expect& expect = machine.machine.expect;
  if (!expect.per_year || expect.by_season.empty()) return;
  Amount seasons;
  for (const auto& [season, amount] : expect.by_season) seasons = seasons + amount;
  if (seasons <= *expect.per_year) return;
  diagnostics.error(
      code::seasons_above_year, *machine.expect,
      fmt::format("the seasons come to {}, but the whole year to {}", to_text(seasons), to_text(*expect.per_year)),
      "the seasons are inside the year: raise `per-year`, or lower them");
}

void check_duplicates(const Draft& draft, Diagnostics& diagnostics) {
  std::unordered_map<std::string_view, const Spot*> first;
  first.reserve(draft.machines.size());
  for (const MachineDraft& machine : draft.machines) {
    if (machine.machine.key.empty()) continue;
    const auto [found, fresh] = first.try_emplace(machine.machine.key, &machine.key);
    if (fresh) continue;
    diagnostics.error(
        code::duplicate_machine, machine.key,
        fmt::format("the machine `{}` is listed{} already", cleaned(machine.machine.key), found->second->where()),
        "keep one of the two, or give the second one its own name");
  }
}

}  // namespace

void check_machines(const Draft& draft, Diagnostics& diagnostics) {
  check_duplicates(draft, diagnostics);
  for (const MachineDraft& machine : draft.machines) {
    check_left(machine, diagnostics);
    check_expect(machine, diagnostics);
  }
}

}  // namespace service::fleet
