// What is mailed: the whole overdue list, or what is new or worse since it was last handed over; and the weekly word.
#include "service/overdue_news.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "support/world.h"

using service::FactKind;
using service::Handed;
using service::OverdueNews;
using test::World;

namespace {

std::string counts(const service::OverdueCounts& all) {
  std::string text = all.not_to_run == 0 ? "" : "not-to-run:" + std::to_string(all.not_to_run);
  for (const auto& count : all.others) {
    text += (text.empty() ? "" : " ") + std::string(to_text(count.heading)) + ":" + std::to_string(count.lines);
  }
  return text;
}

// What must not wait, line by line: `m:brakes n:seen`.
std::string urgent(const OverdueNews& news) {
  std::string text;
  for (const service::UrgentLine& line : news.first) {
    text += (text.empty() ? "" : " ") + line.machine->key + ':';
    for (const service::OverdueEntry& entry : line.entries) {
      const bool first = &entry == &line.entries.front();
      text += (first ? "" : ";") + (entry.point != nullptr  ? entry.point->name
                                    : entry.seen != nullptr ? "seen"
                                                            : "machine");
    }
  }
  return text;
}

// Somebody who mails what is new every morning, and remembers what a mailer took.
class Postman {
 public:
  explicit Postman(const World& world) : world_(world) {}

  // What the message of that day holds.
  std::string morning(std::string_view as_of, bool mailer_works = true) {
    const service::DueList list = world_.due(as_of);
    const OverdueNews news = overdue_news(list, &handed_);
    std::string text = counts(news.counts);
    if (!(news.said_before == service::OverdueCounts{})) text += " (" + counts(news.said_before) + ")";
    // On a morning without a message, too: what was answered is forgotten.
    if (news.blocks.empty() || mailer_works) {
      // As it is kept in a file.
      const auto kept = service::parse_handed(to_text(news.then), world_.fleet().name, test::day(as_of));
      REQUIRE_MESSAGE(bool(kept), kept.problem);
      CHECK(bool(*kept == news.then));
      handed_ = *kept;
    }
    return text;
  }

 private:
  const World& world_;
  Handed handed_;
};

World by_months(const std::string& tasks) {
  World world(tasks, "bought: {on: 2020-01-01, at: 0}");
  world.reading("2026-02-01", "100");
  return world;
}

const std::string yearly = "  t: {do: Work, every: {months: 12}}\n";
const std::string two_yearly = yearly + "  u: {do: Other work, every: {months: 12}}\n";

}  // namespace

TEST_CASE("what was told is told again when it is over by twice what was last said") {
  World world = by_months(yearly);
  world.done("t", "2025-02-10");
  Postman postman(world);
  CHECK(postman.morning("2026-02-10").empty());
  CHECK(postman.morning("2026-02-13") == "overdue:1");  // by 3 days
  CHECK(postman.morning("2026-02-14") == " (overdue:1)");
  CHECK(postman.morning("2026-02-15") == " (overdue:1)");
  CHECK(postman.morning("2026-02-16") == "overdue:1");  // 6
  CHECK(postman.morning("2026-02-21") == " (overdue:1)");
  CHECK(postman.morning("2026-02-22") == "overdue:1");  // 12
}

TEST_CASE("by hours it is over by twice when a reading says so, and days alone do not make it so") {
  World world("  t: {do: Work, every: {hours: 100}}\n", "bought: {on: 2020-01-01, at: 0}");
  world.done("t", "2026-01-01", "1000");
  world.reading("2026-02-01", "1110");
  Postman postman(world);
  CHECK(postman.morning("2026-02-01") == "overdue:1");
  CHECK(postman.morning("2026-02-20") == " (overdue:1)");
  world.reading("2026-02-20", "1119.9");
  CHECK(postman.morning("2026-02-20") == " (overdue:1)");
  world.reading("2026-02-21", "1120");
  CHECK(postman.morning("2026-02-21") == "overdue:1");
}

TEST_CASE("a second limb that is over as well is worse") {
  World world("  t: {do: Work, every: {hours: 100, months: 12}}\n", "bought: {on: 2020-01-01, at: 0}");
  world.done("t", "2025-02-10", "1000");
  world.reading("2026-02-01", "1150");
  Postman postman(world);
  CHECK(postman.morning("2026-02-10") == "overdue:1");
  CHECK(postman.morning("2026-02-11") == "overdue:1");  // now by months, too
  CHECK(postman.morning("2026-02-12") == "overdue:1");  // by two days, not by one
  CHECK(postman.morning("2026-02-13") == " (overdue:1)");
}

