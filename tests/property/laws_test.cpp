// Laws that must hold in every world.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <random>
#include <string>

#include "property/twin_compare.h"
#include "service/due_list.h"
#include "service/outlook.h"
#include "twin/worlds.h"

namespace {

constexpr std::uint64_t worlds = 3'000;

service::DueList due(const test::Built& world, service::Scope scope = {}) {
  const service::Snapshot snapshot(world.fleet, service::whole_book(world.facts), world.as_of, true, std::move(scope));
  return service::due_list(snapshot, world.as_of + std::chrono::days{30});
}

service::DueList due_by(const test::Built& world, const service::Forecaster& forecaster) {
  const service::Snapshot snapshot(world.fleet, service::whole_book(world.facts), world.as_of, true);
  return service::due_list(snapshot, {world.as_of + std::chrono::days{30}, {}}, forecaster);
}

std::string key(const service::Point& point) { return point.machine->key + ' ' + point.name + ' ' + point.position; }

enum class What { all, by_facts };

// A point in one line: all of it, or what facts alone decide.
std::string told(const service::Point& point, What what = What::all) {
  const bool by_facts = !point.ruled_by || reached(point.limbs[*point.ruled_by]);
  const bool whole = what == What::all || by_facts;
  std::string text = key(point) + ": ";
  if (!whole) text += "not reached";
  if (whole) text += std::string(service::to_text(point.standing));
  if (whole && point.ruled_by) text += ' ' + std::string(service::to_text(point.limbs[*point.ruled_by].kind));
  if (whole && point.due_on) text += ' ' + service::to_text(*point.due_on);
  for (const auto& day : {point.due_span.p10, point.due_span.p50, point.due_span.p90}) {
    if (whole && day) text += ' ' + service::to_text(*day);
  }
  if (point.fitted) text += " fitted " + service::to_text(point.fitted->on);
  if (point.fitted && point.fitted->at) text += " at " + service::to_text(*point.fitted->at);
  for (const auto& limb : point.limbs) {
    const bool expected =
        !reached(limb) && (limb.kind == service::LimbKind::usage || limb.kind == service::LimbKind::changes);
    const bool day = limb.due_on && (what == What::all || !expected);
    text += '|' + std::to_string(static_cast<int>(limb.state)) + (limb.left ? service::to_text(*limb.left) : "") +
            (day ? service::to_text(*limb.due_on) : "");
  }
  return text + (point.put_off ? " put off" : "");
}

std::vector<std::string> told(const service::DueList& list, const std::string& machine = "", What what = What::all) {
  std::vector<std::string> lines;
  for (const auto& point : list.points) {
    if (machine.empty() || point.machine->key == machine) lines.push_back(told(point, what));
  }
  std::sort(lines.begin(), lines.end());
  return lines;
}

// But for the answer to a question about it by name while it is not there: `not_there`.
std::vector<std::string> gaps(const service::DueList& list, const std::string& machine) {
  std::vector<std::string> lines;
  for (const auto& gap : list.gaps) {
    if (gap.machine == machine && gap.kind != service::GapKind::no_machine) lines.push_back(gap.say);
  }
  return lines;
}

bool not_there(const service::DueList& list, const std::string& machine) {
  return std::any_of(list.gaps.begin(), list.gaps.end(), [&](const service::Gap& gap) {
    return gap.machine == machine && gap.kind == service::GapKind::no_machine;
  });
}

// Of facts on days on which a machine was not there it is told how many there are: where more are written, more are
// told.
std::vector<std::string> gaps_but_counts(const service::DueList& list, const std::string& machine) {
  std::vector<std::string> lines;
  for (const auto& gap : list.gaps) {
    if (gap.machine != machine) continue;
    const bool counted = gap.kind == service::GapKind::outside_days;
    lines.push_back(counted ? "outside-days since " + (gap.since ? service::to_text(*gap.since) : "") : gap.say);
  }
  return lines;
}

int severity(service::LimbState state) {
  return state == service::LimbState::overdue ? 2 : state == service::LimbState::due ? 1 : 0;
}

}  // namespace

