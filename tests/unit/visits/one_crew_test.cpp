// Crews that meet at a machine on one day, though one of them could do its work at no more cost.
#include "visits/one_crew.h"

#include <doctest/doctest.h>

#include "routing/timing.h"
#include "service/shared_machines.h"
#include "unit/visits/estate.h"

using namespace service;
using estate::Estate;
using estate::Texts;
using estate::visit_named;

namespace {

// Two vans on one Monday; the loader's work is two visits, for a stay at Holm is four hours at most.
Texts two_vans(const std::string& qualified = "", const std::string& brakes = "") {
  Texts texts;
  texts.tractor =
      "  engine-oil: {do: Change it, every: {months: 12}, takes: 3 h 30 min}\n"
      "  brakes: {do: Look, every: {months: 6}, takes: 40 min, safety: true" +
      brakes + "}\n";
  texts.crews = "  van: {start: workshop, hours: {mon: \"07:30-16:00\"}" + qualified +
                "}\n  lorry: {start: workshop, hours: {mon: \"07:30-16:00\"}}\n";
  texts.machines = "  loader: {name: Loader, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n";
  return texts;
}

Week week_of(const Texts& texts) {
  return Estate(texts).done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-11-01").week();
}

using Names = std::vector<std::vector<std::string>>;

struct Changed {
  Names routes;
  bool value_kept = false;
};

Changed with_one_crew(const Week& week, const Names& routes) {
  const auto of = visits::problem_of(week);
  routing::Plan plan(week.crew_days.size());
  for (std::size_t d = 0; d < routes.size(); ++d) {
    for (const std::string& name : routes[d]) {
      const auto job = std::find(of.visits.begin(), of.visits.end(), visit_named(week, name));
      plan[d].push_back(static_cast<int>(job - of.visits.begin()));
    }
  }
  const routing::Plan after = visits::with_one_crew(week, of, plan);
  Changed changed;
  for (const routing::Route& route : after) {
    auto& names = changed.routes.emplace_back();
    for (const int job : route) names.push_back(week.visits[of.visits[static_cast<std::size_t>(job)]].name);
  }
  changed.value_kept = value_of(of.problem, after) == value_of(of.problem, plan);
  return changed;
}

const Names split{{"loader+safety", "call c-01"}, {"loader", "call c-02"}};

}  // namespace

TEST_CASE("where two crews are at a machine for nothing, one does all of it") {
  Texts texts = two_vans();
  texts.calls =
      "  c-01: {site: holm, do: Look, takes: 30 min, wait: 20}\n  c-02: {site: holm, do: Look, takes: 20 min, wait: "
      "20}\n";
  const Week week = week_of(texts);
  const Changed changed = with_one_crew(week, split);
  CHECK(changed.value_kept);
  CHECK((changed.routes == Names{{"call c-01"}, {"loader", "loader+safety", "call c-02"}}));
  for (const Round& round : plan_rounds(week).rounds) CHECK(shared_machines(plan_rounds(week), round).empty());
}

TEST_CASE("where the one has no time for it, other work goes instead") {
  Texts texts = two_vans();
  // Holm's hours hold eight hours of stays, and neither van more than that.
  texts.calls =
      "  c-01: {site: holm, do: Look, takes: 2 h, wait: 20}\n  c-02: {site: holm, do: Look, takes: 2 h 30 min, wait: "
      "20}\n";
  const Week week = week_of(texts);
  const Changed changed = with_one_crew(week, split);
  CHECK(changed.value_kept);
  std::size_t both = 0;
  for (const auto& route : changed.routes) {
    const auto has = [&](const char* name) { return std::find(route.begin(), route.end(), name) != route.end(); };
    CHECK(has("loader") == has("loader+safety"));
    both += has("loader") ? 1 : 0;
  }
  CHECK(both == 1);
}

TEST_CASE("two crews stay where one may not do all of it") {
  // The one that is qualified is back before the other work could be done.
  Texts texts = two_vans(", qualified-for: [pressure]", ", needs: [pressure]");
  texts.crews.replace(texts.crews.find("16:00"), 5, "10:00");
  texts.calls =
      "  c-01: {site: holm, do: Look, takes: 30 min, wait: 20}\n"
      "  c-02: {site: holm, do: Look, takes: 20 min, wait: 20}\n";
  const Changed changed = with_one_crew(week_of(texts), split);
  CHECK((changed.routes == split));
}
