// A snapshot taken of a record answers as the whole fleet restricted to it would, on the sample fleet.
#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <set>

#include "office.h"

using namespace entry_test;

namespace {

// The sample fleet with its record, filled as `import` fills it.
class Sample {
 public:
  Sample() : office(service::load_fleet_files(folder())) {
    std::ifstream file(folder() / "facts.csv", std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    const auto read = service::read_facts(text, "facts.csv");
    REQUIRE(read.diagnostics.empty());
    office.enter(service::entry_of_file(read, "import facts.csv", day("2026-06-15"), true, false));
  }
  static std::filesystem::path folder() { return std::filesystem::path(SOURCE_DIR) / "sample-fleet"; }

  service::DueList due(const service::Scope& scope) const {
    const auto today = day("2026-06-15");
    return due_list(service::take_snapshot(office.fleet, office.record, today, true, scope),
                    today + std::chrono::days{30});
  }

  Office office;
};

// All that an answer says of a point.
std::string told_whole(const service::Point& point) {
  std::string text = point.machine->key + '/' + point.name + '@' + point.position + ' ' + test::told(point);
  text += ' ' + test::text_or_none(point.due_span.p10) + ' ' + test::text_or_none(point.due_span.p50) + ' ' +
          test::text_or_none(point.due_span.p90) + ' ' + test::unknown_of(point);
  if (point.fitted) text += ' ' + to_text(point.fitted->on) + ' ' + test::text_or_none(point.fitted->at);
  for (const service::LimbStanding& limb : point.limbs) {
    text += " | " + test::text_or_none(limb.due_on) + ' ' + test::text_or_none(limb.due_at) + ' ' +
            test::text_or_none(limb.left) + ' ' + test::text_or_none(limb.estimated_used);
  }
  return text;
}

std::string lines_of(const std::multiset<std::string>& told) {
  std::string text;
  for (const std::string& line : told) text += line + '\n';
  return text;
}

std::string points_of(const service::DueList& list, const service::Scope& scope) {
  std::multiset<std::string> points;
  for (const service::Point& point : list.points) {
    if (scope.holds(point.machine->key)) points.insert(told_whole(point));
  }
  return lines_of(points);
}

std::string gaps_of(const service::DueList& list, const service::Scope& scope) {
  std::multiset<std::string> gaps;
  for (const service::Gap& gap : list.gaps) {
    if (scope.holds(gap.machine)) gaps.insert(gap.machine + ' ' + gap.meter + ' ' + gap.say);
  }
  return lines_of(gaps);
}

}  // namespace

TEST_CASE("a scope of the sample gives the same points and gaps as the whole fleet restricted to it") {
  const Sample sample;
  const auto whole = sample.due({});
  CHECK(whole.points.size() > 100);
  std::size_t points = 0;
  std::vector<service::Scope> scopes;
  for (const auto& machine : sample.office.fleet->machines) scopes.push_back({std::vector{machine.key}});
  for (const auto& site : sample.office.fleet->sites) {
    service::Scope scope = service::scope_of_site(*sample.office.fleet, site.key);
    if (!scope.machines->empty()) scopes.push_back(std::move(scope));  // customers may have none
  }
  for (const service::Scope& scope : scopes) {
    const auto part = sample.due(scope);
    CHECK(points_of(part, {}) == points_of(whole, scope));
    CHECK(gaps_of(part, {}) == gaps_of(whole, scope));
    if (scope.machines->size() == 1) points += part.points.size();
  }
  CHECK(points >= whole.points.size());
}

TEST_CASE("without the machines of the kind some points would have other days, and no snapshot is made") {
  const Sample sample;
  const auto& office = sample.office;
  int refused = 0;
  for (const auto& machine : office.fleet->machines) {
    const service::Scope scope{std::vector{machine.key}};
    if (service::kin_of(*office.fleet, scope).machines->size() == 1) continue;
    try {
      const service::Snapshot alone(office.fleet, {office.record.facts(scope), scope, office.record.newest_day()},
                                    day("2026-06-15"), true, scope);
    } catch (const service::Failure&) {
      ++refused;
      continue;
    }
    FAIL("a snapshot of " << machine.key << " alone");
  }
  CHECK(refused > 0);
}

TEST_CASE("a clock behind the newest fact of any machine is told whatever was asked about") {
  Office office;
  office.enter({reading("loader", "2026-06-10", "400"), reading("pump", "2026-06-01", "9")});
  for (const std::string machine : {"loader", "other", "pump"}) {
    const service::Scope scope{std::vector{machine}};
    const auto clocks = [&](std::string_view today, bool day_is_given) {
      const auto list = due_list(service::take_snapshot(office.fleet, office.record, day(today), day_is_given, scope),
                                 day(today) + std::chrono::days{30});
      return std::count_if(list.gaps.begin(), list.gaps.end(),
                           [](const service::Gap& gap) { return gap.kind == service::GapKind::clock; });
    };
    CHECK(clocks("2026-06-09", false) == 1);
    CHECK(clocks("2026-06-10", false) == 0);
    CHECK(clocks("2026-06-09", true) == 0);  // a day that somebody gave is no clock
  }
}
