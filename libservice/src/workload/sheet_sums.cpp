#include "workload/sheet_sums.h"

#include <algorithm>
#include <tuple>

#include "service/minding.h"
#include "workload/job_tasks.h"

namespace service::load {
namespace {

SheetCaution& caution_of(MachineSheet& sheet, const std::string& written) {
  auto of = std::find_if(sheet.cautions.begin(), sheet.cautions.end(),
                         [&](const SheetCaution& caution) { return caution.written == written; });
  if (of == sheet.cautions.end()) of = sheet.cautions.insert(of, {written, {}});
  return *of;
}

void add_cautions(MachineSheet& sheet, const Task& task, const std::string& name) {
  for (const std::string& written : task.all_cautions) {
    SheetCaution& of = caution_of(sheet, written);
    if (std::find(of.tasks.begin(), of.tasks.end(), name) == of.tasks.end()) of.tasks.push_back(name);
  }
}

void add_part(const Fleet& fleet, std::vector<SheetPart>& parts, const std::string& key, bool fluid,
              const std::string& unit, PartAmount amount, const SheetTask& taken_by) {
  auto of = std::find_if(parts.begin(), parts.end(), [&](const SheetPart& part) {
    return part.key == key && part.fluid == fluid && part.unit == unit && end_of(part.wait) == end_of(taken_by);
  });
  if (of == parts.end()) {
    const auto listed =
        std::find_if(fleet.parts.begin(), fleet.parts.end(), [&](const Part& part) { return part.key == key; });
    of = parts.insert(of, {key, listed == fleet.parts.end() ? nullptr : &*listed, fluid, unit, {}});
    if (taken_by.is_later()) of->wait = taken_by.waits.front();
  }
  of->amount = of->amount + amount;
}

void add_labour(SheetLabour& labour, const std::string& name, std::optional<std::chrono::minutes> time, int people,
                const std::vector<std::string>& tools) {
  labour.tasks.push_back(name);
  labour.people = std::max(labour.people, people);
  add_each(labour.tools, tools);
  if (!time) return;
  labour.minutes += time->count();
  labour.labour_minutes += time->count() * people;
}

}  // namespace

void add_up(const Fleet& fleet, MachineSheet& sheet) {
  for (const SheetTask& entry : sheet.tasks) {
    const bool later = entry.is_later();
    SheetLabour& labour = entry.competent_person ? sheet.competent : later ? sheet.later : sheet.labour;
    add_labour(labour, entry.name, entry.resources.time, entry.resources.people, entry.tools);
    if (later) add_each(sheet.labour.tools, entry.tools);
    if (!entry.resources.time) labour.no_time.push_back(entry.name);
    for (const SheetCheck& check : entry.checks) {
      if (check.check->takes && !later) sheet.check_minutes += check.check->takes->count();
    }
    for (const auto& [key, amount] : entry.resources.parts) add_part(fleet, sheet.parts, key, false, "", amount, entry);
    for (const auto& [key, quantity] : entry.resources.fluids) {
      add_part(fleet, sheet.parts, key, true, quantity.unit, quantity.amount, entry);
    }
    add_cautions(sheet, *entry.task, entry.name);
  }
  for (const auto* looks : {&sheet.checks_owed, &sheet.measure_again}) {
    for (const SheetLook& look : *looks) {
      add_labour(sheet.labour, look.name, look.time, look.people, look.tools);
      // Of measuring alone no schedule says a time.
      if (!look.time && look.check != nullptr) sheet.labour.no_time.push_back(look.name);
      add_cautions(sheet, *look.task, look.name);
    }
  }
  for (const SeenSign* seen : sheet.seen) {
    for (const std::string& written : cautions_of(fleet, *seen)) caution_of(sheet, written).at_seen = true;
  }
  std::stable_sort(sheet.parts.begin(), sheet.parts.end(), [](const SheetPart& a, const SheetPart& b) {
    const auto rank = [](const SheetPart& part) {
      return std::tuple{part.fluid, std::string_view(part.key), end_of(part.wait)};
    };
    return rank(a) < rank(b);
  });
  std::stable_sort(sheet.cautions.begin(), sheet.cautions.end(), [](const SheetCaution& a, const SheetCaution& b) {
    return catalogue_place(a.written) < catalogue_place(b.written);
  });
}

}  // namespace service::load
