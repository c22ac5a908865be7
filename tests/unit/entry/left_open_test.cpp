// What stays open though somebody may take it for settled: words that a machine must not run, in a sign alone, and
// signs that no service answers.
#include "service/left_open.h"

#include <doctest/doctest.h>

#include <string>

#include "unit/entry/office.h"

using namespace entry_test;
using service::Entered;
using service::MustNotRun;

namespace {

Fact sign(std::string_view machine, std::string_view name, std::string_view on = "2026-06-10") {
  Fact fact = use(FactKind::sign, machine, on);
  fact.name = name;
  return fact;
}

Fact look(std::string_view machine, std::string_view name, service::Found found, std::string_view on,
          std::string_view note) {
  Fact fact = use(FactKind::looked_at, machine, on);
  fact.name = name;
  fact.found = found;
  fact.note = note;
  return fact;
}

std::string stops(const Entered& entered) {
  std::string text;
  for (const auto& stop : stops_not_taken(entered)) {
    text += (text.empty() ? "" : "; ") + stop.fact->machine + ' ' + stop.fact->name +
            (stop.says == MustNotRun::said ? " said" : "");
  }
  return text;
}

std::string left(const Entered& entered) {
  std::string text;
  for (const auto& one : signs_left(entered)) {
    text += (text.empty() ? "" : "; ") + one.machine().key + ' ' +
            (one.seen != nullptr ? one.seen->sign
                                 : one.sign->name + " at " + one.point->name +
                                       (one.point->position.empty() ? "" : '@' + one.point->position));
  }
  return text;
}

service::FleetFiles with_positions() {
  service::FleetFiles files = estate();
  files.texts["schedules/pump.yaml"] =
      "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  gland: {do: Gland, every: {months: 36, signs: [drip]}, positions: [left, right]}\n"
      "  seals: {do: Seals, every: {months: 36, signs: [drip, whine]}}\n"
      "  overhaul: {do: All, every: {months: 60}, covers: [seals]}\n"
      "  oil: {do: Oil, every: {months: 12}}\n";
  return files;
}

}  // namespace

TEST_CASE("words of a file that say that a machine must not run are told, where nothing keeps it from being run") {
  Office office;
  CHECK(stops(office.enter({sign("loader", "wheel loose, do not use"), sign("other", "boom crack, unsafe"),
                            sign("pump", "hums"), sign("pump", "drip, keep it running")})) ==
        "loader wheel loose, do not use said; other boom crack, unsafe");
  CHECK(stops(office.enter({reading("loader", "2026-06-11", "50")})).empty());  // not of what is in the book already
}

TEST_CASE("not where it is out of use, or back since, or found good since") {
  Office office;
  CHECK(stops(office.enter({sign("loader", "do not use"), use(FactKind::out_of_use, "loader", "2026-06-10")})).empty());
  CHECK(stops(office.enter({sign("other", "do not use"), use(FactKind::back, "other", "2026-06-11")})).empty());
  CHECK(stops(office.enter({use(FactKind::back, "pump", "2026-06-09"), sign("pump", "do not use")})) ==
        "pump do not use said");
  CHECK(stops(office.enter({sign("pump", "unsafe", "2026-06-11"),
                            look("pump", "unsafe", service::Found::good, "2026-06-12", "guard is on")}))
            .empty());
}

TEST_CASE("so do the words of a look that finds it worn") {
  Office office;
  office.enter({sign("loader", "leak")});
  CHECK(stops(office.enter({look("loader", "leak", service::Found::worn, "2026-06-12", "split, keep it parked")})) ==
        "loader leak");
}

TEST_CASE("a service answers no sign in somebody's own words, of its machine alone") {
  Office office;
  office.enter({sign("loader", "pulls left"), sign("other", "smokes")});
  CHECK(left(office.enter({done("loader", "oil", "2026-06-12")})) == "loader pulls left");
  CHECK(left(office.enter({reading("loader", "2026-06-13", "50")})).empty());
  CHECK(left(office.enter({done("loader", "oil", "2026-06-13"),
                           look("loader", "pulls left", service::Found::good, "2026-06-13", "tyre was soft")}))
            .empty());
}