TEST_CASE("what a mailer did not take is told the next day") {
  World world = by_months(two_yearly);
  world.done("t", "2025-02-10");
  world.done("u", "2025-02-11");
  Postman postman(world);
  CHECK(postman.morning("2026-02-11") == "overdue:1");
  CHECK(postman.morning("2026-02-12", false) == "overdue:2");  // t is worse, u is new
  CHECK(postman.morning("2026-02-13") == "overdue:2");
}

TEST_CASE("what is not in a message keeps the measure by which it was last told") {
  World world = by_months(two_yearly);
  world.done("t", "2025-02-10");
  world.done("u", "2025-02-13");
  Postman postman(world);
  CHECK(postman.morning("2026-02-13") == "overdue:1");              // t by 3
  CHECK(postman.morning("2026-02-14") == "overdue:1 (overdue:1)");  // u by 1, t by 4
  CHECK(postman.morning("2026-02-16") == "overdue:2");              // t by 6: twice 3, not twice 4; u by 3
}

TEST_CASE("another heading is news, whichever it is") {
  World world = by_months(yearly);
  world.done("t", "2025-02-01");
  Postman postman(world);
  CHECK(postman.morning("2026-02-10") == "overdue:1");
  world.put_off("t", "2026-02-11", "2026-02-14");
  CHECK(postman.morning("2026-02-11") == "put-off:1");
  CHECK(postman.morning("2026-02-12") == " (put-off:1)");
  CHECK(postman.morning("2026-02-14") == "overdue:1");
  world.state(FactKind::laid_up, "2026-02-15");
  CHECK(postman.morning("2026-02-15") == "laid-up:1");
}

TEST_CASE("what was answered and came back is never taken for what was told") {
  World world("  t: {do: Work, every: {days: 5}}\n  h: {do: Hoses, every: {years: 20, signs: [leak]}}\n",
              "in-service: 2026-01-01");
  Postman postman(world);
  CHECK(postman.morning("2026-01-08") == "overdue:1");
  world.done("t", "2026-01-08");
  CHECK(postman.morning("2026-01-15") == "overdue:1");  // by 2 days, as the first time
  world.done("t", "2026-01-15");
  world.sign("leak", "2026-01-16");
  CHECK(postman.morning("2026-01-17") == "overdue:1");
  world.done("h", "2026-01-17");
  world.sign("leak", "2026-01-18");
  CHECK(postman.morning("2026-01-19") == "overdue:1");
}

TEST_CASE("a service that was struck again leaves news behind, where a morning lay between") {
  World world = by_months(yearly);
  world.done("t", "2025-02-01");
  Postman postman(world);
  CHECK(postman.morning("2026-02-10") == "overdue:1");
  const service::FactId done = world.done("t", "2026-02-10").id;
  CHECK(postman.morning("2026-02-11").empty());
  world.strike(done);
  CHECK(postman.morning("2026-02-12") == "overdue:1");
}

TEST_CASE("a sign that is seen again is news, listed or not") {
  World world("  h: {do: Hoses, every: {years: 20, signs: [leak]}}\n", "in-service: 2026-01-01");
  Postman postman(world);
  world.sign("leak", "2026-01-06");
  world.sign("knock", "2026-01-06");
  CHECK(postman.morning("2026-01-17") == "overdue:1 seen:1");
  CHECK(postman.morning("2026-01-18") == " (overdue:1 seen:1)");
  world.sign("leak", "2026-01-18");
  CHECK(postman.morning("2026-01-18") == "overdue:1 (seen:1)");
  world.sign("knock", "2026-01-19").note = "louder";
  CHECK(postman.morning("2026-01-19") == "seen:1 (overdue:1)");
  CHECK(postman.morning("2026-01-20") == " (overdue:1 seen:1)");
}

TEST_CASE("what is seen again or looked at since says so, and another sign of that name is new") {
  World world("  h: {do: Hoses, every: {years: 20}}\n", "in-service: 2026-01-01");
  world.sign("knock", "2026-01-06").note = "soft";
  const auto early = world.due("2026-01-17");
  const auto told = overdue_news(early);
  world.sign("knock", "2026-01-18").note = "louder";
  {
    const auto list = world.due("2026-01-18");
    const auto news = overdue_news(list, &told.then);
    const auto* const before = news.told(list.seen.front());
    REQUIRE(bool(before != nullptr));
    REQUIRE(bool(before->seen_again != nullptr));
    CHECK(before->seen_again->note == "louder");
    CHECK_FALSE(before->looked_since);
  }
  const auto look = [&](std::string_view on, service::Found found) {
    service::Fact fact;
    fact.kind = FactKind::looked_at;
    fact.machine = "m";
    fact.on = test::day(on);
    fact.name = "knock";
    fact.note = "looked";
    fact.found = found;
    world.add(fact);
  };
  look("2026-01-19", service::Found::worn);
  const auto list = world.due("2026-01-19");
  const auto news = overdue_news(list, &told.then);
  REQUIRE(bool(news.told(list.seen.front()) != nullptr));
  CHECK(news.told(list.seen.front())->looked_since);
  look("2026-01-20", service::Found::good);
  world.sign("knock", "2026-01-21");
  const auto anew = world.due("2026-01-21");
  CHECK(bool(overdue_news(anew, &told.then).told(anew.seen.front()) == nullptr));
}

