#include "visits/short_parts.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <tuple>

namespace service {

bool PlannedLoad::cannot_be_finished() const {
  return std::any_of(lacks.begin(), lacks.end(),
                     [](const PartLack& lack) { return lack.is_short() && (lack.comes_late() || !lack.there); });
}

LackingWork lacking_work(const std::vector<PlannedLoad>& loads) {
  LackingWork work;
  std::set<std::string> parts;
  std::set<std::size_t> visits;
  for (const PlannedLoad& load : loads) {
    if (!load.told) continue;
    for (const PartLack& lack : load.lacks) {
      if (lack.is_short()) parts.insert(lack.key);
    }
    if (!load.cannot_be_finished()) continue;
    if (load.what != LoadFor::work) {
      work.fills_up_late = true;
      continue;
    }
    work.loads.push_back(&load);
    visits.insert(load.visit);
  }
  work.parts.assign(parts.begin(), parts.end());
  work.visits = visits.size();
  return work;
}

namespace visits {
namespace {

// What is left of one part, what was left when the plan begins, and who took of it since.
struct Shelf {
  PartAmount left;
  PartAmount at_first;
  std::vector<KeptFor> taken;
};

bool is_done(const PlannedLoad& load) { return load.what == LoadFor::done_before || load.what == LoadFor::entered; }

class Shelves {
 public:
  explicit Shelves(const PartsList& parts) : parts_(parts) {}

  // Its parts as they are, counted or never counted.
  void settle(PlannedLoad& load) const {
    std::map<std::string, PartAmount> parts;
    for (const auto& [key, pieces] : load.parts) {
      if (!never_counted(key)) parts[key] = pieces;
    }
    for (const auto& [key, pieces] : load.parts_not_counted) {
      if (never_counted(key)) parts[key] = pieces;
    }
    load.parts.assign(parts.begin(), parts.end());
  }

  void take(PlannedLoad& load, const std::string& key, PartAmount amount, const std::string* unit) {
    const auto need = need_of(key, unit);
    if (load.what == LoadFor::entered && (need == parts_.needs.end() || need->counted_on)) load.shown.push_back(key);
    if (need == parts_.needs.end()) return;
    if (!need->stock) {
      PartLack not_counted;
      not_counted.key = key;
      not_counted.unit = need->unit;
      add_lack(load.lacks, not_counted);
      return;
    }
    // What was counted is less by what the book has done since; what the fleet file says is never less by anything.
    if (load.what == LoadFor::entered && need->counted_on) return;
    // Who counts sees what is gone.
    if (load.what == LoadFor::done_before && need->counted_on && *need->counted_on > load.on) {
      load.shown.push_back(key);
      return;
    }
    Shelf& shelf = shelves_.try_emplace(key, Shelf{*need->stock, *need->stock, {}}).first->second;
    if (amount > shelf.left) {
      PartLack lack = lack_of(*need, amount - shelf.left, load.on, parts_.as_of);
      order_for_its_day(lack, *need);
      for (const KeptFor& one : shelf.taken) {
        if (load.machine == nullptr || one.machine != load.machine->key) lack.kept_for.push_back(one);
      }
      if (!lack.kept_for.empty()) lack.in_stock = shelf.at_first;
      lack.taken_before = *need->stock - shelf.at_first;
      add_lack(load.lacks, lack);
    }
    if (shelf.left > PartAmount{} && load.machine != nullptr) note(shelf, {load.machine->key, load.on});
    shelf.left = std::max(shelf.left - amount, PartAmount{});
    if (is_done(load)) shelf.at_first = shelf.left;
  }

 private:
  std::vector<PartNeed>::const_iterator need_of(const std::string& key, const std::string* unit) const {
    return std::find_if(parts_.needs.begin(), parts_.needs.end(), [&](const PartNeed& one) {
      return one.key == key && one.part != nullptr && (unit == nullptr || one.unit == *unit);
    });
  }

  bool never_counted(const std::string& key) const {
    const auto need = need_of(key, nullptr);
    return need != parts_.needs.end() && !need->counted_on;
  }

  // A stop may be made before its work comes due, and then the list of parts orders too late for it; and what is too
  // late for other work may be in time for this.
  void order_for_its_day(PartLack& lack, const PartNeed& need) const {
    const Day order = *lack.short_on - std::chrono::days{need.part->lead_days.value_or(0)};
    lack.order_by = std::min(lack.order_by.value_or(Day::max()), std::max(order, parts_.as_of));
    lack.late_days = std::max(0, days_between(order, parts_.as_of));
  }

  static void note(Shelf& shelf, const KeptFor& taker) {
    const auto same = [&](const KeptFor& one) { return one.machine == taker.machine; };
    if (std::none_of(shelf.taken.begin(), shelf.taken.end(), same)) shelf.taken.push_back(taker);
  }

