#include "render/season/cautions.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/words.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::Point;

bool minds(const Point& point, const std::string& caution) {
  const auto& own = point.task->all_cautions;
  return std::find(own.begin(), own.end(), caution) != own.end();
}

// `engine-oil, brakes`; where only some machines have to mind it at a task, they are named: `brakes of sprayer`.
std::string where(const std::vector<const Point*>& points, const std::string& caution) {
  std::vector<std::string> tasks;
  std::set<std::string_view> told;
  for (const Point* point : points) {
    if (!minds(*point, caution) || !told.insert(point->name).second) continue;
    std::vector<std::string> machines;
    bool everywhere = true;
    for (const Point* other : points) {
      if (other->name != point->name) continue;
      if (!minds(*other, caution)) {
        everywhere = false;
      } else if (std::find(machines.begin(), machines.end(), other->machine->key) == machines.end()) {
        machines.push_back(other->machine->key);
      }
    }
    tasks.push_back(everywhere ? point->name : fmt::format("{} of {}", point->name, listed(machines, "and")));
  }
  return service::cleaned(fmt::format("{}", fmt::join(tasks, ", ")));
}

}  // namespace

std::vector<SeasonCaution> cautions_in_words(const service::SeasonPlan& plan) {
  std::vector<const Point*> points;
  for (const auto* items : {&plan.beforehand, &plan.have_ready, &plan.put_off}) {
    for (const service::SeasonItem& item : *items) points.push_back(&item.point);
  }
  std::vector<SeasonCaution> cautions;
  for (const std::string& caution : cautions_of(points)) cautions.push_back({caution, where(points, caution)});
  return cautions;
}

std::string season_cautions(const service::SeasonPlan& plan, const Look& look) {
  const auto cautions = cautions_in_words(plan);
  if (cautions.empty()) return "";
  std::string text = '\n' + heading(look, "What to mind, and at which tasks");
  for (const SeasonCaution& caution : cautions) {
    text += cautions_in_full({caution.caution}, "  ", columns_of(look));
    text += wrapped("    at ", caution.where, columns_of(look), 7);
  }
  return text;
}

}  // namespace cli