TEST_CASE(
    "a value at its limit is told, and again where it is measured again, on what was told for another reason too") {
  World world = by_months(
      "  tyre: {do: Tyre, every: {months: 12, measured: {tread: {below: 15, unit: mm}}}, "
      "safety: true}\n");
  world.done("tyre", "2025-02-11");
  Postman postman(world);
  CHECK(postman.morning("2026-02-10").empty());
  world.measured("tread", "15", "2026-02-10", "mm");
  CHECK(postman.morning("2026-02-10") == "not-to-run:1");
  CHECK(postman.morning("2026-02-11") == " (not-to-run:1)");
  CHECK(postman.morning("2026-02-12") == "not-to-run:1 overdue:1");
  CHECK(postman.morning("2026-02-13") == "not-to-run:1 overdue:1");  // by twice
  world.measured("tread", "15", "2026-02-14", "mm");
  CHECK(postman.morning("2026-02-14") == "not-to-run:1 overdue:1");
  CHECK(postman.morning("2026-02-15") == " (not-to-run:1 overdue:1)");
}

TEST_CASE("an estimate that a reading answered is told anew when it is there again") {
  World world("  t: {do: Work, every: {hours: 100}}\n", "bought: {on: 2020-01-01, at: 0}");
  world.reading("2025-01-01", "1000");
  world.done("t", "2025-10-28", "1300");
  world.reading("2026-01-20", "1384");
  Postman postman(world);
  CHECK(postman.morning("2026-02-06") == "read-the-meter:1");
  world.reading("2026-02-06", "1390");
  CHECK(postman.morning("2026-02-07").empty());
  CHECK(postman.morning("2026-02-18") == "read-the-meter:1");
}

TEST_CASE("gaps: stale by twice the days, another doubt, another fact") {
  World world = by_months("  t: {do: Work, every: {hours: 10000}}\n");
  world.done("t", "2026-02-01");
  Postman postman(world);
  CHECK(postman.morning("2026-04-03") == "find-out:1");  // 61 days
  CHECK(postman.morning("2026-04-04") == " (find-out:1)");
  CHECK(postman.morning("2026-06-02") == " (find-out:1)");
  CHECK(postman.morning("2026-06-03") == "find-out:1");  // 122
  world.reading("2026-06-03", "200");
  CHECK(postman.morning("2026-06-04").empty());
  CHECK(postman.morning("2026-08-03") == "find-out:1");  // stale anew, by 61 days
}

TEST_CASE("another reason why a machine is out of use is news") {
  World world = by_months(yearly);
  world.done("t", "2026-02-01");
  world.state(FactKind::out_of_use, "2026-02-10").note = "brakes";
  Postman postman(world);
  CHECK(postman.morning("2026-02-10") == "not-to-run:1");
  CHECK(postman.morning("2026-03-10") == " (not-to-run:1)");
  const auto early = world.due("2026-03-10");
  const auto told = overdue_news(early);
  world.state(FactKind::out_of_use, "2026-03-11").note = "steering";
  CHECK(postman.morning("2026-03-11") == "not-to-run:1");
  // It is said that it was that already, and what was added.
  const auto list = world.due("2026-03-11");
  const auto news = overdue_news(list, &told.then);
  const auto* const before = news.told(list.not_in_use.front());
  REQUIRE(bool(before != nullptr));
  REQUIRE(before->reasons_since.size() == 1);
  CHECK(before->reasons_since.front().note == "steering");
  world.state(FactKind::back, "2026-03-12");
  world.state(FactKind::out_of_use, "2026-03-12").note = "brakes";
  world.state(FactKind::out_of_use, "2026-03-13").note = "lamp";
  const auto anew = world.due("2026-03-13");
  CHECK(bool(overdue_news(anew, &told.then).told(anew.not_in_use.front()) == nullptr));
}