TEST_CASE("a scoped answer is the whole one restricted") {
  int machines = 0;
  int absent = 0;
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    const auto world = test::build(twin::random_world(5'000'000 + seed));
    const auto whole = due(world);
    for (const auto& machine : world.fleet->machines) {
      const auto scoped = due(world, service::Scope{std::vector{machine.key}});
      ++machines;
      REQUIRE((told(scoped) == told(whole, machine.key)));
      REQUIRE((gaps(scoped, machine.key) == gaps(whole, machine.key)));
      REQUIRE(not_there(scoped, machine.key) == (scoped.machines == 0));
      REQUIRE_FALSE(not_there(whole, machine.key));
      if (scoped.machines == 0) ++absent;
    }
  }
  CHECK(machines > static_cast<int>(worlds));
  CHECK(absent > 0);
}

TEST_CASE("another machine's facts change nothing that facts decide") {
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    const auto world = test::build(twin::random_world(6'000'000 + seed));
    const auto whole = due(world);
    for (const auto& machine : world.fleet->machines) {
      test::Built alone = world;
      std::erase_if(alone.facts,
                    [&](const service::Fact& fact) { return !fact.machine.empty() && fact.machine != machine.key; });
      REQUIRE((told(due(alone), machine.key, What::by_facts) == told(whole, machine.key, What::by_facts)));
    }
  }
}

TEST_CASE("how use is expected to go on changes nothing that facts decide") {
  int differ = 0;
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    const auto world = test::build(twin::random_world(9'000'000 + seed));
    const auto learnt = due(world);
    for (const auto& forecaster : {service::straight_line(), service::same_days_again()}) {
      const auto other = due_by(world, forecaster);
      REQUIRE((told(other, "", What::by_facts) == told(learnt, "", What::by_facts)));
      REQUIRE(other.gaps.size() == learnt.gaps.size());
      if (told(other) != told(learnt)) ++differ;
    }
  }
  CHECK(differ > 100);  // they do expect different days
}

// Said anew, by counting: of two neighbours the first thing in which they differ decides.
TEST_CASE("a list is in the order that the rules give") {
  using service::Standing;
  const std::vector<Standing> worst_first{Standing::overdue, Standing::due, Standing::no_record, Standing::coming,
                                          Standing::later};
  const auto place = [&](const service::Point& point) {
    return std::find(worst_first.begin(), worst_first.end(), point.standing) - worst_first.begin();
  };
  const auto waits = [](const service::Point& point) {
    const bool examination = point.task->competent_person && point.name == point.task->name;
    return point.task->safety || examination ? 0 : 1;
  };
  int ranked = 0;
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    const auto world = test::build(twin::random_world(12'000'000 + seed));
    const auto list = due(world);
    for (std::size_t i = 1; i < list.points.size(); ++i) {
      const service::Point& a = list.points[i - 1];
      const service::Point& b = list.points[i];
      const auto machine_of = [&](const service::Point& point) {
        return std::find_if(world.fleet->machines.begin(), world.fleet->machines.end(),
                            [&](const auto& machine) { return machine.key == point.machine->key; }) -
               world.fleet->machines.begin();
      };
      if (place(a) != place(b)) {
        REQUIRE(place(a) < place(b));
      } else if (waits(a) != waits(b)) {
        ++ranked;
        REQUIRE(waits(a) < waits(b));
      } else if (a.put_off.has_value() != b.put_off.has_value()) {
        ++ranked;
        REQUIRE(b.put_off.has_value());
      } else if (a.by_estimate != b.by_estimate) {
        ++ranked;
        REQUIRE(b.by_estimate);
      } else if (a.due_on != b.due_on) {
        REQUIRE(a.due_on.has_value());
        REQUIRE((!b.due_on || *a.due_on < *b.due_on));
      } else {
        REQUIRE(machine_of(a) <= machine_of(b));
      }
    }
  }
  CHECK(ranked > 500);
}

