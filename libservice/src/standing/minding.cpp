#include "service/minding.h"

#include <algorithm>

#include "service/cautions.h"

namespace service {
namespace {

constexpr std::string_view pressure = "fluid-under-pressure";

void add_each(std::vector<std::string>& to, const std::vector<std::string>& cautions) {
  for (const std::string& caution : cautions) {
    if (std::find(to.begin(), to.end(), caution) == to.end()) to.push_back(caution);
  }
}

// `fork@left found worn`, of a check `oil/look found failed`.
bool is_found_bad(const Task& task, std::string_view sign) {
  if (!sign.starts_with(task.name) || !(sign.ends_with(" found worn") || sign.ends_with(" found failed"))) return false;
  const char next = sign[task.name.size()];
  return next == ' ' || next == '@' || next == '/';
}

bool is_found_bad(const Point& point, const SeenSign& seen) {
  if (seen.machine != point.machine) return false;
  const auto says = [&](const std::string& label) {
    return seen.sign == label + " found worn" || seen.sign == label + " found failed";
  };
  return says(point.name) || says(point_label(point.name, point.position));
}

}  // namespace

std::string_view never_by_hand() {
  return "Search for a leak with card or wood, never with a hand: fluid under pressure goes through skin and gloves";
}

const Task* found_bad_task(const Fleet& fleet, const SeenSign& seen) {
  const auto& tasks = fleet.schedule_of(*seen.machine).tasks;
  const auto found =
      std::find_if(tasks.begin(), tasks.end(), [&](const Task& task) { return is_found_bad(task, seen.sign); });
  return found == tasks.end() ? nullptr : &*found;
}

std::optional<Found> found_of(const Fleet& fleet, const SeenSign& seen) {
  if (seen.found || found_bad_task(fleet, seen) == nullptr) return seen.found;
  return seen.sign.ends_with(" found worn") ? Found::worn : Found::failed;
}

std::vector<const SeenSign*> to_mend(const std::vector<SeenSign>& seen, const Point& point) {
  std::vector<const SeenSign*> all;
  for (const SeenSign& each : seen) {
    if (is_found_bad(point, each)) all.push_back(&each);
  }
  return all;
}

std::vector<std::string> cautions_of(const Fleet& fleet, const SeenSign& seen) {
  std::vector<std::string> all;
  if (const Task* task = found_bad_task(fleet, seen)) {
    all = task->all_cautions;
  } else {
    for (const Task& each : fleet.schedule_of(*seen.machine).tasks) add_each(all, each.all_cautions);
    if (std::find(all.begin(), all.end(), pressure) == all.end()) all.emplace_back(never_by_hand());
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const std::string& a, const std::string& b) { return catalogue_place(a) < catalogue_place(b); });
  return all;
}

std::size_t catalogue_place(std::string_view written) {
  const auto catalogue = caution_catalogue();
  if (written == never_by_hand()) written = pressure;
  const auto found =
      std::find_if(catalogue.begin(), catalogue.end(), [&](const Caution& caution) { return caution.name == written; });
  return static_cast<std::size_t>(found - catalogue.begin());
}

bool is_late_for_safety(const Point& point) {
  return never_waits(point) && (point.standing == Standing::overdue || point.past_grace_by_estimate);
}

}  // namespace service