TEST_CASE("what is open on a machine that is back in use is news, until a mailer took it") {
  World world = by_months(two_yearly);
  world.done("t", "2025-02-01");
  world.done("u", "2026-01-01");
  world.sign("fork bent", "2026-02-05");
  world.state(FactKind::out_of_use, "2026-02-06");
  Postman postman(world);
  CHECK(postman.morning("2026-02-06") == "not-to-run:1 overdue:1 seen:1");
  CHECK(postman.morning("2026-02-07") == " (not-to-run:1 overdue:1 seen:1)");
  world.state(FactKind::back, "2026-02-07");
  CHECK(postman.morning("2026-02-08", false) == "overdue:1 seen:1");
  CHECK(postman.morning("2026-02-09") == "overdue:1 seen:1");
  CHECK(postman.morning("2026-02-10") == " (overdue:1 seen:1)");
}

TEST_CASE("what is open on a machine that was laid up is news when it is back, on the day that was planned too") {
  World world = by_months(yearly);
  world.done("t", "2026-01-01");
  world.sign("fork bent", "2026-02-05");
  world.state(FactKind::out_of_use, "2026-02-06");
  Postman postman(world);
  CHECK(postman.morning("2026-02-06") == "not-to-run:1 seen:1");
  // From out of use into a lay-up: not back in between.
  world.state(FactKind::back, "2026-02-07");
  world.state(FactKind::laid_up, "2026-02-07", "2026-02-10");
  CHECK(postman.morning("2026-02-07") == " (seen:1)");
  CHECK(postman.morning("2026-02-09") == " (seen:1)");
  CHECK(postman.morning("2026-02-10") == "seen:1");
  CHECK(postman.morning("2026-02-11") == " (seen:1)");
}

TEST_CASE("it is said of what is on a machine that is back, and must not wait where it is past its day") {
  World world = by_months("  v: {do: More work, every: {months: 12}}\n" + two_yearly);
  world.done("t", "2025-02-01");
  world.done("u", "2026-01-01");
  world.sign("fork bent", "2026-02-05");
  world.state(FactKind::out_of_use, "2026-02-06");
  const auto early = world.due("2026-02-06");
  const auto told = overdue_news(early);
  world.state(FactKind::back, "2026-02-07");
  const auto snapshot = world.snapshot("2026-02-08");
  const auto list = world.due("2026-02-08");
  const auto news = overdue_news(list, &told.then, &snapshot);
  CHECK(counts(news.counts) == "overdue:1 seen:1 find-out:1");
  REQUIRE(news.told_before.size() == 3);
  for (const auto& one : news.told_before) {
    REQUIRE(one.back.has_value());
    CHECK(bool(one.back->was == service::OverdueHeading::out_of_use));
    CHECK(test::text_or_none(one.back->since) == "2026-02-07");
  }
  REQUIRE(list.seen.size() == 1);
  CHECK(bool(news.told(list.seen.front()) != nullptr));
  // Neither is of safety; nor is what nobody knows, which waits.
  CHECK(urgent(news) == "m:t;seen");
  // Once that was said, it is told of as all else is.
  const auto next = world.due("2026-02-09");
  CHECK(overdue_news(next, &news.then, &snapshot).blocks.empty());
}

TEST_CASE("how far over something was by estimate is kept as an estimate") {
  World world("  t: {do: Work, every: {hours: 100}}\n", "bought: {on: 2020-01-01, at: 0}");
  world.reading("2025-01-01", "1000");
  world.done("t", "2025-10-28", "1300");
  world.reading("2026-01-20", "1384");
  const auto early = world.due("2026-02-06");
  const auto told = overdue_news(early);
  REQUIRE(told.then.entries.size() == 1);
  const auto kept = service::parse_handed(to_text(told.then), "Test", test::day("2026-02-06"));
  REQUIRE_MESSAGE(bool(kept), kept.problem);
  CHECK(bool(*kept == told.then));
  const auto late = world.due("2026-03-10");
  const auto news = overdue_news(late, &*kept);
  REQUIRE(news.told_before.size() == 1);
  REQUIRE(news.told_before.front().further.size() == 1);
  const auto& further = news.told_before.front().further.front();
  REQUIRE(further.was.has_value());
  CHECK(further.was->by_estimate);
  CHECK(further.is.by_estimate);
  CHECK(further.is.far >= 2 * further.was->far);
}

TEST_CASE("machines without a site are named where others have one, while they are kept") {
  const auto without = [](const std::string& first_site) {
    const World world(service::FleetFiles{
        "",
        {{"fleet.yaml", "fleet: Test\nsites: {yard: {}}\nmachines:\n  a: {schedule: kind" + first_site +
                            "}\n  b: {schedule: kind}\n  c: {schedule: kind, left: 2026-02-01}\n"},
         {"schedules/kind.yaml", "schedule: kind\ntasks:\n" + yearly}}});
    std::string text;
    for (const char* day : {"2026-01-31", "2026-02-01"}) {
      for (const auto* machine : service::machines_without_site(world.fleet(), test::day(day))) text += machine->key;
      text += ' ';
    }
    return text;
  };
  CHECK(without(", site: yard") == "bc b ");
  CHECK(without("") == "  ");
}