TEST_CASE("asking for less leaves out days, and changes nothing that is said") {
  int coming = 0;
  int listed = 0;
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    const auto world = test::build(twin::random_world(11'000'000 + seed));
    const service::Snapshot snapshot(world.fleet, service::whole_book(world.facts), world.as_of, true);
    const service::Day within = world.as_of + std::chrono::days{60};
    const auto everything = service::due_list(snapshot, {within});
    const auto some = service::due_list(snapshot, {within, {}, service::Detail::coming});
    const auto least = service::due_list(snapshot, {within, {}, service::Detail::standings});
    std::map<std::string, const service::Point*> whole;
    for (const auto& point : everything.points) whole[key(point)] = &point;
    for (const auto& point : some.points) {
      const service::Point& same = *whole.at(key(point));
      REQUIRE((point.standing == same.standing));
      const bool quiet = point.unknown.empty() && point.measure_again.empty() && !point.put_off;
      if (point.standing == service::Standing::later && quiet) continue;
      const What what =
          reached(point) ? What::by_facts : What::all;  // days ahead of a reached point's limbs are left out
      REQUIRE((told(point, what) == told(same, what)));
      if (point.standing == service::Standing::coming) ++coming;
    }
    const auto all = service::overdue_list(everything);
    const auto short_list = service::overdue_list(least);
    REQUIRE((all.size() == short_list.size()));
    std::vector<std::string> before;
    std::vector<std::string> after;
    for (const auto& entry : all) before.push_back(entry.point != nullptr ? told(*entry.point, What::by_facts) : "");
    for (const auto& entry : short_list) {
      after.push_back(entry.point != nullptr ? told(*entry.point, What::by_facts) : "");
      if (entry.point == nullptr) continue;
      REQUIRE((entry.point->by_estimate == whole.at(key(*entry.point))->by_estimate));
      ++listed;
    }
    std::sort(before.begin(), before.end());
    std::sort(after.begin(), after.end());
    REQUIRE((before == after));
  }
  CHECK(coming > 20);
  CHECK(listed > 1'000);
}

TEST_CASE("a span of days is in order, not before the day it was asked for, and the first is early") {
  int spans = 0;
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    const auto world = test::build(twin::random_world(10'000'000 + seed));
    const service::Snapshot snapshot(world.fleet, service::whole_book(world.facts), world.as_of, true);
    const service::Day asked = world.as_of + std::chrono::days{static_cast<int>(seed % 700)};
    for (const auto& point : service::due_list(snapshot, {world.as_of + std::chrono::days{30}, asked}).points) {
      const auto& [p10, p50, p90] = point.due_span;
      if (p50) REQUIRE((p10.has_value() && *p10 <= *p50));
      if (p90) REQUIRE((p50.has_value() && *p50 <= *p90));
      if (!point.ruled_by || reached(point.limbs[*point.ruled_by])) continue;
      const bool dated = std::any_of(point.limbs.begin(), point.limbs.end(), [&](const auto& limb) {
        const bool calendar = limb.kind == service::LimbKind::calendar || limb.kind == service::LimbKind::season;
        return calendar && limb.due_on && limb.due_on == p10;
      });
      if (p10) REQUIRE((*p10 >= world.as_of && (dated || *p10 <= service::add_months(world.as_of, 60))));
      if (!point.by_estimate) REQUIRE((point.due_on == p50));
      if (!point.odds) continue;
      REQUIRE((point.odds->value >= 0 && point.odds->value <= 1));
      // The odds by a day and the days of odds are two readings of one curve.
      const bool of_changes = std::any_of(point.limbs.begin(), point.limbs.end(),
                                          [](const auto& limb) { return limb.expected.has_value(); });
      if (of_changes) continue;
      if (p50 && *p50 > world.as_of) REQUIRE(((asked >= *p50) == (point.odds->value >= 0.5)));
      if (p90 && *p90 > world.as_of) REQUIRE(((asked >= *p90) == (point.odds->value >= 0.9)));
      ++spans;
    }
  }
  CHECK(spans > 1'000);
}

