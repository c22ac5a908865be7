#include "small_worlds.h"

#include <algorithm>
#include <array>

#include "worlds.h"

namespace twin {

std::vector<std::vector<int>> subsets(const std::vector<int>& grid, int most) {
  std::vector<std::vector<int>> all;
  for (unsigned mask = 0; mask < (1u << grid.size()); ++mask) {
    std::vector<int> chosen;
    for (std::size_t i = 0; i < grid.size(); ++i)
      if ((mask >> i & 1u) != 0) chosen.push_back(grid[i]);
    if (static_cast<int>(chosen.size()) <= most) all.push_back(chosen);
  }
  return all;
}

World small_world(int start_kind, Day start, Amount at) {
  World w;
  Schedule s;
  s.name = "kind";
  w.schedules.push_back(s);
  Machine m;
  m.name = "unit";
  m.schedule = "kind";
  if (start_kind == 0) m.in_service = Start{start, at};
  if (start_kind == 1) m.bought = Start{start, at};
  w.machines.push_back(m);
  return w;
}

void finish(World& w, std::vector<Planned>& planned) {
  std::stable_sort(planned.begin(), planned.end(),
                   [](const Planned& a, const Planned& b) { return a.fact.on.first < b.fact.on.first; });
  w.facts = with_values(w.machines.front(), meters_of(w, w.machines.front()), planned);
  int entry = 0;
  for (Fact& f : w.facts) f.entry = entry++;
}

Planned service(const std::string& task, Day day) {
  Planned p = plan(FactKind::service, "unit", day);
  p.fact.task = task;
  return p;
}

namespace {

struct Family {
  const char* name;
  World (*build)(Dial&);
};

constexpr std::array<Family, 7> families{{{"calendar chains", calendar_chains},
                                          {"usage chains", usage_chains},
                                          {"which limbs hold", which_limbs},
                                          {"covers, changes, follow-ups", covers_and_changes},
                                          {"signs and measurements", signs_and_measurements},
                                          {"seasons", seasons},
                                          {"meters", meters}}};

}  // namespace

int family_count() { return static_cast<int>(families.size()); }
const char* family_name(int family) { return families.at(static_cast<std::size_t>(family)).name; }

std::size_t family_size(int family) {
  Dial d(0);
  families.at(static_cast<std::size_t>(family)).build(d);
  return d.size();
}

World family_world(int family, std::size_t index) {
  Dial d(index);
  return families.at(static_cast<std::size_t>(family)).build(d);
}

}  // namespace twin