TEST_CASE("a machine without record is one line, in the counts too") {
  const World world = by_months(two_yearly);
  const auto list = world.due("2026-02-10");
  const OverdueNews news = overdue_news(list);
  CHECK(news.everything);
  CHECK(counts(news.counts) == "find-out:1");
  CHECK(news.blocks.front().entries.size() == 2);
  CHECK(bool(news.said_before == service::OverdueCounts{}));
}

TEST_CASE("first of all is what must not wait, and nothing else") {
  World world = by_months("  brakes: {do: Test, every: {months: 12}, safety: true}\n" + yearly);
  world.done("brakes", "2025-01-01");
  world.done("t", "2025-01-01");
  {
    const auto list = world.due("2026-02-10");
    const auto news = overdue_news(list);
    CHECK(urgent(news) == "m:brakes");
  }
  world.state(FactKind::out_of_use, "2026-02-10");
  const auto list = world.due("2026-02-10");
  const auto news = overdue_news(list);
  CHECK(urgent(news) == "m:machine;brakes");
  // Told already, it is not in the message, and so not first in it.
  CHECK(overdue_news(list, &news.then).first.empty());
}

TEST_CASE("what forbids to run a machine stands first and is never cut, then what else must not wait there") {
  service::FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\nmachines:\n  m: {schedule: kind, in-service: 2020-01-01}\n"
      "  n: {schedule: kind, in-service: 2020-01-01}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  brakes: {do: Test, every: {months: 12}, safety: true}\n"
      "  guards: {do: Look, every: {months: 12}, safety: true}\n"
      "  hoses: {do: Hoses, every: {years: 20, signs: [leak]}, safety: true}\n";
  World world(files);
  const auto list_of = [&] { return world.due("2026-02-10"); };
  {
    const auto list = list_of();
    const auto news = overdue_news(list);
    CHECK(urgent(news) == "m:brakes;guards n:brakes;guards");
    CHECK(news.not_to_run.bans().empty());
  }
  service::Fact leak;
  leak.kind = FactKind::sign;
  leak.machine = "n";
  leak.on = test::day("2026-02-10");
  leak.name = "leak";
  world.add(leak);
  const auto list = list_of();
  const auto news = overdue_news(list);
  CHECK(urgent(news) == "n:hoses;brakes;guards m:brakes;guards");
  CHECK(bool(news.first[0].entries[0].heading == service::OverdueHeading::do_not_run));
  REQUIRE(news.not_to_run.bans().size() == 1);
  CHECK(news.not_to_run.bans().front().machine->key == "n");
  // The sign was told; what is new of that machine all the same says that nobody may run it, and is not cut.
  const auto later = world.due("2026-02-11");
  Handed before = overdue_news(later).then;
  std::erase_if(before.entries,
                [](const service::SaidEntry& one) { return one.name.find("brakes") != std::string::npos; });
  const auto rest = overdue_news(later, &before);
  CHECK(urgent(rest) == "n:brakes m:brakes");
  REQUIRE(rest.first[0].ban != nullptr);
  CHECK(rest.first[0].ban->points.front()->name == "hoses");
  CHECK(rest.first[0].causes == 0);
  CHECK(counts(rest.counts) == "overdue:2");
  CHECK(counts(rest.said_before) == "not-to-run:1 overdue:3");
  // Told of the message: however little room there is, that machine has its line.
  const auto shown = [](const OverdueNews& told, std::size_t room) {
    std::string text;
    const service::UrgentHead head = urgent_head(told, room);
    for (const service::UrgentLine* line : head.lines) text += line->machine->key + ' ';
    return text + std::to_string(head.machines_left_off);
  };
  CHECK(shown(news, 8) == "n m 0");
  CHECK(shown(news, 1) == "n m 0");  // one machine alone is not left off: that would take its line
}