TEST_CASE("no expected day lies before the day asked about, whatever it is derived from") {
  int of_use = 0;
  int of_changes = 0;
  int to_come = 0;
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    const auto world = test::build(twin::random_world(12'000'000 + seed));
    const service::Snapshot snapshot(world.fleet, service::whole_book(world.facts), world.as_of, true);
    const auto learnt = service::learnt_from(snapshot);
    for (const auto& forecaster : {learnt, service::straight_line(), service::same_days_again()}) {
      for (const auto& point : service::due_list(snapshot, {world.as_of + std::chrono::days{30}}, forecaster).points) {
        CAPTURE(seed);
        CAPTURE(told(point));
        const auto ahead = [&](const std::optional<service::Day>& day) {
          if (day) REQUIRE((*day >= world.as_of));
          return day.has_value();
        };
        if (!reached(point)) {
          for (const auto& day : {point.due_on, point.due_span.p10, point.due_span.p50, point.due_span.p90}) ahead(day);
        }
        for (const auto& limb : point.limbs) {
          if (reached(limb)) continue;
          const bool dated = ahead(limb.due_on);
          of_use += dated && limb.kind == service::LimbKind::usage ? 1 : 0;
          if (!limb.expected) continue;
          const auto& [p10, p50, p90] = *limb.expected;
          for (const auto& day : {p10, p50, p90}) of_changes += ahead(day) ? 1 : 0;
          if (p10 && p50) REQUIRE((*p10 <= *p50));
          if (p50 && p90) REQUIRE((*p50 <= *p90));
        }
      }
    }
    if (seed % 10 != 0) continue;
    for (const auto& machine : world.fleet->machines) {
      if (!service::kept_on(machine, world.as_of)) continue;
      const service::Outlook outlook(snapshot, machine, learnt);
      for (const auto& coming : outlook.draw(seed, world.as_of + std::chrono::days{400})) {
        REQUIRE((coming.day >= world.as_of));
        ++to_come;
      }
    }
  }
  CHECK(of_use > 1'000);
  CHECK(of_changes > 1'000);
  CHECK(to_come > 100);
}

TEST_CASE("the order of entry of facts of different days changes nothing") {
  std::mt19937_64 luck(20'260'301);
  int shuffled = 0;
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    twin::RandomOptions options;
    options.strikes = false;  // what strikes must come after what it strikes
    const auto world = test::build(twin::random_world(7'000'000 + seed, options));
    // New ids and times of entry by a shuffled order of days; within a day the order stays.
    std::map<service::Day, std::uint64_t> order;
    for (const auto& fact : world.facts) order.emplace(fact.on.first, luck());
    test::Built other = world;
    std::stable_sort(other.facts.begin(), other.facts.end(), [&](const service::Fact& a, const service::Fact& b) {
      return order.at(a.on.first) < order.at(b.on.first);
    });
    for (std::size_t i = 0; i < other.facts.size(); ++i) {
      const auto entered = static_cast<std::int64_t>(i) + 1;
      other.facts[i].id = {service::make_command_id(entered, {}), 1};
      other.facts[i].entered = entered;
    }
    if (order.size() > 2) ++shuffled;
    REQUIRE((told(due(other)) == told(due(world))));
  }
  CHECK(shuffled > 0);
}