TEST_CASE("what a check finds worn is new, and told as that") {
  service::FleetFiles files = estate();
  files.texts["schedules/pump.yaml"] =
      "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  guard: {do: Check the guard, every: {months: 12}, safety: true}\n  oil: {do: Oil, every: {months: 12}}\n";
  Office office(files);
  Fact worn = done("pump", "guard", "2026-06-12");
  worn.found = service::Found::worn;
  CHECK(left(office.enter({worn})).empty());
  CHECK(left(office.enter({done("pump", "oil", "2026-06-13")})) == "pump guard found worn");
  CHECK(left(office.enter({done("pump", "guard", "2026-06-14")})).empty());  // done closes it by rule
}

TEST_CASE("a listed sign is told where it is later than the service, or at another position or task") {
  Office office(with_positions());
  office.enter({sign("pump", "drip")});
  CHECK(left(office.enter({done("pump", "oil", "2026-06-12")})).empty());  // the due list tells it
  CHECK(left(office.enter({done("pump", "gland", "2026-06-09")})) ==
        "pump drip at gland@left; pump drip at gland@right; pump drip at seals");
  Fact one = done("pump", "gland", "2026-06-12");
  one.position = "left";
  CHECK(left(office.enter({one})) == "pump drip at gland@right; pump drip at seals");
  CHECK(left(office.enter({done("pump", "overhaul", "2026-06-12")})) == "pump drip at gland@right");
  CHECK(left(office.enter({done("pump", "gland", "2026-06-13")})).empty());
}

TEST_CASE("so does the note of anything else, unless that was done again since") {
  Office office;
  Fact service = done("loader", "oil", "2026-06-10");
  service.note = "engine knocks, do not run";
  CHECK(stops(office.enter({service})) == "loader  said");
  service.on = day("2025-06-10");
  CHECK(stops(office.enter({service})).empty());  // of a year ago
  Fact rest = use(FactKind::laid_up, "pump", "2026-06-10");
  rest.until = day("2026-08-01");
  rest.note = "shaft bent, unsafe";
  CHECK(stops(office.enter({rest})) == "pump ");
  Fact returned = use(FactKind::back, "pump", "2026-06-12");
  returned.note = "bearings noisy, may be unsafe";
  CHECK(stops(office.enter({returned})) == "pump ");
  rest.note = "over winter";
  CHECK(stops(office.enter({rest})).empty());
  Fact stopped = use(FactKind::out_of_use, "pump", "2026-06-13");
  stopped.note = "do not use";
  CHECK(stops(office.enter({stopped})).empty());
}

TEST_CASE("a look finds nothing good whose note says or may say that the machine must not run") {
  Office office;
  office.enter({sign("loader", "leak")});
  using service::Found;
  const auto failure = [&](Found found, std::string_view note) {
    return office.failure(std::vector<Fact>{look("loader", "leak", found, "2026-06-12", note)});
  };
  const std::string refused = std::to_string(static_cast<int>(service::FailureKind::bad_data)) + " good-but-not-to-run";
  CHECK(failure(Found::good, "worse, must not run") == refused);
  CHECK(failure(Found::good, "may be unsafe") == refused);
  CHECK(failure(Found::failed, "worse, must not run") == "none");
  CHECK(failure(Found::good, "clamp tightened, runs well") == "none");

  // Of an old book only what is certain.
  const auto refused_of_file = [&](std::string_view note) {
    const Fact seen = look("loader", "leak", Found::good, "2026-06-12", note);
    service::EntryRequest file = service::entry_of("test", {seen}, day("2026-06-15"));
    auto proposals = file.propose({});
    proposals.front().place = service::Place{"old.csv", 2, 1, 1, {}};
    file.propose = [proposals](const service::Extract&) { return proposals; };
    file.skip_bad = true;
    file.dry_run = true;
    return office.enter(file).refused_rows.size();
  };
  CHECK(refused_of_file("worse, must not run") == 1);
  CHECK(refused_of_file("old hose was unfit, replaced") == 0);
}