TEST_CASE("a machine with something that must not wait has one line, with all of it") {
  service::FleetFiles files;
  std::string machines;
  for (int i = 0; i < 12; ++i) machines += "  m" + std::to_string(i) + ": {schedule: kind, in-service: 2020-01-01}\n";
  files.texts["fleet.yaml"] = "fleet: Test\nmachines:\n" + machines;
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  brakes: {do: Test, every: {months: 12}, safety: true}\n"
      "  guards: {do: Look, every: {months: 12}, safety: true}\n"
      "  hoses: {do: Hoses, every: {years: 20, signs: [leak]}, safety: true}\n";
  World world(files);
  const auto sees = [&](const std::string& machine, const std::string& sign) {
    service::Fact fact;
    fact.kind = FactKind::sign;
    fact.machine = machine;
    fact.on = test::day("2026-02-10");
    fact.name = sign;
    world.add(fact);
  };
  sees("m11", "leak");
  sees("m11", "odd noise");
  const auto list = world.due("2026-02-10");
  const auto news = overdue_news(list);
  const service::UrgentHead head = urgent_head(news, 8);
  REQUIRE(head.lines.size() == 8);
  CHECK(head.lines[0]->machine->key == "m11");
  CHECK(head.lines[0]->ban != nullptr);
  CHECK(head.lines[0]->causes == 1);
  CHECK(head.lines[0]->entries.size() == 4);  // hoses, brakes, guards and the noise
  CHECK(head.lines[0]->entries[0].point->name == "hoses");
  for (std::size_t i = 1; i < head.lines.size(); ++i) {
    CHECK(head.lines[i]->machine->key == "m" + std::to_string(i - 1));
    CHECK(head.lines[i]->entries.size() == 2);
  }
  CHECK(head.machines_left_off == 4);
  CHECK(bool(head.left_off == std::vector<service::HeadingCount>{{service::OverdueHeading::overdue, 8}}));
  // However many nobody may run, each has its line; and one machine alone is never left off.
  for (const char* machine : {"m0", "m1", "m2", "m3", "m4", "m5", "m6", "m7", "m8"}) sees(machine, "leak");
  const auto stopped = world.due("2026-02-10");
  const auto ten = overdue_news(stopped);
  CHECK(urgent_head(ten, 8).lines.size() == 10);
  CHECK(urgent_head(ten, 8).machines_left_off == 2);
  CHECK(urgent_head(ten, 11).lines.size() == 12);
}

TEST_CASE("machines that nobody may run are one count, whatever forbids it and wherever they stand") {
  World world = by_months("  h: {do: Hoses, every: {years: 20, signs: [leak, crack]}, safety: true}\n" + yearly);
  world.done("h", "2026-01-01");
  world.done("t", "2026-01-01");
  world.sign("leak", "2026-02-10");
  const auto told = [&] {
    const auto list = world.due("2026-02-10");
    const std::string text = counts(overdue_counts(list));
    CHECK(text == counts(overdue_news(list).counts));
    return text;
  };
  CHECK(told() == "not-to-run:1");
  world.state(FactKind::laid_up, "2026-02-10");
  CHECK(told() == "not-to-run:1 laid-up:1");
  world.state(FactKind::out_of_use, "2026-02-10");  // both: one machine
  CHECK(told().starts_with("not-to-run:1"));
  CHECK(told().find("out-of-use") == std::string::npos);
}

TEST_CASE("after a message that there is no list the next one is whole, once for each message of its own") {
  World world = by_months(yearly);
  world.done("t", "2025-02-01");
  const auto list = world.due("2026-02-10");
  Handed before = overdue_news(list).then;
  service::NoLists sent;
  CHECK_FALSE(owes_whole_list(nullptr, sent));
  CHECK_FALSE(owes_whole_list(&before, sent));
  sent = {1, test::day("2026-02-11")};
  CHECK(owes_whole_list(nullptr, sent));
  CHECK(owes_whole_list(&before, sent));
  before.no_lists = 1;
  const auto kept = service::parse_handed(to_text(before), "Test", test::day("2026-02-12"));
  REQUIRE_MESSAGE(bool(kept), kept.problem);
  CHECK(bool(*kept == before));
  CHECK_FALSE(owes_whole_list(&*kept, sent));
  // On a morning without news it is not forgotten.
  CHECK(overdue_news(list, &*kept).then.no_lists == 1);
  const std::string text = to_text(sent);
  CHECK(bool(service::parse_no_lists(text).value == sent));
  for (std::size_t at = 0; at < text.size(); ++at) {
    CHECK_FALSE(bool(service::parse_no_lists(text.substr(0, at))));
  }
}

TEST_CASE("whatever somebody saw must not wait, nor what nobody knows of safety") {
  World world = by_months("  brakes: {do: Test, every: {months: 12}, safety: true}\n" + yearly);
  world.sign("pulls to the left", "2026-02-05");
  const auto list = world.due("2026-02-10");
  const auto news = overdue_news(list);
  CHECK(urgent(news) == "m:seen;brakes");  // and not the other without record
  CHECK(news.first[0].entries[0].seen->sign == "pulls to the left");
  CHECK_FALSE(news.first[0].entries[0].seen->safety);
  CHECK(bool(news.first[0].entries[1].heading == service::OverdueHeading::find_out));
}