  const PartsList& parts_;
  std::map<std::string, Shelf> shelves_;
};

// Whoever is told of some machines alone is told that others have their turn before, and not which.
void name_only_told(std::vector<PlannedLoad>& loads) {
  std::set<std::string> told;
  for (const PlannedLoad& load : loads) {
    if (load.told && load.machine != nullptr) told.insert(load.machine->key);
  }
  for (PlannedLoad& load : loads) {
    for (PartLack& lack : load.lacks) {
      std::erase_if(lack.kept_for, [&](const KeptFor& kept) { return !told.contains(kept.machine); });
    }
  }
}

}  // namespace

std::vector<std::pair<std::string, PartAmount>> OnBoard::beside(
    const std::vector<std::pair<std::string, PartAmount>>& parts) {
  std::vector<std::pair<std::string, PartAmount>> rest;
  for (const auto& [key, pieces] : parts) {
    PartAmount& own = left_[key];
    const PartAmount used = std::min(own, pieces);
    own = own - used;
    takes_[key] = takes_[key] + pieces;
    if (pieces == used) continue;
    rest.emplace_back(key, pieces - used);
    loaded_[key] = loaded_[key] + pieces - used;
  }
  return rest;
}

std::vector<std::pair<std::string, PartAmount>> OnBoard::end_round() {
  std::vector<std::pair<std::string, PartAmount>> fills_up;
  for (const auto& [key, full] : full_) {
    const PartAmount takes = takes_[key];
    const PartAmount load = missing_[key] + std::max(takes - full, PartAmount{});
    if (load > loaded_[key]) fills_up.emplace_back(key, load - loaded_[key]);
    missing_[key] = std::min(takes, full);
    left_[key] = full - missing_[key];
  }
  takes_.clear();
  loaded_.clear();
  return fills_up;
}

void LoadsInOrder::add(const Crew* crew, PlannedLoad load) {
  begin(load.on);
  load.parts_not_counted = load.parts;
  if (crew != nullptr) {
    Boards& boards = boards_of(*crew);
    load.parts_not_counted = boards.not_counted.beside(load.parts);
    if (load.what != LoadFor::entered) load.parts = boards.counted.beside(load.parts);
  }
  loads_.push_back(std::move(load));
}

void LoadsInOrder::end_round(const Crew& crew, PlannedLoad of) {
  of.crew = &crew;
  Boards& boards = boards_of(crew);
  of.parts = boards.counted.end_round();
  of.parts_not_counted = boards.not_counted.end_round();
  if (!of.parts.empty() || !of.parts_not_counted.empty()) fill_up_.push_back(std::move(of));
}

std::vector<PlannedLoad> LoadsInOrder::take() {
  begin(Day::max());
  return std::move(loads_);
}

void LoadsInOrder::begin(Day on) {
  if (on == on_) return;
  on_ = on;
  std::move(fill_up_.begin(), fill_up_.end(), std::back_inserter(loads_));
  fill_up_.clear();
}

void take_from_stock(std::vector<PlannedLoad>& loads, const PartsList& parts) {
  Shelves shelves(parts);
  for (PlannedLoad& load : loads) {
    load.lacks.clear();
    load.shown.clear();
    shelves.settle(load);
    for (const auto& [key, pieces] : load.parts) shelves.take(load, key, pieces, nullptr);
    for (const auto& [key, quantity] : load.fluids) shelves.take(load, key, quantity.amount, &quantity.unit);
    std::sort(load.lacks.begin(), load.lacks.end(), [](const PartLack& a, const PartLack& b) { return a.key < b.key; });
  }
  name_only_told(loads);
}

std::vector<ShortPart> short_parts(const std::vector<PlannedLoad>& loads) {
  std::map<std::string, ShortPart> by_key;
  for (const PlannedLoad& load : loads) {
    if (!load.told) continue;
    for (const PartLack& lack : load.lacks) {
      if (!lack.is_short()) continue;
      ShortPart& part = by_key.try_emplace(lack.key, ShortPart{lack.key, lack.unit, {}, load.on, lack.there})
                            .first->second;  // the first stop is the earliest
      part.short_by = part.short_by + lack.short_by;
    }
  }
  std::vector<ShortPart> parts;
  for (auto& [key, part] : by_key) parts.push_back(std::move(part));
  return parts;
}

std::vector<PartLack> lacks_of(const std::vector<PlannedLoad>& loads,
                               const std::function<bool(const PlannedLoad&)>& is_one) {
  std::vector<PartLack> lacks;
  std::set<std::pair<std::string, Day>> own;
  for (const PlannedLoad& load : loads) {
    if (!is_one(load)) continue;
    for (const PartLack& lack : load.lacks) add_lack(lacks, lack);
    if (load.machine != nullptr) own.emplace(load.machine->key, load.on);
  }
  for (PartLack& lack : lacks) {
    const auto is_own = [&](const KeptFor& kept) { return own.contains({kept.machine, kept.on}); };
    if (std::erase_if(lack.kept_for, is_own) > 0 && lack.kept_for.empty()) lack.in_stock = PartAmount{};
  }
  return lacks;
}

}  // namespace visits
}  // namespace service