TEST_CASE("a machine is not back where the note says for certain that it must not run") {
  Office office;
  const std::string refused = std::to_string(static_cast<int>(service::FailureKind::bad_data)) + " good-but-not-to-run";
  const auto with_note = [](std::string_view note) {
    Fact fact = use(FactKind::back, "loader", "2026-06-12");
    fact.note = note;
    return fact;
  };
  office.enter({use(FactKind::out_of_use, "loader", "2026-06-01")});
  CHECK(office.failure(std::vector<Fact>{with_note("do not drive it")}) == refused);
  CHECK(office.failure(std::vector<Fact>{with_note("was out of use, both forks renewed")}) == "none");
}

TEST_CASE("what follows takes a stop back only where it denies the stop") {
  const auto says = [](std::string_view text) { return service::stop_told(text).says; };
  for (const char* sure : {"do not use it, no brakes", "do not drive, not mended", "do not use it, still drips",
                           "out of use: no parts", "do not use it, wrong hose"}) {
    CAPTURE(sure);
    CHECK((says(sure) == MustNotRun::said));
  }
  for (const char* taken_back : {"out of use - NOT", "do not drive, fixed now", "do not use it, no longer",
                                 "do not run, wrong machine", "do not run it, sorry"}) {
    CAPTURE(taken_back);
    CHECK((says(taken_back) == MustNotRun::may_be_said));
  }
}

TEST_CASE("a service lifts no ban whose note says that the machine must not run") {
  service::FleetFiles files = estate();
  files.texts["schedules/pump.yaml"] =
      "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  guard: {do: Check the guard, every: {months: 12, signs: [rattle]}, safety: true}\n"
      "  oil: {do: Oil, every: {months: 12}}\n";
  Office office(files);
  office.enter({sign("pump", "rattle")});
  const auto with_note = [](std::string_view task, std::string_view note) {
    Fact fact = done("pump", task, "2026-06-12");
    fact.note = note;
    return fact;
  };
  const std::string refused = std::to_string(static_cast<int>(service::FailureKind::bad_data)) + " good-but-not-to-run";
  const Fact guard = with_note("guard", "cracked; must not run");
  CHECK(office.failure(std::vector<Fact>{guard}) == refused);
  CHECK(office.failure(std::vector<Fact>{with_note("oil", "must not run")}) == "none");  // it lifts nothing
  service::EntryRequest file = service::entry_of("test", {guard, with_note("oil", "must not run")}, day("2026-06-15"));
  file.skip_bad = true;
  const Entered entered = office.enter(file);
  REQUIRE(entered.refused_rows.size() == 1);
  CHECK(entered.refused_rows.front() == 0);
  CHECK(entered.added.size() == 1);
  Fact failed = guard;
  failed.found = service::Found::failed;
  CHECK(office.failure(std::vector<Fact>{failed}) == "none");  // the check's own ban stands in its place
  CHECK(office.failure(std::vector<Fact>{with_note("guard", "please do not run it yet")}) == refused);
  CHECK(office.failure(std::vector<Fact>{with_note("guard", "plate welded on")}) == "none");
  CHECK(office.failure(std::vector<Fact>{guard}) == "none");  // nothing is lifted any more
}

TEST_CASE("a renewal that found the old one failed lifts a ban as any other") {
  service::FleetFiles files = estate();
  files.texts["schedules/pump.yaml"] =
      "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  hoses: {do: Renew the hoses, every: {months: 24, signs: [leak]}, safety: true, parts: {hose: 1}}\n";
  files.texts["fleet.yaml"] += "parts: {hose: {what: Hose, unit: pcs}}\n";
  Office office(files);
  office.enter({sign("pump", "leak")});
  Fact renewed = done("pump", "hoses", "2026-06-12");
  renewed.found = service::Found::failed;
  renewed.note = "do not use it";
  const std::string refused = std::to_string(static_cast<int>(service::FailureKind::bad_data)) + " good-but-not-to-run";
  CHECK(office.failure(std::vector<Fact>{renewed}) == refused);
  renewed.note = "old one split";
  CHECK(office.failure(std::vector<Fact>{renewed}) == "none");
}
