// Numbers and limbs in words.
#include "render/shared/words.h"

#include <doctest/doctest.h>

#include <stdexcept>

#include "render/shared/csv_line.h"
#include "render/shared/figures.h"

namespace {

using service::Amount;
using service::LimbKind;
using service::LimbStanding;

service::Machine machine() {
  service::Machine made;
  made.key = "loader";
  made.meters = {{"engine", "h", {}}, {"bales", "bales", {}}};
  return made;
}

LimbStanding usage(std::int64_t every, std::optional<std::int64_t> left, const char* meter = "engine") {
  LimbStanding limb;
  limb.name = meter;
  limb.unit = std::string(meter) == "engine" ? "h" : "bales";
  limb.every = Amount{every};
  if (left) limb.left = Amount{*left};
  return limb;
}

LimbStanding calendar(int months, std::optional<int> left) {
  LimbStanding limb;
  limb.kind = LimbKind::calendar;
  limb.span = service::CalendarSpan{service::CalendarUnit::months, months};
  limb.left_days = left;
  return limb;
}

}  // namespace

TEST_CASE("hours have a decimal and other units only where they need one") {
  CHECK(cli::with_unit(Amount{125000}, "h") == "1250.0 h");
  CHECK(cli::with_unit(Amount{1140}, "h") == "11.4 h");
  CHECK(cli::with_unit(Amount{25}, "h") == "0.25 h");
  CHECK(cli::with_unit(Amount{-1140}, "h") == "-11.4 h");
  CHECK(cli::with_unit(Amount{120000}, "bales") == "1200 bales");
  CHECK(cli::with_unit(Amount{120050}, "km") == "1200.5 km");
  CHECK(cli::with_unit(Amount{100}, "h\x1b[2J").find('\x1b') == std::string::npos);
}

TEST_CASE("limbs say what is left or over, with the right plural") {
  const auto loader = machine();
  service::Point point;
  point.machine = &loader;
  CHECK(cli::words_of(usage(25000, 15000), point) == "150.0 h left of 250 h");
  CHECK(cli::words_of(usage(25000, -1140), point) == "11.4 h over 250 h");
  CHECK(cli::words_of(usage(25000, 0), point) == "250 h reached");
  CHECK(cli::words_of(usage(25000, std::nullopt), point) == "use unknown, of 250 h");
  CHECK(cli::words_of(usage(500000, 100, "bales"), point) == "1 bales left of 5000 bales (bales)");
  CHECK(cli::words_of(calendar(12, 1), point) == "1 day left of 12 months");
  CHECK(cli::words_of(calendar(12, 2), point) == "2 days left of 12 months");
  CHECK(cli::words_of(calendar(1, -1), point) == "1 day over 1 month");
  CHECK(cli::words_of(calendar(12, 0), point) == "12 months up today");
  LimbStanding sign;
  sign.kind = LimbKind::sign;
  sign.signs = {"leak", "smoke", "knock"};
  CHECK(cli::words_of(sign, point).empty());
  CHECK(cli::words_of(sign, point, true) == "on leak, smoke or knock: none seen");
  sign.counted_from = service::day_of(2026, 1, 5);
  CHECK(cli::words_of(sign, point, true) == "on leak, smoke or knock: none seen since 2026-01-05");
  const auto on = [](unsigned day) { return service::DaySpan(service::day_of(2026, 6, day)); };
  sign.noticed = {{"leak", {{on(11), {}, ""}}}};
  sign.noticed[0].looks.push_back({service::day_of(2026, 6, 12), service::Found::worn, "", "sweats", {}});
  sign.noticed[0].looks.push_back({service::day_of(2026, 6, 15), service::Found::good, "M.T.", "tightened", {}});
  CHECK(cli::words_of(sign, point, true) ==
        "leak seen 2026-06-11; looked at 2026-06-12, worn: sweats; looked at 2026-06-15 by M.T., good: tightened");
  // Seen twice: each day has its own note.
  sign.noticed = {{"leak", {{on(11), {}, "drips"}, {on(13), {}, ""}}}};
  sign.seen = "leak";
  sign.due_on = service::day_of(2026, 6, 11);
  CHECK(cli::words_of(sign, point) == "leak seen 2026-06-11 (drips), again 2026-06-13");
  sign.noticed[0].sightings.back().note = "pours";
  CHECK(cli::words_of(sign, point) == "leak seen 2026-06-11 (drips), again 2026-06-13 (pours)");
  // One between them is told where it has a note.
  sign.noticed[0].sightings.insert(sign.noticed[0].sightings.begin() + 1, {on(12), {}, ""});
  CHECK(cli::words_of(sign, point) == "leak seen 2026-06-11 (drips), again 2026-06-13 (pours)");
  sign.noticed[0].sightings[1].note = "hot";
  CHECK(cli::words_of(sign, point) == "leak seen 2026-06-11 (drips), again 2026-06-12 (hot), again 2026-06-13 (pours)");
}

