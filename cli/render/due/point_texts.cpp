#include "render/due/point_texts.h"

#include <algorithm>
#include <tuple>

#include "service/first.h"

namespace cli {

PointTexts::PointTexts(Write write, std::optional<std::size_t> first,
                       const std::optional<std::filesystem::path>& folder, std::size_t most_in_memory)
    : write_(write), first_(first), texts_(folder, most_in_memory) {}

void PointTexts::add(const service::DueList& list) {
  const service::NotToRun stopped(list);
  const service::Machine* const machines = list.fleet->machines.data();
  for (const service::Point& point : list.points) {
    const KeptTexts::Place place = texts_.add(write_(point, *list.fleet, stopped));
    rows_.push_back({rank_of(point), place.begin, place.size, static_cast<std::uint32_t>(point.machine - machines),
                     known(point.task->all_cautions), point.standing});
  }
}

// What ranks alike stands in the order of the fleet file, and of one machine in the order in which it came.
void PointTexts::put_in_order() {
  std::sort(rows_.begin(), rows_.end(), [](const Row& a, const Row& b) {
    return std::tie(a.rank, a.machine, a.begin) < std::tie(b.rank, b.machine, b.begin);
  });
  left_off_ = service::keep_first(rows_, first_, [](const Row& row) { return row.standing; });
}

std::uint32_t PointTexts::known(const std::vector<std::string>& cautions) {
  const auto [place, is_new] = numbers_.emplace(cautions, static_cast<std::uint32_t>(cautions_.size()));
  if (is_new) cautions_.push_back(&place->first);
  return place->second;
}

std::vector<std::string> PointTexts::cautions() const {
  std::vector<std::string> all;
  std::vector<bool> told(cautions_.size());
  for (const Row& row : rows_) {
    if (told[row.cautions]) continue;
    told[row.cautions] = true;
    for (const std::string& caution : *cautions_[row.cautions]) {
      if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(caution);
    }
  }
  return all;
}

void PointTexts::each(const service::Put& put) {
  for (const Row& row : rows_) put(texts_.at({row.begin, row.size}));
}

}  // namespace cli
