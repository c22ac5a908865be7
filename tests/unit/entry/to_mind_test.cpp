// What somebody has to hear of who entered facts: use of a machine that is not to be used, safety that a delay does not
// put off, machines on which something for safety is overdue now.
#include <doctest/doctest.h>

#include "office.h"
#include "service/bans_after.h"

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

Fact seen(std::string_view machine, std::string_view sign, std::string_view on) {
  Fact fact;
  fact.kind = FactKind::sign;
  fact.machine = machine;
  fact.name = sign;
  fact.on = day(on);
  return fact;
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
  service::FleetFiles files = guarded();
  std::string& tasks = files.texts["schedules/tractor.yaml"];
  tasks.replace(tasks.find("signs: [brake-pull]"), 0, "hours: 100, ");
  Office office(files);
  office.enter({done("loader", "brakes", "2026-06-01", "50"), done("other", "brakes", "2026-06-01", "50")});
  CHECK(keys(office.enter({reading("loader", "2026-06-10", "160")})) == "loader ");
  CHECK(keys(office.enter({reading("loader", "2026-06-11", "161")})).empty());  // it was already
  office.enter({use(FactKind::out_of_use, "other", "2026-06-09")});
  CHECK(keys(office.enter({reading("other", "2026-06-10", "160")})).empty());  // nobody runs it

  // Of what the sign forbids to run nothing is left to decide.
  Office signs(guarded());
  signs.enter({done("loader", "brakes", "2026-06-01")});
  const auto entered = signs.enter({seen("loader", "brake-pull", "2026-06-10")});
  CHECK(entered.changes.front().after->standing == service::Standing::overdue);
  CHECK(keys(entered).empty());
  CHECK(bans_after(entered).size() == 1);
}

TEST_CASE("whoever tells something of a machine hears that nobody may run it, by this or by something else") {
  const auto keys = [](const service::Entered& entered) {
    std::string text;
    for (const service::RunBan& ban : bans_after(entered)) {
      text += ban.machine->key + (ban.out_of_use() ? " out of use" : "");
      for (const service::Point* point : ban.points) text += ' ' + point->name;
      for (const service::SeenSign* seen : ban.seen) text += ' ' + seen->sign;
      text += ';';
    }
    return text;
  };
  Office office(guarded());
  CHECK(keys(office.enter({reading("loader", "2026-06-01", "10")})).empty());
  CHECK(keys(office.enter({seen("loader", "brake-pull", "2026-06-10")})) == "loader brakes;");
  CHECK(keys(office.enter({done("loader", "oil", "2026-06-11", "20")})) == "loader brakes;");
  CHECK(keys(office.enter({reading("other", "2026-06-11", "10")})).empty());  // that is another machine
  Fact bad = done("other", "stop", "2026-06-11");
  bad.found = service::Found::failed;
  CHECK(keys(office.enter({bad})) == "other stop found failed;");
  CHECK(keys(office.enter({use(FactKind::out_of_use, "other", "2026-06-11")})) ==
        "other out of use stop found failed;");
  CHECK(keys(office.enter({done("loader", "brakes", "2026-06-12")})).empty());
}

TEST_CASE("a check that follows work on a machine that must not run follows when it may") {
  using service::CheckWhen;
  service::FleetFiles files = estate();
  files.texts["schedules/tractor.yaml"] =
      "schedule: tractor\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  oil: {do: Oil, every: {hours: 250}, follow-up: {leaks: {do: Look, within: {hours: 1}}}}\n"
      "  brakes: {do: Brakes, every: {months: 60, signs: [brake-pull]}, safety: true}\n";
  const auto when = [](const service::Entered& entered) {
    REQUIRE(checks_owed(entered).size() == 1);
    return check_when(entered, *checks_owed(entered).front(), service::NotToRun(*entered.after));
  };
  Office office(files);
  CHECK(when(office.enter({done("loader", "oil", "2026-06-01", "10")})) == CheckWhen::after_work);
  office.enter({seen("loader", "brake-pull", "2026-06-02")});
  CHECK(when(office.enter({done("loader", "oil", "2026-06-10", "20")})) == CheckWhen::once_mended);
  office.enter({use(FactKind::laid_up, "loader", "2026-06-11")});
  CHECK(when(office.enter({done("loader", "oil", "2026-06-13", "20")})) == CheckWhen::once_back);
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

TEST_CASE("a value at its limit that was found bad, and nothing new put in, was not renewed") {
  const auto found_bad = [](const char* parts, std::optional<service::Found> found) {
    service::FleetFiles files = measuring();
    std::string& tasks = files.texts["schedules/tractor.yaml"];
    tasks.replace(tasks.find("positions:"), 0, parts);
    Office office(files);
    office.enter({tread("2026-06-10", 14, "left")});
    Fact service = done("loader", "tyre", "2026-06-12");
    service.found = found;
    const auto values = ended_values(office.enter({service}));
    REQUIRE(values.size() == 1);
    return values.front().found_bad;
  };
  CHECK(found_bad("", service::Found::worn));
  CHECK(found_bad("", service::Found::failed));
  CHECK_FALSE(found_bad("", service::Found::good));
  CHECK_FALSE(found_bad("", std::nullopt));
  CHECK_FALSE(found_bad("parts: {tyre: 1}, ", service::Found::worn));  // how the old one was
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