TEST_CASE("the ruling limb comes first and the day says how sure it is") {
  const auto loader = machine();
  const service::Task task;
  service::Point point;
  point.machine = &loader;
  point.task = &task;
  point.limbs = {calendar(12, 40), usage(25000, 1000)};
  for (LimbStanding& limb : point.limbs) limb.state = service::LimbState::not_reached;
  point.ruled_by = 1;
  point.standing = service::Standing::later;
  const auto words = cli::limb_words(point);
  REQUIRE(words.size() == 2);
  CHECK(words[0] == "10.0 h left of 250 h");
  const auto today = service::day_of(2026, 6, 15);
  CHECK(cli::when(point, today).empty());
  point.due_on = service::day_of(2026, 7, 1);
  CHECK(cli::when(point, today) == "about 2026-07-01");
  point.due_span = {service::day_of(2026, 6, 28), point.due_on, service::day_of(2026, 7, 9)};
  CHECK(cli::when(point, today) == "about 2026-07-01 (2026-06-28 to 2026-07-09)");
  point.due_span = {point.due_on, point.due_on, point.due_on};
  CHECK(cli::when(point, today) == "on 2026-07-01");  // a day, whichever limb rules
  point.sooner_if = {"leak", "wear"};
  CHECK(cli::when(point, today) == "by 2026-07-01 at the latest");
  CHECK(cli::sooner_words(point) == "sooner if leak or wear shows it");
  CHECK((cli::remarks_of(point) == std::vector<std::string>{"sooner if leak or wear shows it"}));
  point.due_on = today;
  CHECK(cli::when(point, today) == "today");
  point.due_on = service::day_of(2026, 2, 14);
  CHECK(cli::when(point, today) == "since 2026-02-14");
}

TEST_CASE("use says what is recorded, and today's estimate where that is another in whole units") {
  const auto loader = machine();
  service::Point point;
  point.machine = &loader;
  const auto said = [&](std::int64_t left, std::int64_t by_estimate) {
    LimbStanding limb = usage(25000, left);
    limb.estimated_left = Amount{by_estimate};
    return cli::words_of(limb, point);
  };
  CHECK(said(25000, 1190) == "250.0 h left of 250 h, about 12 h by estimate");
  CHECK(said(1200, -3040) == "12.0 h left of 250 h, about 30 h over by estimate");
  CHECK(said(-1140, -4000) == "11.4 h over 250 h, about 40 h by estimate");
  CHECK(said(0, -900) == "250 h reached, about 9 h over by estimate");
  CHECK(said(15010, 14990) == "150.1 h left of 250 h");
  CHECK(said(-1140, -1149) == "11.4 h over 250 h");
}