TEST_CASE("what is worse says how far over it was when it was last told, and what is new says nothing") {
  World world = by_months(two_yearly);
  world.done("t", "2025-02-01");  // due on 2026-02-01
  const auto early = world.due("2026-02-04");
  const auto told = overdue_news(early);
  CHECK(told.told_before.empty());
  world.done("u", "2025-02-01");
  const auto late = world.due("2026-02-07");
  const auto news = overdue_news(late, &told.then);
  REQUIRE(news.told_before.size() == 2);
  // `u` had no record then: it has moved.
  for (const auto& one : news.told_before) {
    REQUIRE(bool(one.entry.point != nullptr));
    CHECK(bool(news.told(*one.entry.point) == &one));
    if (one.entry.point->name == "u") {
      CHECK(bool(one.was_under == service::OverdueHeading::find_out));
      CHECK(one.further.empty());
    } else {
      CHECK_FALSE(one.was_under.has_value());
      REQUIRE(one.further.size() == 1);
      CHECK(bool(one.further.front().was == service::SaidOver{3}));
      CHECK(bool(one.further.front().is == service::SaidOver{6}));
      CHECK(bool(one.further.front().limb->kind == service::LimbKind::calendar));
    }
  }
  // What was over by another limb as well is told with what is worse.
  World two("  t: {do: Work, every: {hours: 100, months: 12}}\n", "bought: {on: 2020-01-01, at: 0}");
  two.done("t", "2025-02-09", "1000");
  two.reading("2026-02-01", "1150");
  const auto by_one = two.due("2026-02-09");
  const auto said = overdue_news(by_one);
  const auto by_both = two.due("2026-02-10");
  const auto worse = overdue_news(by_both, &said.then);
  REQUIRE(worse.told_before.size() == 1);
  const auto& further = worse.told_before.front().further;
  REQUIRE(further.size() == 2);
  CHECK(bool(further[0].was == service::SaidOver{5000}));
  CHECK_FALSE(further[1].was.has_value());
  // All of it, or nothing told before: all is new.
  CHECK(overdue_news(late).told_before.empty());
  const Handed nothing;
  CHECK(overdue_news(late, &nothing).told_before.empty());
}

TEST_CASE("what was kept and is damaged, another's or of another day is a problem and nothing else") {
  World world = by_months(yearly);
  world.done("t", "2025-02-01");
  const auto list = world.due("2026-02-10");
  const std::string kept = to_text(overdue_news(list).then);
  const service::Day today = test::day("2026-02-10");
  REQUIRE(bool(service::parse_handed(kept, "Test", today)));
  CHECK(bool(service::parse_handed(kept, "Test", today + std::chrono::days{1})));
  CHECK(service::parse_handed(kept, "Text", today).problem == "is of another fleet");
  CHECK(service::parse_handed(kept, "Test", today - std::chrono::days{1}).problem == "is of a later day than this one");
  CHECK(service::parse_handed("", "Test", today).problem == "is not what this program keeps");
  CHECK(service::parse_handed("MAILED=1\n", "Test", today).problem == "is not what this program keeps");
  for (std::size_t at = 0; at < kept.size(); ++at) {
    CAPTURE(at);
    std::string bent = kept;
    bent[at] = static_cast<char>(bent[at] ^ 1);
    CHECK_FALSE(bool(service::parse_handed(bent, "Test", today)));
    CHECK_FALSE(bool(service::parse_handed(kept.substr(0, at), "Test", today)));
  }
  CHECK_FALSE(bool(service::parse_handed(kept + "x", "Test", today)));
}

TEST_CASE("no name that somebody wrote breaks what is kept") {
  World world("  t: {do: Work, every: {months: 12}}\n", "in-service: 2026-01-01", "mail: {to: [a@b]}\n");
  world.sign("knock\tchecksum\t0\noverdue\tx", "2026-02-01");
  const auto list = world.due("2026-02-10");
  const auto news = overdue_news(list);
  REQUIRE(news.blocks.size() == 1);
  const auto kept = service::parse_handed(to_text(news.then), "Test", test::day("2026-02-10"));
  REQUIRE_MESSAGE(bool(kept), kept.problem);
  CHECK(bool(*kept == news.then));
  CHECK(overdue_news(list, &*kept).blocks.empty());
}

