// What somebody has to hear of who entered facts: use of a machine that is not to be used, safety that a delay does not
// put off, machines on which something for safety is overdue now.
#include <doctest/doctest.h>

#include "office.h"

using namespace entry_test;
using service::RunNotInUse;
using service::UseKind;

namespace {

service::FleetFiles guarded() {
  service::FleetFiles files = estate();
  files.texts["schedules/tractor.yaml"] =
      "schedule: tractor\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  big: {do: All of it, every: {hours: 500}, covers: [oil, brakes, exam, stop]}\n"
      "  oil: {do: Oil, every: {hours: 250, months: 12}}\n"
      "  brakes: {do: Brakes, every: {months: 12, signs: [brake-pull]}, safety: true}\n"
      "  stop: {do: Stop, every: {months: 90}, safety: true}\n"
      "  exam: {do: Examine, every: {months: 12}, by-whom: competent-person}\n";
  return files;
}

// Of a value shown beside a state since some day, and a value before it.
std::vector<RunNotInUse> runs_after(FactKind kind, std::string_view since, std::string_view before, std::string_view on,
                                    std::string_view value) {
  Office office;
  office.enter({reading("loader", before, "100"), use(kind, "loader", since)});
  const auto entered = office.enter({reading("loader", on, value)});
  auto runs = run_not_in_use(entered);
  for (RunNotInUse& run : runs) CHECK(run.fact == entered.added.front().id);
  return runs;
}

}  // namespace

TEST_CASE("use that a meter shows of a machine which is out of use or laid up is told") {
  for (const FactKind kind : {FactKind::out_of_use, FactKind::laid_up}) {
    const auto runs = runs_after(kind, "2026-06-01", "2026-06-01", "2026-06-10", "164.1");
    REQUIRE(runs.size() == 1);
    CHECK(runs[0].state.kind == (kind == FactKind::laid_up ? UseKind::laid_up : UseKind::out_of_use));
    CHECK(runs[0].used == amount("64.1"));
    CHECK(runs[0].from == day("2026-06-01"));
    CHECK(runs[0].to == day("2026-06-10"));
    CHECK(runs[0].all_of_it);
  }
}

TEST_CASE("of use since a value from before it stood nobody knows how much was before") {
  const auto runs = runs_after(FactKind::laid_up, "2026-06-05", "2026-06-01", "2026-06-10", "120");
  REQUIRE(runs.size() == 1);
  CHECK_FALSE(runs[0].all_of_it);
}

TEST_CASE("no use, a value of its last day of work, and a machine that is back are nothing to be told") {
  CHECK(runs_after(FactKind::out_of_use, "2026-06-05", "2026-06-05", "2026-06-10", "100").empty());
  CHECK(runs_after(FactKind::out_of_use, "2026-06-10", "2026-06-01", "2026-06-10", "120").empty());
  Office office;
  office.enter({reading("loader", "2026-06-01", "100"), use(FactKind::out_of_use, "loader", "2026-06-01"),
                use(FactKind::back, "loader", "2026-06-03")});
  CHECK(run_not_in_use(office.enter({reading("loader", "2026-06-10", "120")})).empty());
}

TEST_CASE("what stood on the day of a value counts, also where the value is entered later, and of a service too") {
  Office office;
  office.enter({reading("loader", "2026-06-01", "100"), use(FactKind::out_of_use, "loader", "2026-06-01"),
                use(FactKind::back, "loader", "2026-06-09")});
  const auto runs = run_not_in_use(office.enter({done("loader", "oil", "2026-06-05", "108")}));
  REQUIRE(runs.size() == 1);
  CHECK(runs[0].used == amount("8"));
  CHECK_FALSE(runs[0].still);
  CHECK(runs_after(FactKind::out_of_use, "2026-06-01", "2026-06-01", "2026-06-10", "120")[0].still);
}

TEST_CASE("use within a lay-up that has ended since is not told") {
  Office office;
  office.enter({reading("loader", "2026-06-01", "100"), use(FactKind::laid_up, "loader", "2026-06-01"),
                use(FactKind::back, "loader", "2026-06-09")});
  CHECK(run_not_in_use(office.enter({reading("loader", "2026-06-05", "108")})).empty());
}

TEST_CASE("each value of a file is told by itself, and other machines are not") {
  Office office;
  office.enter({reading("loader", "2026-06-01", "100"), reading("other", "2026-06-01", "100"),
                use(FactKind::out_of_use, "loader", "2026-06-01")});
  const auto runs =
      run_not_in_use(office.enter({reading("loader", "2026-06-05", "101"), reading("loader", "2026-06-07", "103"),
                                   reading("other", "2026-06-07", "130")}));
  REQUIRE(runs.size() == 2);
  CHECK(runs[0].used == amount("1"));
  CHECK(runs[1].used == amount("2"));
}