TEST_CASE("an estimate that holds use before the fitting says from which reading it counts") {
  const auto loader = machine();
  service::Point point;
  point.machine = &loader;
  LimbStanding limb = usage(1000, 1000);
  limb.estimated_left = Amount{-1900};
  limb.known = service::KnownUsage{service::parse_day("2026-01-01").value.value(), Amount{136500}, service::FactId{}};
  point.fitted = service::Fitted{};
  point.fitted->on = service::DaySpan(service::parse_day("2026-01-20").value.value());
  CHECK(cli::words_of(limb, point) ==
        "10.0 h left of 10 h, about 19 h over by estimate, counted from the reading of 2026-01-01");
  point.fitted->on = service::DaySpan(service::parse_day("2026-01-01").value.value());
  CHECK(cli::words_of(limb, point) == "10.0 h left of 10 h, about 19 h over by estimate");
}

TEST_CASE("each time that something was seen has its own note in words, and a look has its own") {
  const auto on = [](const char* day) { return service::DaySpan(service::parse_day(day).value.value()); };
  service::SeenSign seen;
  seen.sign = "smoke";
  seen.on = on("2026-06-16");
  seen.note = "thin";
  seen.sightings = {{on("2026-06-16"), {}, "thin"}};
  CHECK(cli::seen_words(seen) == "smoke, seen 2026-06-16: thin");
  seen.sightings.push_back({on("2026-06-17"), {}, ""});
  seen.sightings.push_back({on("2026-06-18"), {}, "flames now"});
  seen.note = "flames now";
  CHECK(cli::seen_words(seen) == "smoke, seen 2026-06-16 (thin), again 2026-06-18 (flames now)");
  seen.sightings.push_back({on("2026-06-19"), {}, ""});
  CHECK(cli::seen_words(seen) == "smoke, seen 2026-06-16 (thin), again 2026-06-18 (flames now), again 2026-06-19");
  seen.found = service::Found::failed;
  seen.looked_on = service::parse_day("2026-06-17").value;
  seen.note = "bearing gone";
  CHECK(cli::seen_words(seen) ==
        "smoke, seen 2026-06-16 (thin), again 2026-06-18 (flames now), again 2026-06-19; looked at 2026-06-17, found "
        "failed: bearing gone");
}

TEST_CASE("a value near its limit is to be measured again") {
  service::Point point;
  LimbStanding wear;
  wear.kind = LimbKind::measured;
  wear.name = "wear";
  wear.unit = "%";
  wear.limit = *service::parse_measure("10");
  wear.measured = *service::parse_measure("9");
  CHECK(cli::words_of(wear, point) == "wear 9 %, limit 10 %");
  point.measure_again = {"wear"};
  CHECK(cli::words_of(wear, point) == "wear 9 %, limit 10 %: measure again");
}

TEST_CASE("an estimate is rounded once, and its decimal says the number that it is") {
  CHECK(cli::decimal(cli::mean_of(938.1546)) == "938.155");
  CHECK(cli::decimal(cli::mean_of(2.0)) == "2");
  CHECK(cli::decimal(cli::share_of(0.99996)) == "1");
  CHECK(cli::decimal(cli::share_of(0.00004)) == "0");
  CHECK(cli::decimal(cli::days_of(7.966)) == "7.97");
  for (int i = 0; i < 2000; ++i) {
    const double mean = cli::mean_of(i * 0.7654321);
    CHECK(std::stod(cli::decimal(mean)) == mean);
  }
}

TEST_CASE("rows of CSV fill the columns that they name") {
  cli::CsvTable table({"row", "machine", "say"});
  table.add({{"say", "no reading"}, {"row", "gap"}});
  table.add({{"machine", "pump"}});
  CHECK(table.text() == "row,machine,say\r\ngap,,no reading\r\n,pump,\r\n");
  CHECK_THROWS_AS(table.add({{"site", "yard"}}), std::logic_error);
}

TEST_CASE("names are joined as people join them") {
  CHECK(cli::listed({}, "and").empty());
  CHECK(cli::listed({"leak"}, "or") == "leak");
  CHECK(cli::listed({"leak", "noise", "hard-start"}, "or") == "leak, noise or hard-start");
  CHECK(service::point_label("tyre", "front-left") == "tyre@front-left");
  CHECK(service::point_label("engine-oil", "").find('@') == std::string::npos);
}