TEST_CASE("of fourteen days the weekly word is on two") {
  const auto days = [](const std::string& mail, bool always) {
    const World world(yearly, "", mail);
    std::string text;
    for (int i = 0; i < 14; ++i) {
      const service::Day day = test::day("2026-06-08") + std::chrono::days{i};  // a Monday
      if (service::weekly_word_is_on(world.fleet(), day, always)) text += service::to_text(day).substr(8) + ' ';
    }
    return text;
  };
  CHECK(days("", false) == "08 15 ");
  CHECK(days("mail: {to: [a@b]}\n", false) == "08 15 ");
  CHECK(days("mail: {to: [a@b], weekly-word: monday}\n", false) == "08 15 ");
  CHECK(days("mail: {to: [a@b], weekly-word: sunday}\n", false) == "14 21 ");
  CHECK(days("mail: {to: [a@b], weekly-word: off}\n", false).empty());
  // Where only news is mailed, nobody turns it off.
  CHECK(days("mail: {to: [a@b], weekly-word: off}\n", true) == "08 15 ");
  CHECK(days("mail: {to: [a@b], weekly-word: thu}\n", true) == "11 18 ");
}

TEST_CASE("the weekly word is owed from its weekday until the day on which it was handed over") {
  const World world(yearly, "", "mail: {to: [a@b], weekly-word: wed}\n");
  const auto on = [&](const char* day, const char* last) {
    return service::weekly_word_is_on(world.fleet(), test::day(day), false, test::day(last));
  };
  CHECK_FALSE(on("2026-06-16", "2026-06-10"));  // a Tuesday, and the Wednesday before
  CHECK(on("2026-06-17", "2026-06-10"));
  CHECK_FALSE(on("2026-06-17", "2026-06-17"));
  CHECK(on("2026-06-18", "2026-06-16"));
  CHECK(on("2026-06-23", "2026-06-16"));
  CHECK_FALSE(on("2026-06-23", "2026-06-17"));
  CHECK_FALSE(on("2026-06-23", "2026-06-18"));  // late
  CHECK(on("2026-07-21", "2026-06-18"));
}

TEST_CASE("the weekly words that were missed are those since the last one, and before today") {
  const World world(yearly, "", "mail: {to: [a@b], weekly-word: wed}\n");
  const auto missed = [&](const char* day, const char* last) {
    std::string text;
    for (const service::Day each : service::weekly_words_missed(world.fleet(), test::day(day), test::day(last))) {
      text += service::to_text(each).substr(5) + ' ';
    }
    return text;
  };
  CHECK(missed("2026-06-17", "2026-06-10").empty());  // a Wednesday, and the one before
  CHECK(missed("2026-06-17", "2026-06-09") == "06-10 ");
  CHECK(missed("2026-06-18", "2026-06-16") == "06-17 ");
  CHECK(missed("2026-06-18", "2026-06-18").empty());
  CHECK(missed("2026-07-02", "2026-06-12") == "06-17 06-24 07-01 ");
  CHECK(service::weekly_words_missed(world.fleet(), test::day("2026-06-18"), {}).empty());
}

TEST_CASE("the weekly word tells what is next and how old things are") {
  World world("  t: {do: Work, every: {months: 12}}\n  u: {do: Work, every: {hours: 1000, months: 18}}\n",
              "bought: {on: 2020-01-01, at: 0}");
  world.done("t", "2025-03-01");
  world.done("u", "2026-01-01", "100");
  world.reading("2026-02-01", "110");
  {
    const auto list = world.due("2026-02-10");
    const auto word = weekly_word(list, test::day("2026-02-03"));
    CHECK(word.machines == 1);
    REQUIRE(bool(word.next != nullptr));
    CHECK(word.next->name == "t");
    CHECK(test::text_or_none(word.newest) == "2026-02-01");
    CHECK(test::text_or_none(word.longest_since) == "2026-02-01");
    CHECK(test::text_or_none(word.backup) == "2026-02-03");
  }
  // What is due is told as that; next is what is not due yet.
  const auto due = world.due("2026-03-01");
  CHECK(overdue_news(due).blocks.empty());
  const auto word = weekly_word(due, {});
  REQUIRE(bool(word.next != nullptr));
  CHECK(word.next->name == "u");
  REQUIRE(weekly_word(due, {}).due.size() == 1);
  CHECK(weekly_word(due, {}).due.front()->name == "t");
  CHECK(test::text_or_none(weekly_word(due, {}).backup) == "none");
  CHECK(word.by_meter);
  World by_time(yearly, "bought: {on: 2020-01-01, at: 0}");
  by_time.done("t", "2026-01-01");
  by_time.reading("2026-02-01", "110");
  CHECK_FALSE(weekly_word(by_time.due("2026-02-10"), {}).by_meter);
}

TEST_CASE("what forbids to run a machine is told as that in the weekly word, and not as due") {
  World world = by_months("  h: {do: Hoses, every: {years: 20, signs: [leak]}, safety: true}\n");
  world.done("h", "2026-01-01");
  world.sign("leak", "2026-02-10");
  const auto list = world.due("2026-02-10");
  CHECK(counts(overdue_news(list).counts) == "not-to-run:1");
  CHECK(weekly_word(list, {}).due.empty());
}