// "A task that another one covers counts as done with it." So the book that says only what was covered by, and the book
// that says every task by its name, know the same, and all that is answered from them is the same: each point (the
// checks that follow a covered task among them, for they are owed from the covering service as well), its standing, due
// day, span and odds, each limb, what it was fitted with, and every gap. Only which fact and which task is named as the
// last service may be another. What is written out: beside each service, in the same moment, one service of each task
// of which it counts as one, on the same day, with the same value on the meter, position and person.
TEST_CASE("writing out what a service covers changes no answer") {
  int written = 0;
  int spans = 0;
  const auto hold = [&](const twin::World& of) {
    const auto world = test::build(of);
    test::Built other = world;
    const auto struck = service::struck(world.facts);
    for (std::size_t i = 0; i < world.facts.size(); ++i) {
      const service::Fact& fact = world.facts[i];
      const service::Machine* machine = world.fleet->machine(fact.machine);
      if (fact.kind != service::FactKind::service || struck[i] || machine == nullptr) continue;
      const service::Schedule& schedule = world.fleet->schedule_of(*machine);
      service::Fact copy = fact;
      for (const service::Task& task : schedule.tasks) {
        const auto names = service::counted_as(schedule, task.name);
        if (task.name == fact.task || std::find(names.begin(), names.end(), fact.task) == names.end()) continue;
        copy.task = task.name;
        ++copy.id.number;
        other.facts.push_back(copy);
      }
    }
    if (other.facts.size() == world.facts.size()) return;
    ++written;
    const auto before = due(world);
    const auto after = due(other);
    for (const auto& point : before.points) {
      spans += point.due_span.p10 && point.due_span.p10 != point.due_span.p90 ? 1 : 0;
    }
    REQUIRE((told(after) == told(before)));
    for (const auto& machine : world.fleet->machines) {
      REQUIRE((gaps_but_counts(after, machine.key) == gaps_but_counts(before, machine.key)));
    }
  };
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) hold(twin::random_world(11'000'000 + seed));
  for (int family = 0; family < twin::family_count(); ++family) {
    if (std::string(twin::family_name(family)).find("covers") == std::string::npos) continue;
    const std::size_t stride = std::max<std::size_t>(1, twin::family_size(family) / worlds);
    for (std::size_t i = 0; i < twin::family_size(family); i += stride) hold(twin::family_world(family, i));
  }
  CHECK(written > 1'000);
  CHECK(spans > 500);
}

TEST_CASE("more hours never make less due") {
  int raised = 0;
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    const auto world = test::build(twin::random_world(8'000'000 + seed));
    const auto before = due(world);
    for (const auto& machine : world.fleet->machines) {
      const service::Meter* const meter = machine.first_meter();
      if (meter == nullptr) continue;
      const service::Snapshot snapshot(world.fleet, service::whole_book(world.facts), world.as_of, true);
      const auto events = service::meter_events(machine, *meter, snapshot.facts_of(machine.key));
      // A second value on the last day moves the line before it, and with it what is interpolated.
      if (events.empty() || events.back().day == world.as_of) continue;
      // A service after the last value took the last known usage; a later value moves it, which is another law.
      const auto late = std::any_of(world.facts.begin(), world.facts.end(), [&](const service::Fact& fact) {
        return fact.machine == machine.key && fact.kind == service::FactKind::service &&
               fact.on.first > events.back().day;
      });
      if (late) continue;
      test::Built more = world;
      service::Fact reading;
      reading.kind = service::FactKind::reading;
      reading.machine = machine.key;
      reading.meter = meter->name;
      reading.on = world.as_of;
      reading.at = events.back().fresh.value_or(events.back().shown) +
                   service::Amount{1'000 * (1 + static_cast<int>(seed % 30))};
      reading.id = {service::make_command_id(900'000'000, {}), 1};
      reading.entered = 900'000'000;
      more.facts.push_back(reading);
      const auto after = due(more);
      ++raised;
      std::map<std::string, const service::Point*> points;
      for (const auto& point : after.points) points[key(point)] = &point;
      for (const auto& point : before.points) {
        if (point.machine->key != machine.key) continue;
        const auto found = points.find(key(point));
        REQUIRE((found != points.end()));
        for (std::size_t i = 0; i < point.limbs.size(); ++i) {
          CAPTURE(seed);
          CAPTURE(told(point));
          CAPTURE(told(*found->second));
          REQUIRE(severity(found->second->limbs[i].state) >= severity(point.limbs[i].state));
        }
      }
    }
  }
  CHECK(raised > 1'000);
}
