#include "render/shared/csv_rows.h"

#include <fmt/format.h>

#include "render/shared/words.h"

namespace cli {

void add_gap(CsvTable& table, const service::Gap& gap) {
  table.add({{"row", "gap"},
             {"machine", csv_text(gap.machine)},
             {"meter", csv_text(gap.meter)},
             {"kind", std::string(to_text(gap.kind))},
             {"since", figure(gap.since)},
             {"say", csv_text(gap.say)}});
}

void add_seen(CsvTable& table, const service::SeenSign& seen) {
  table.add({{"row", "seen"},
             {"machine", csv_text(seen.machine->key)},
             {"sign", csv_text(seen.sign)},
             {"on", to_text(seen.on)},
             {"fact", to_text(seen.fact)},
             {"note", csv_text(seen.note)},
             {"found", std::string(seen.found ? to_text(*seen.found) : "")},
             {"say", csv_text(words_of(seen))}});
}

void add_machine(CsvTable& table, const service::MachineUse& use) {
  table.add({{"row", "machine"},
             {"machine", csv_text(use.machine->key)},
             {"state", std::string(service::to_text(use.state.kind))},
             {"since", figure(use.state.since)},
             {"until", figure(use.state.until)},
             {"note", csv_text(use.state.note)},
             {"say", csv_text(words_of(use.state))}});
}

void add_marks(CsvCells& cells, const service::Point& point) {
  cells.insert(cells.end(), {{"safety", yes_or_no(is_safety(point))},
                             {"competent_person", yes_or_no(by_competent_person(point))},
                             {"cautions", csv_text(fmt::format("{}", fmt::join(point.task->all_cautions, "; ")))}});
}

std::string joined_names(const std::vector<std::string>& names) {
  return csv_text(fmt::format("{}", fmt::join(names, "; ")));  // a name may hold blanks
}

std::string joined_kinds(const std::vector<service::LimbKind>& kinds) {
  std::vector<std::string_view> names;
  for (const auto kind : kinds) names.push_back(to_text(kind));
  return fmt::format("{}", fmt::join(names, " "));
}

}  // namespace cli
