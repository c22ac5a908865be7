// A fleet file with one line lost, doubled or cut. Whatever is left, either a mistake is reported, or exactly those
// machines and tasks are there that a plain second reader sees by looking at the indentation alone.
#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

#include "service/fleet.h"
#include "unit/fleet/texts.h"

namespace {

constexpr std::string_view twelve_machines = R"(# A farm with twelve machines.
fleet: Test farm
time-zone: Europe/Oslo
grace: {hours: 10, days: 14}
sites:
  yard: {name: "Home yard", at: [54.10, 3.20]}
  mill: {name: 'The mill', open: {mon-fri: ["08:00-12:00", "13:00-17:00"]}}
seasons:
  harvest: {from: 08-01, to: 09-20}
machines:
  loader:
    name: Loader tractor
    schedule: tractor
    site: yard
    in-service: {on: 2011-03-01, at: 0}
    meters: {engine: {unit: h, rolls-over-at: 10000}}
    expect: {per-year: 450, harvest: 180}
    conditions: [dusty]
    change: {engine-oil: {every: {hours: 200}}}
  old-loader:
    schedule: tractor
    notes: |
      Bought from a neighbour:
        with a broken seat.
    bought:
      on: 2015
      at: 4100
  combine: {name: "Combine: the big one", schedule: tractor, site: mill}

  dryer:
    name: 'Dryer #1'
    schedule: tractor   # it has an engine
    notes: stands beside
      the mill
  pump-1: {schedule: tractor}
  pump-2: {schedule: tractor}
  pump-3: {schedule: tractor,
           site: yard}
  generator:
    schedule: tractor
    serial: "77-1"
    conditions:
      - dusty
      - wet
  baler:
    schedule: tractor
  mower:
    name: Mower
    # a comment at the depth of keys
    schedule: tractor
  telehandler:
    schedule: tractor
    left: 2030-01-01
  trailer:
    meters: {}
    schedule: trailer
currency: GBP
)";

constexpr std::string_view tractor = R"(schedule: tractor
tasks:
  engine-oil:
    do: Change engine oil
    every:
      hours: 250
      months: 12
    in: {dusty: {hours: 125}}
    steps: ["Stop the engine", 'Take the key']
    follow-up:
      check-leaks:
        do: "Look for leaks"
        within: {hours: 1}
  air-filter: {do: Replace the air filter, every: {signs: [restriction]}}
  brakes:
    do: Check the brakes
    every: {years: 1}
    notes: |
      See the manual.
    safety: true
)";

constexpr std::string_view trailer = "schedule: trailer\ntasks: {tyres: {do: Check the tyres, every: {months: 3}}}\n";

constexpr std::string_view rows = R"(machine,name,schedule,site,in-service,at
sprayer,"Sprayer, the wide one",tractor,yard,2019-04-01,0
grinder,Grinder,tractor,,,
)";

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + '\n';
  return text;
}

// The second reader: lines that begin at depth two below a line that is exactly `section:`.
std::size_t entries_below(std::string_view section, std::string_view text) {
  std::size_t count = 0;
  bool inside = false;
  for (const std::string& line : lines_of(text)) {
    const std::size_t depth = line.find_first_not_of(' ');
    if (depth == std::string::npos || line[depth] == '#') continue;
    if (depth == 0) inside = line == section;
    if (inside && depth == 2) ++count;
  }
  return count;
}

// Rows of a register, seen as lines with something in them.
std::size_t rows_in(std::string_view text) {
  std::size_t count = 0;
  for (const std::string& line : lines_of(text)) count += line.find_first_not_of(" ,") == std::string::npos ? 0 : 1;
  return count == 0 ? 0 : count - 1;
}

struct Texts {
  std::string fleet{twelve_machines};
  std::string tractor_schedule{tractor};
  std::string machine_rows{rows};
};

struct Seen {
  std::size_t tried = 0;
  std::size_t accepted = 0;
};

void judge(const Texts& texts, std::string_view what, Seen& seen) {
  ++seen.tried;
  service::Fleet fleet;
  try {
    fleet = service::read_fleet({{},
                                 {{"fleet.yaml", texts.fleet},
                                  {"register.csv", texts.machine_rows},
                                  {"schedules/tractor.yaml", texts.tractor_schedule},
                                  {"schedules/trailer.yaml", std::string(trailer)}}});
  } catch (const service::Failure& failure) {
    if (failure.diagnostics().empty() || !failure.diagnostics()[0].place) FAIL_CHECK(std::string(what));
    return;
  }
  ++seen.accepted;
  const std::size_t machines = entries_below("machines:", texts.fleet) + rows_in(texts.machine_rows);
  const std::size_t tasks = entries_below("tasks:", texts.tractor_schedule);
  if (fleet.machines.size() == machines && fleet.schedules[0].tasks.size() == tasks) return;
  const std::string case_of(what);
  CAPTURE(case_of);
  CHECK(fleet.machines.size() == machines);
  CHECK(fleet.schedules[0].tasks.size() == tasks);
}

// Each line in turn is left out, doubled, and cut at each of its characters; the whole text is cut there, too.
Seen mutate(std::string Texts::*which) {
  const std::string original = Texts{}.*which;
  const std::vector<std::string> lines = lines_of(original);
  Seen seen;
  const auto try_lines = [&](const std::vector<std::string>& changed, const std::string& what) {
    Texts texts;
    texts.*which = joined(changed);
    judge(texts, what, seen);
  };
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string where = " line " + std::to_string(i + 1);
    const auto at = lines.begin() + static_cast<std::ptrdiff_t>(i);
    std::vector<std::string> changed(lines.begin(), at);
    changed.insert(changed.end(), at + 1, lines.end());
    try_lines(changed, "without" + where);
    changed = lines;
    changed.insert(changed.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
    try_lines(changed, "twice" + where);
    changed = lines;
    for (std::size_t length = 1; length < lines[i].size(); ++length) {
      changed[i] = lines[i].substr(0, length);
      try_lines(changed, "cut after " + std::to_string(length) + where);
    }
  }
  for (std::size_t length = 1; length < original.size(); ++length) {
    Texts texts;
    texts.*which = original.substr(0, length);
    judge(texts, "file ends after " + std::to_string(length), seen);
  }
  return seen;
}

}  // namespace

TEST_CASE("the fleet and its second reader agree on the whole text") {
  Seen seen;
  judge({}, "whole", seen);
  CHECK(seen.accepted == 1);
  CHECK(entries_below("machines:", twelve_machines) == 12);
  CHECK(entries_below("tasks:", tractor) == 3);
  CHECK(rows_in(rows) == 2);
}

TEST_CASE("no line lost, doubled or cut in fleet.yaml loses a machine in silence") {
  const Seen seen = mutate(&Texts::fleet);
  CHECK(seen.tried > 2000);
  CHECK(seen.accepted > 100);
  CHECK(seen.accepted < seen.tried / 2);
}

TEST_CASE("no line lost, doubled or cut in a schedule loses a task in silence") {
  const Seen seen = mutate(&Texts::tractor_schedule);
  CHECK(seen.tried > 800);
  CHECK(seen.accepted > 50);
  CHECK(seen.accepted < seen.tried / 2);
}

TEST_CASE("no line lost, doubled or cut in register.csv loses a machine in silence") {
  const Seen seen = mutate(&Texts::machine_rows);
  CHECK(seen.tried > 200);
  CHECK(seen.accepted > 5);
  CHECK(seen.accepted < seen.tried);
}
