#include "workload/season_covers.h"

#include <algorithm>
#include <cstdlib>
#include <functional>
#include <limits>
#include <utility>

namespace service::load {
namespace {

bool includes(const Fleet& fleet, const LifeLeft& life_left, const SeasonItem& whole, const SeasonItem& part) {
  if (&whole == &part || whole.point.machine != part.point.machine) return false;
  if (whole.point.follow_up != nullptr || part.point.follow_up != nullptr) return false;
  if (whole.point.task == part.point.task) return false;
  if (whole.point.put_off && !part.point.put_off && is_due(part.point))
    return false;  // what is due does not wait with it
  if (!whole.point.position.empty() && !part.point.position.empty() && whole.point.position != part.point.position) {
    return false;
  }
  const auto names = counted_as(fleet.schedule_of(*whole.point.machine), part.point.task->name);
  if (std::find(names.begin(), names.end(), whole.point.task->name) == names.end()) return false;
  // What is to be mended waits for nothing that is neither due nor to be mended itself.
  if (!part.to_mend.empty() && whole.to_mend.empty() && !is_due(whole.point)) return false;
  // What is to be done soon does not draw in a big service that has half its life before it.
  return is_due(whole.point) || !whole.to_mend.empty() || life_left(whole.point, part.do_by).value_or(0) <= 0.5;
}

// How far from each other two services come due.
int days_apart(const SeasonItem& a, const SeasonItem& b) {
  const auto& one = a.point.due_span.p50;
  const auto& other = b.point.due_span.p50;
  return one && other ? std::abs(days_between(*one, *other)) : std::numeric_limits<int>::max();
}

// One service stands for one service of each that it includes: of several rounds of that the one nearest to it, of two
// as near the first.
bool takes_in(const Fleet& fleet, const LifeLeft& life_left, const std::vector<SeasonItem>& items, std::size_t whole,
              std::size_t part) {
  if (!includes(fleet, life_left, items[whole], items[part])) return false;
  const auto nearness = [&](const SeasonItem& item) { return std::pair{days_apart(items[whole], item), item.round}; };
  return std::none_of(items.begin(), items.end(), [&](const SeasonItem& other) {
    return name_of(other.point) == name_of(items[part].point) && nearness(other) < nearness(items[part]);
  });
}

// Which items are included by one that stays on the list itself: else what is due could go with an item that goes with
// a third one, which does not include it.
std::vector<bool> folded_of(const Fleet& fleet, const LifeLeft& life_left, const std::vector<SeasonItem>& items) {
  enum class Fate { open, stays, folded };
  std::vector<Fate> fates(items.size(), Fate::open);
  const std::function<bool(std::size_t)> folded = [&](std::size_t i) {  // no tasks cover each other in a ring
    for (std::size_t k = 0; k < items.size() && fates[i] == Fate::open; ++k) {
      if (takes_in(fleet, life_left, items, k, i) && !folded(k)) fates[i] = Fate::folded;
    }
    if (fates[i] == Fate::open) fates[i] = Fate::stays;
    return fates[i] == Fate::folded;
  };
  std::vector<bool> all;
  for (std::size_t i = 0; i < items.size(); ++i) all.push_back(folded(i));
  return all;
}

// What never waits is not hidden in a service that may have to wait for parts.
bool has_own_row(const SeasonItem& item) {
  return never_waits(item.point) && (is_due(item.point) || !item.to_mend.empty());
}

}  // namespace

std::vector<SeasonItem> fold_covered(const Fleet& fleet, const LifeLeft& life_left, std::vector<SeasonItem>& items) {
  const std::vector<bool> folded = folded_of(fleet, life_left, items);
  std::vector<SeasonItem> kept;
  std::vector<SeasonItem> gone;
  std::vector<std::optional<PointName>> included_in(items.size());
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (folded[i]) continue;
    SeasonItem whole = items[i];
    std::vector<std::size_t> parts;
    for (std::size_t k = 0; k < items.size(); ++k) {
      if (!folded[k] || !takes_in(fleet, life_left, items, i, k)) continue;
      const bool own_row = has_own_row(items[k]);
      whole.covered.push_back({name_of(items[k].point), items[k].point.standing, own_row});
      whole.checks.insert(whole.checks.end(), items[k].checks.begin(), items[k].checks.end());
      whole.safety = whole.safety || items[k].safety;
      whole.competent_person = whole.competent_person || items[k].competent_person;
      if (own_row) {
        if (!included_in[k]) included_in[k] = name_of(items[i].point);
        continue;
      }
      parts.push_back(k);
      whole.do_by = std::min(whole.do_by, items[k].do_by);
      if (worse(items[k].worst, whole.worst)) whole.worst = items[k].worst;
      whole.to_mend.insert(whole.to_mend.end(), items[k].to_mend.begin(), items[k].to_mend.end());
    }
    if (whole.do_by < items[i].do_by) whole.gives_up = life_left(whole.point, whole.do_by);
    for (const std::size_t k : parts) {
      gone.push_back(items[k]);
      gone.back().do_by = whole.do_by;
    }
    kept.push_back(std::move(whole));  // what stays includes nothing more
  }
  for (std::size_t k = 0; k < items.size(); ++k) {
    if (!included_in[k]) continue;
    kept.push_back(items[k]);
    kept.back().included_in = included_in[k];
  }
  items = std::move(kept);
  return gone;
}

}  // namespace service::load