TEST_CASE("a delay does not put off what never waits though its task covers it") {
  Office office(guarded());
  Fact delay;
  delay.kind = FactKind::put_off;
  delay.machine = "loader";
  delay.task = "big";
  delay.on = day("2026-06-15");
  delay.until = day("2026-07-15");
  delay.by = "ann";
  const auto names = [](const service::Entered& entered) {
    std::string text;
    for (const service::Point* point : not_put_off(entered)) text += point->name + ' ';
    return text;
  };
  CHECK(names(office.enter({delay})) == "brakes ");  // no ordinary task covers an examination; the stop is well
  delay.task = "oil";
  CHECK(names(office.enter({delay})).empty());
  office.enter({done("loader", "brakes", "2026-06-01")});
  delay.task = "big";
  CHECK(names(office.enter({delay})).empty());
}

TEST_CASE("a machine in use on which something that never waits becomes overdue is named, once") {
  const auto keys = [](const service::Entered& entered) {
    std::string text;
    for (const service::Machine* machine : unsafe_now(entered)) text += machine->key + ' ';
    return text;
  };
  Office office(guarded());
  office.enter({done("loader", "brakes", "2026-06-01"), done("other", "brakes", "2026-06-01")});
  Fact sign;
  sign.kind = FactKind::sign;
  sign.machine = "loader";
  sign.name = "brake-pull";
  sign.on = day("2026-06-10");
  CHECK(keys(office.enter({sign})) == "loader ");  // overdue since the day after
  CHECK(keys(office.enter({sign})).empty());       // it was already
  office.enter({use(FactKind::out_of_use, "other", "2026-06-10")});
  sign.machine = "other";
  CHECK(keys(office.enter({sign})).empty());  // nobody runs it
}

// --- Measured values that a service ends -------------------------------------------------------------------

namespace {

service::FleetFiles measuring() {
  service::FleetFiles files = estate();
  files.texts["schedules/tractor.yaml"] =
      "schedule: tractor\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  tyre: {do: Tyre, every: {months: 12, measured: {tread: {below: 15, unit: mm}}}, positions: [left, right]}\n"
      "  big: {do: All of it, every: {hours: 500}, covers: [tyre]}\n";
  return files;
}

Fact tread(std::string_view on, int mm, std::string_view position = "") {
  Fact fact;
  fact.kind = FactKind::measurement;
  fact.machine = "loader";
  fact.name = "tread";
  fact.on = day(on);
  fact.value = service::Measure{std::int64_t{mm} * 1'000'000};
  fact.position = position;
  return fact;
}

Fact at_position(Fact fact, std::string_view position) {
  fact.position = position;
  return fact;
}

// `tyre tread@left 14 on 2026-06-10, again on 2026-06-12`.
std::string ended(const service::Entered& entered) {
  std::string text;
  for (const service::EndedValue& value : ended_values(entered)) {
    CHECK(value.again.position == value.position);
    text += value.task + ' ' + service::point_label(value.name, value.position) + ' ' + to_text(value.value) +
            (value.reached ? "" : " near") + " on " + service::to_text(value.on) + ", again on " +
            to_text(value.again.on) + ';';
  }
  return text;
}

}  // namespace

TEST_CASE("a service that ends a measured value at its limit, beyond or near it is told of it") {
  Office office(measuring());
  office.enter({tread("2026-06-10", 14, "left"), tread("2026-06-10", 17, "right")});
  const auto entered = office.enter({done("loader", "tyre", "2026-06-12")});
  CHECK(ended(entered) ==
        "tyre tread@left 14 on 2026-06-10, again on 2026-06-12;tyre tread@right 17 near on 2026-06-10, again on "
        "2026-06-12;");
  const auto values = ended_values(entered);
  CHECK(to_text(values.front().limit) == "15");
  CHECK_FALSE(values.front().above);
  CHECK(values.front().again.unit.empty());
  // What is written down again stands as before.
  Fact again = values.front().again;
  CHECK(office.enter({again}).changes.front().after->standing == service::Standing::overdue);
  CHECK(ended(office.enter({at_position(done("loader", "tyre", "2026-06-14"), "right")})).empty());
  CHECK(ended(office.enter({done("loader", "big", "2026-06-14")})) ==
        "tyre tread@left 14 on 2026-06-12, again on 2026-06-14;");
}

TEST_CASE("a value that is well, or stands on, or that a new one takes the place of is nothing to be told") {
  Office office(measuring());
  office.enter({tread("2026-06-10", 14, "left"), tread("2026-06-10", 30, "right")});
  CHECK(ended(office.enter({at_position(done("loader", "tyre", "2026-06-12"), "right")})).empty());
  CHECK(ended(office.enter({done("loader", "tyre", "2026-06-09")})).empty());  // before it was measured
  CHECK(ended(office.enter({done("loader", "tyre", "2026-06-13"), tread("2026-06-14", 16, "left")})).empty());
  Office whole(measuring());
  whole.enter({tread("2026-06-10", 14)});  // of both, and told once
  CHECK(ended(whole.enter({done("loader", "tyre", "2026-06-12")})) ==
        "tyre tread 14 on 2026-06-10, again on 2026-06-12;");
}
