// What somebody saw never vanishes: until a look finds it good.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "support/world.h"

using service::DueList;
using service::FactKind;
using service::Found;
using service::OverdueHeading;
using test::day;
using test::World;

namespace {

const std::string oil = "  oil: {do: Oil, every: {hours: 250, signs: [leak, hard-start]}}\n";

World oiled() {
  World world(oil, "in-service: {on: 2026-01-01, at: 0}");
  world.reading("2026-05-01", "10");
  return world;
}

service::Fact& look(World& world, std::string_view sign, std::string_view on, std::optional<Found> found = {}) {
  service::Fact fact;
  fact.kind = FactKind::looked_at;
  fact.machine = "m";
  fact.on = day(on);
  fact.name = sign;
  fact.note = "looked";
  fact.found = found;
  return world.add(fact);
}

std::string seen(const World& world, std::string_view as_of = "2026-06-15") {
  std::string text;
  for (const auto& one : world.due(as_of).seen) {
    text += one.sign + ' ' + service::to_text(one.on);
    if (one.found) text += ' ' + std::string(service::to_text(*one.found));
    text += ';';
  }
  return text;
}

std::string standing(const World& world) {
  return std::string(service::to_text(world.due("2026-06-15").points.front().standing));
}

}  // namespace

TEST_CASE("a sign that no task lists stays on the list until a look finds it good") {
  World world = oiled();
  world.sign("strange noise", "2026-06-01");
  CHECK(seen(world) == "strange noise 2026-06-01;");
  CHECK(needs_doing(world.due("2026-06-15")));
  world.sign("strange noise", "2026-06-03");
  CHECK(seen(world) == "strange noise 2026-06-01;");  // one, since it was seen first
  look(world, "another noise", "2026-06-04");
  CHECK(seen(world) == "strange noise 2026-06-01;");
  look(world, "strange noise", "2026-06-05", Found::worn);
  CHECK(seen(world) == "strange noise 2026-06-01 worn;");
  look(world, "strange noise", "2026-06-06");  // good unless told
  CHECK(seen(world).empty());
  CHECK(seen(world, "2026-06-05") == "strange noise 2026-06-01 worn;");
  CHECK_FALSE(needs_doing(world.due("2026-06-15")));
  world.sign("strange noise", "2026-06-06");  // after the look, on the same day
  CHECK(seen(world) == "strange noise 2026-06-06;");
}

TEST_CASE("each time that something was seen keeps its day and note, and a look has its own") {
  World world = oiled();
  world.sign("smoke", "2026-06-01").note = "thin";
  CHECK(bool(world.due("2026-06-15").seen.front().again() == nullptr));
  look(world, "smoke", "2026-06-02", Found::failed).note = "bearing gone";
  world.sign("smoke", "2026-06-03").note = "flames now";
  const DueList list = world.due("2026-06-15");
  REQUIRE(list.seen.size() == 1);
  const service::SeenSign& smoke = list.seen.front();
  CHECK(smoke.note == "bearing gone");
  CHECK(service::to_text(smoke.on) == "2026-06-01");
  REQUIRE(smoke.sightings.size() == 2);
  CHECK(smoke.sightings[0].note == "thin");
  CHECK(bool(smoke.sightings[0].fact == smoke.fact));
  REQUIRE(bool(smoke.again() != nullptr));
  CHECK(smoke.again()->note == "flames now");
  CHECK(service::to_text(smoke.again()->on) == "2026-06-03");
  CHECK(bool(smoke.again()->fact == smoke.newest));
  // Found good and seen anew it begins anew; brought back by a look it is that look's.
  look(world, "smoke", "2026-06-04");
  world.sign("smoke", "2026-06-05");
  CHECK(world.due("2026-06-15").seen.front().sightings.size() == 1);
  look(world, "smoke", "2026-06-06");
  look(world, "smoke", "2026-06-07", Found::worn).note = "hums";
  const DueList back = world.due("2026-06-15");
  REQUIRE(back.seen.size() == 1);
  REQUIRE(back.seen.front().sightings.size() == 1);
  CHECK(back.seen.front().sightings.front().note.empty());
  CHECK(back.seen.front().note == "hums");
}

TEST_CASE("what was seen stands in the overdue list between what is overdue and the meters to read") {
  World world = oiled();
  world.sign("strange noise", "2026-06-01");
  const DueList list = world.due("2026-06-15");
  const auto entries = overdue_list(list);
  REQUIRE(entries.size() == 1);
  CHECK(entries.front().heading == OverdueHeading::seen);
  CHECK(entries.front().seen == &list.seen.front());
  CHECK(OverdueHeading::overdue < OverdueHeading::seen);
  CHECK(OverdueHeading::seen < OverdueHeading::read_the_meter);
}

TEST_CASE("a listed sign is due until its task is done or a look finds it good") {
  World world = oiled();
  world.sign("leak", "2026-06-15");
  CHECK(seen(world).empty());
  CHECK(standing(world) == "due");
  look(world, "leak", "2026-06-15", Found::failed);
  CHECK(standing(world) == "due");
  const DueList list = world.due("2026-06-15");
  const auto* limb = limb_of(list.points.front(), service::LimbKind::sign);
  REQUIRE(limb != nullptr);
  CHECK((limb->found == Found::failed));
  look(world, "leak", "2026-06-15");
  CHECK(standing(world) == "later");
  world.sign("leak", "2026-06-15");
  CHECK(standing(world) == "due");
  world.done("oil", "2026-06-15", "20");
  CHECK(standing(world) == "later");
}

TEST_CASE("before a machine works again its listed signs are named until they are found good") {
  World world = oiled();
  const auto before = [&](const DueList& list) { return before_work(list, *list.fleet->machine("m")).signs.size(); };
  CHECK(before(world.due("2026-06-15")) == 0);
  world.sign("leak", "2026-06-15");
  CHECK(before(world.due("2026-06-15")) == 1);
  look(world, "leak", "2026-06-15");
  CHECK(before(world.due("2026-06-15")) == 0);
}

TEST_CASE("a look answers its own sign alone; the first of the others decides") {
  World world = oiled();
  world.sign("leak", "2026-06-01");
  world.sign("hard-start", "2026-06-03");
  look(world, "leak", "2026-06-04");
  const DueList list = world.due("2026-06-15");
  const auto* limb = limb_of(list.points.front(), service::LimbKind::sign);
  REQUIRE(limb != nullptr);
  CHECK(limb->seen == "hard-start");
  CHECK(service::to_text(*limb->due_on) == "2026-06-03");
}

TEST_CASE("a listed sign keeps its looks: who looked, and what was found") {
  World world = oiled();
  world.sign("leak", "2026-06-01");
  look(world, "leak", "2026-06-02", Found::worn).by = "M.T.";
  world.sign("leak", "2026-06-03");  // the same, still open
  look(world, "leak", "2026-06-04");
  look(world, "leak", "2026-06-05");  // nothing was open any more
  world.sign("leak", "2026-06-10");
  const DueList list = world.due("2026-06-15");
  const auto* limb = limb_of(list.points.front(), service::LimbKind::sign);
  REQUIRE(limb != nullptr);
  REQUIRE(limb->noticed.size() == 2);
  CHECK(service::to_text(limb->noticed[0].first().on) == "2026-06-01");
  REQUIRE(limb->noticed[0].looks.size() == 2);
  CHECK(limb->noticed[0].answered());
  CHECK((limb->noticed[0].looks[0].found == Found::worn));
  CHECK(limb->noticed[0].looks[0].note == "looked");
  // Each time that it was seen before it was answered.
  REQUIRE(limb->noticed[0].sightings.size() == 2);
  CHECK(service::to_text(limb->noticed[0].again()->on) == "2026-06-03");
  CHECK(bool(limb->open_sign() == &limb->noticed[1]));
  CHECK(bool(limb->noticed[1].again() == nullptr));
  CHECK_FALSE(limb->noticed[1].answered());
  CHECK(service::to_text(limb->due_on.value()) == "2026-06-10");
  CHECK(service::to_text(limb->counted_from.value()) == "2026-01-01");
}

TEST_CASE("a listed sign tells what a sign in one's own words tells") {
  World listed = oiled();
  World own = oiled();
  const auto both = [&](auto tell) {
    tell(listed, std::string("leak"));
    tell(own, std::string("rattle"));
  };
  const auto same = [&] {
    const DueList list = listed.due("2026-06-15");
    const DueList other = own.due("2026-06-15");
    REQUIRE(other.seen.size() == 1);
    const service::SeenSign& seen = other.seen.front();
    const service::NoticedSign* const noticed = limb_of(list.points.front(), service::LimbKind::sign)->open_sign();
    REQUIRE(bool(noticed != nullptr));
    CHECK(bool(noticed->sightings == seen.sightings));
    CHECK(noticed->note() == seen.note);
    CHECK((noticed->again() == nullptr) == (seen.again() == nullptr));
    return seen;
  };
  both([](World& world, const std::string& name) { world.sign(name, "2026-06-01").note = "drips"; });
  CHECK(same().note == "drips");
  both([](World& world, const std::string& name) { world.sign(name, "2026-06-02").note = "pours"; });
  both([](World& world, const std::string& name) { world.sign(name, "2026-06-03"); });
  CHECK(same().sightings.size() == 3);
  CHECK(same().note == "pours");
  both([](World& world, const std::string& name) { look(world, name, "2026-06-04", Found::worn).note = "hose"; });
  CHECK(same().note == "hose");
  both([](World& world, const std::string& name) { world.sign(name, "2026-06-05").note = "again"; });
  CHECK(same().note == "hose");
  CHECK(same().sightings.size() == 4);
  // Found good, and seen by a look alone.
  both([](World& world, const std::string& name) { look(world, name, "2026-06-06"); });
  both([](World& world, const std::string& name) { look(world, name, "2026-06-07", Found::failed).note = "split"; });
  CHECK(same().sightings.size() == 1);
  CHECK(same().note == "split");
}

TEST_CASE("a look that finds a listed sign worn sees it, though nobody saw it before") {
  World world = oiled();
  look(world, "leak", "2026-06-10", Found::worn);
  CHECK(seen(world).empty());  // its task says it
  CHECK(test::told(world.point("2026-06-10", "oil")) == "due sign 2026-06-10");
  CHECK(standing(world) == "overdue");
  CHECK(overdue_list(world.due("2026-06-15")).front().heading == OverdueHeading::overdue);
  CHECK(before_work(world.due("2026-06-15"), *world.fleet().machine("m")).signs.size() == 1);
  World good = world;
  look(good, "leak", "2026-06-11");
  CHECK(standing(good) == "later");
  look(good, "leak", "2026-06-12", Found::failed);  // a day after it was found good
  CHECK(standing(good) == "overdue");
  const DueList list = good.due("2026-06-15");
  const auto* limb = limb_of(list.points.front(), service::LimbKind::sign);
  REQUIRE(limb != nullptr);
  CHECK(limb->seen == "leak");
  CHECK((limb->found == Found::failed));
  CHECK(service::to_text(*limb->due_on) == "2026-06-12");
  world.done("oil", "2026-06-12", "20");
  CHECK(standing(world) == "later");
  look(world, "leak", "2026-06-12", Found::worn);  // after the service, on the same day
  CHECK(standing(world) == "overdue");
}

TEST_CASE("a look that finds worn what was answered brings it back") {
  World world = oiled();
  world.sign("strange noise", "2026-06-01");
  look(world, "strange noise", "2026-06-02");
  look(world, "strange noise", "2026-06-03", Found::failed);
  CHECK(seen(world) == "strange noise 2026-06-03 failed;");
  CHECK(needs_doing(world.due("2026-06-15")));
  world.sign("strange noise", "2026-06-04");
  CHECK(seen(world) == "strange noise 2026-06-03 failed;");
  look(world, "strange noise", "2026-06-05");
  CHECK(seen(world).empty());
  look(world, "no name of today", "2026-06-06", Found::worn);  // a file of facts, or a fleet that was changed since
  CHECK(seen(world) == "no name of today 2026-06-06 worn;");
}

TEST_CASE("near to a listed sign is a name that is mistyped, or that holds its words") {
  const World world(
      "  oil: {do: Oil, every: {hours: 250, signs: [leak, hard-start]}}\n"
      "  air: {do: Air, every: {measured: {restriction: {above: 6, unit: kPa}}}}\n");
  const auto near = [&](FactKind kind, std::string_view written) {
    const auto found = service::near_name(world.fleet(), *world.fleet().machine("m"), kind, written);
    return found ? (found->measured ? "measured " : "") + found->name : "none";
  };
  const auto sign = [&](std::string_view written) { return near(FactKind::sign, written); };
  CHECK(sign("leek") == "leak");
  CHECK(sign("oil leak") == "leak");
  CHECK(sign("hard start in the cold") == "hard-start");
  CHECK(sign("Start was so hard") == "hard-start");
  CHECK(sign("leak, so a hard start") == "hard-start");  // of two the one of more words
  CHECK(sign("oil leaks") == "leak");
  for (const char* const marked : {"leak, boom", "leak; boom", "leak: boom", "boom (leak)", "\"leak\" again", "*leak*",
                                   "leak\u2014boom", "boom/leak", "leak,boom", "hard, start"}) {
    CHECK_MESSAGE(sign(marked) == (std::string_view(marked) == "hard, start" ? "hard-start" : "leak"), marked);
  }
  CHECK(sign("strange knocking noise") == "none");
  CHECK(sign("leakage") == "none");
  CHECK(sign("hard to start") == "hard-start");
  CHECK(sign("is it hard") == "none");
  for (const char* const known : {"leak", "Leak", "hard start", " Hard-Start"}) CHECK(sign(known) == "none");
  CHECK(sign("restriction 6.2") == "measured restriction");
  CHECK(sign("restriction") == "none");  // the judge refuses it: it has no value
  CHECK(sign("restriction in the hose") == "measured restriction");
  CHECK(sign("restriction 6.2 days ago") == "measured restriction");
  CHECK(sign("6.2 restriction") == "measured restriction");
  CHECK(sign("restriction, and a leak") == "leak");  // a sign before what has no value
  const auto value = [&](std::string_view written) { return near(FactKind::measurement, written); };
  CHECK(value("restricton") == "measured restriction");
  CHECK(value("air restriction") == "measured restriction");
  CHECK(value("leak") == "leak");  // what is a sign has no value
  CHECK(value("oil-heat") == "none");
  CHECK(value("Restriction") == "none");
}

TEST_CASE("a measurement in words is near to what is measured, with its value and unit") {
  const World world(
      "  air: {do: Air, every: {measured: {air-restriction: {above: 6, unit: kPa}}}}\n"
      "  cab: {do: Cab, every: {measured: {air-restriction: {above: 60, unit: mbar}}}}\n");
  const auto near = [&](std::string_view written) {
    const auto found = service::near_name(world.fleet(), *world.fleet().machine("m"), FactKind::sign, written);
    return found && found->value ? found->name + '=' + to_text(*found->value) + ' ' + found->unit : "none";
  };
  CHECK(near("air restriction 6,2") == "air-restriction=6.2 ");
  CHECK(near("Air-Restriction 6.2 kpa") == "air-restriction=6.2 ");
  CHECK(near("air restriction 62mbar") == "air-restriction=62 mbar");
  CHECK(near("air restriction kPa") == "none");
  CHECK(near("restriction 6.2") == "none");
  CHECK(near("air restriction: 6.2") == "air-restriction=6.2 ");
  CHECK(near("air restriction 50 psi") == "none");  // no value in a unit that it has
  CHECK(near("air restriction 6.2 or 6.4") == "none");
  CHECK(near("air restriction 6.2 days ago") == "none");
}

TEST_CASE("a measurement in words keeps its position") {
  const World world(
      "  fork: {do: Forks, every: {measured: {heel-wear: {above: 10, unit: \"%\"}}}, positions: [left, right]}\n"
      "  tyre: {do: Tyre, every: {measured: {tread-depth: {below: 15, unit: mm}}}, positions: [front-left, "
      "rear-left]}\n"
      "  hoses: {do: Hoses, every: {years: 6, signs: [leak, hose-chafed]}}\n");
  const auto near = [&](FactKind kind, std::string_view written) {
    const auto found = service::near_name(world.fleet(), *world.fleet().machine("m"), kind, written);
    if (!found) return std::string("none");
    std::string text = found->name + '@' + found->position + '=' + (found->value ? to_text(*found->value) : "");
    for (const std::string& other : found->also) text += " and " + other;
    return text;
  };
  CHECK(near(FactKind::sign, "heel-wear 11 % left") == "heel-wear@left=11");
  CHECK(near(FactKind::sign, "heel wear 11% right") == "heel-wear@right=11");
  CHECK(near(FactKind::sign, "heel wear left 11") == "heel-wear@left=11");
  CHECK(near(FactKind::sign, "tread depth front left 14 mm") == "tread-depth@front-left=14");
  CHECK(near(FactKind::sign, "heel wear high") == "heel-wear@=");
  CHECK(near(FactKind::sign, "heel wear left and right 11") == "heel-wear@=11");  // at which is not said
  CHECK(near(FactKind::measurement, "rear left tread-depth") == "tread-depth@rear-left=");
  CHECK(near(FactKind::sign, "a leak, and hose chafed") == "hose-chafed@= and leak");
}

TEST_CASE("a measurement that has no limit is kept as seen with its value, until a look finds it good") {
  World world = oiled();
  world.measured("oil-heat", "110", "2026-06-01", "C");
  world.measured("tread", "3.5", "2026-06-02", "", "rear");
  CHECK(seen(world) == "oil-heat 110 C 2026-06-01;tread@rear 3.5 2026-06-02;");
  CHECK(needs_doing(world.due("2026-06-15")));
  look(world, "oil-heat 110 C", "2026-06-03");
  CHECK(seen(world) == "tread@rear 3.5 2026-06-02;");
  World limited("  oil: {do: Oil, every: {hours: 250}, first: {hours: 50, measured: {tread: {below: 3, unit: mm}}}}\n",
                "in-service: {on: 2026-01-01, at: 0}");
  limited.measured("tread", "9", "2026-06-01", "mm");
  CHECK(seen(limited).empty());
}

// --- A check that finds the machine failed -----------------------------------------------------------------

namespace {

World checked() {
  World world(
      "  brakes: {do: Try the brakes, every: {months: 12}, safety: true, follow-up: {again: {do: Look, within: {days: "
      "9}}}}\n"
      "  fork: {do: Measure the forks, every: {months: 12}, by-whom: competent-person, positions: [left, right],\n"
      "    follow-up: {tag: {do: Look at the tag, within: {days: 9}}}}\n"
      "  belts: {do: Renew the belts, every: {years: 5}, safety: true, parts: {belt: 1}}\n"
      "  fluid: {do: Renew the brake fluid, every: {years: 2}, safety: true, fluids: {brake-fluid: 1 L}}\n"
      "  wipers: {do: Look at the wipers, every: {years: 1}}\n"
      "  big: {do: Big service, every: {years: 2}, covers: [brakes]}\n",
      "in-service: {on: 2026-01-01, at: 0}");
  world.reading("2026-06-14", "10");
  return world;
}

service::Fact& failed(World& world, std::string_view task, std::string_view on, std::string_view position = "") {
  service::Fact& fact = world.done(task, on, "", position);
  fact.found = Found::failed;
  fact.by = "E.H.";
  fact.note = "pedal to the floor";
  return fact;
}

}  // namespace

TEST_CASE("what a check that never waits found failed is kept as seen, though the check was done") {
  World world = checked();
  const auto id = failed(world, "brakes", "2026-06-10").id;
  CHECK(test::told(world.point("2026-06-15", "brakes")) == "later calendar 2027-06-10");
  const DueList list = world.due("2026-06-15");
  REQUIRE(list.seen.size() == 1);
  const service::SeenSign& one = list.seen.front();
  CHECK(one.sign == "brakes found failed");
  CHECK(service::to_text(one.on) == "2026-06-10");
  CHECK((one.fact == id));
  CHECK(one.note == "pedal to the floor");
  CHECK_FALSE(one.found.has_value());
  CHECK(one.safety);
  CHECK(needs_doing(list));
  CHECK(overdue_list(list).back().heading == OverdueHeading::seen);
  CHECK(before_work(list, *list.fleet->machine("m")).seen.size() == 1);
}

TEST_CASE("a look answers what was found failed, and so does the same service found otherwise") {
  World world = checked();
  failed(world, "brakes", "2026-06-01");
  look(world, "brakes found failed", "2026-06-02", Found::worn);
  CHECK(seen(world) == "brakes found failed 2026-06-01 worn;");
  World found_good = world;
  look(found_good, "brakes found failed", "2026-06-03");
  CHECK(seen(found_good).empty());
  failed(found_good, "brakes", "2026-06-04");
  CHECK(seen(found_good) == "brakes found failed 2026-06-04;");
  World again = world;
  failed(again, "brakes", "2026-06-03");
  CHECK(seen(again) == "brakes found failed 2026-06-01 worn;");  // it still is
  again.done("brakes", "2026-06-04");
  CHECK(seen(again).empty());
  CHECK(seen(again, "2026-06-03") == "brakes found failed 2026-06-01 worn;");
  World covered = world;
  covered.done("big", "2026-06-04");
  CHECK(seen(covered).empty());
  World back = world;
  look(back, "brakes found failed", "2026-06-03");
  look(back, "brakes found failed", "2026-06-04", Found::failed);
  CHECK(seen(back) == "brakes found failed 2026-06-04 failed;");
  CHECK(back.due("2026-06-15").seen.front().safety);
  back.done("brakes", "2026-06-05");
  CHECK(seen(back).empty());
  look(back, "brakes found failed", "2026-06-06", Found::worn);
  CHECK(seen(back) == "brakes found failed 2026-06-06 worn;");
  back.done("big", "2026-06-07");
  CHECK(seen(back).empty());
  World other = world;
  other.done("belts", "2026-06-04");
  other.done("brakes", "2026-05-30");  // before it
  CHECK_FALSE(seen(other).empty());
}

TEST_CASE("what a check that never waits found worn is kept as what it found failed is, until it is found good") {
  World world = checked();
  const auto worn = [](World& w, std::string_view task, std::string_view on, std::string_view position = "") {
    w.done(task, on, "", position).found = Found::worn;
  };
  worn(world, "brakes", "2026-06-01");
  CHECK(seen(world) == "brakes found worn 2026-06-01;");
  CHECK(world.due("2026-06-15").seen.front().safety);
  worn(world, "big", "2026-06-02");  // covers it, and was not found good itself
  CHECK(seen(world) == "brakes found worn 2026-06-01;");
  failed(world, "brakes", "2026-06-03");
  CHECK(seen(world) == "brakes found failed 2026-06-03;");
  worn(world, "brakes", "2026-06-04");
  CHECK(seen(world) == "brakes found worn 2026-06-04;");
  World looked = world;
  look(looked, "brakes found worn", "2026-06-05");
  CHECK(seen(looked).empty());
  world.done("brakes", "2026-06-05").found = Found::good;
  CHECK(seen(world).empty());
  World fork = checked();
  failed(fork, "fork", "2026-06-01");
  worn(fork, "fork", "2026-06-02", "left");
  CHECK(seen(fork) == "fork found failed 2026-06-01;fork@left found worn 2026-06-02;");
  fork.done("fork", "2026-06-03", "", "right");
  CHECK(seen(fork) == "fork@left found worn 2026-06-02;");
}

TEST_CASE("of what was found failed each position is answered by itself") {
  World one = checked();
  failed(one, "fork", "2026-06-01", "left");
  one.done("fork", "2026-06-02", "", "right");
  CHECK(seen(one) == "fork@left found failed 2026-06-01;");
  one.done("fork", "2026-06-03", "", "left");
  CHECK(seen(one).empty());
  World back = checked();
  failed(back, "fork", "2026-06-01");
  look(back, "fork found failed", "2026-06-02");
  look(back, "fork found failed", "2026-06-03", Found::worn);
  back.done("fork", "2026-06-04", "", "left");
  CHECK(seen(back) == "fork found failed 2026-06-03 worn;");  // the right one is as it was found
  back.done("fork", "2026-06-05", "", "right");
  CHECK(seen(back).empty());
  World all = checked();
  failed(all, "fork", "2026-06-01");
  all.done("fork", "2026-06-02", "", "right");
  CHECK(seen(all) == "fork found failed 2026-06-01;");
  World both = all;
  both.done("fork", "2026-06-03", "", "left");
  CHECK(seen(both).empty());
  all.done("fork", "2026-06-03");  // everywhere
  CHECK(seen(all).empty());
}

TEST_CASE("what put a part in, and what may wait, is not kept for being found failed") {
  World world = checked();
  for (const char* const task : {"belts", "wipers"}) {
    failed(world, task, "2026-06-01");
    world.done(task, "2026-06-02").found = Found::worn;
  }
  for (const char* const task : {"big", "fork/tag"}) world.done(task, "2026-06-03").found = Found::worn;
  CHECK(seen(world).empty());
}

TEST_CASE("a fluid alone makes nothing good that was found worn or failed at work for safety") {
  World world = checked();
  failed(world, "fluid", "2026-06-01");
  CHECK(seen(world) == "fluid found failed 2026-06-01;");
  CHECK(needs_doing(world.due("2026-06-15")));
  world.done("fluid", "2026-06-02").found = Found::worn;
  CHECK(seen(world) == "fluid found worn 2026-06-02;");
  world.done("fluid", "2026-06-03");
  CHECK(seen(world).empty());
}

TEST_CASE("a check after a service that was found failed is kept, whatever it looks at") {
  World world = checked();
  failed(world, "brakes/again", "2026-06-02");
  failed(world, "fork/tag", "2026-06-03");
  CHECK(seen(world) == "brakes/again found failed 2026-06-02;fork/tag found failed 2026-06-03;");
  const DueList list = world.due("2026-06-15");
  CHECK(list.seen[0].safety);
  CHECK_FALSE(list.seen[1].safety);    // after an examination it is anybody's
  world.done("brakes", "2026-06-04");  // asks for the check anew, and says nothing of what it found
  world.done("fork/tag", "2026-06-04", "", "left");
  CHECK(seen(world) == "brakes/again found failed 2026-06-02;fork/tag found failed 2026-06-03;");
  world.done("brakes/again", "2026-06-05");
  look(world, "fork/tag found failed", "2026-06-05");
  CHECK(seen(world).empty());
}

TEST_CASE("a service found failed is kept where it includes a task that never waits and puts in nothing new") {
  World world(
      "  brakes: {do: Try the brakes, every: {months: 12}, safety: true}\n"
      "  belts: {do: Renew the belts, every: {years: 5}, safety: true, parts: {belt: 1}}\n"
      "  oil: {do: Oil, every: {months: 12}}\n"
      "  big: {do: Big service, every: {years: 2}, covers: [brakes, oil], parts: {filter: 1}}\n"
      "  huge: {do: All, every: {years: 4}, covers: [big]}\n"
      "  renewing: {do: Renew, every: {years: 5}, covers: [belts, oil]}\n",
      "in-service: {on: 2026-01-01, at: 0}");
  failed(world, "renewing", "2026-06-01");
  CHECK(seen(world).empty());
  failed(world, "big", "2026-06-02");
  CHECK(seen(world) == "big found failed 2026-06-02;");
  CHECK(world.due("2026-06-15").seen.front().safety);
  World parts = world;
  parts.done("brakes", "2026-06-03");
  parts.done("oil", "2026-06-03");  // nobody knows what of it failed
  CHECK(seen(parts) == "big found failed 2026-06-02;");
  World looked = world;
  look(looked, "big found failed", "2026-06-03");
  CHECK(seen(looked).empty());
  failed(world, "huge", "2026-06-03");
  CHECK(seen(world) == "big found failed 2026-06-02;huge found failed 2026-06-03;");
  world.done("huge", "2026-06-04");
  CHECK(seen(world).empty());
}

TEST_CASE("what was found failed in a month of which no day is known is answered by what came after the month") {
  World world = checked();
  world.done("big", "2026-06-03");
  failed(world, "brakes", "2026-06");
  CHECK(seen(world) == "brakes found failed 2026-06;");
  world.done("brakes", "2026-06-30");
  CHECK(seen(world, "2026-07-15") == "brakes found failed 2026-06;");
  World after = world;
  after.done("brakes", "2026-07-01");
  CHECK(seen(after, "2026-07-15").empty());
  World looked = world;
  look(looked, "brakes found failed", "2026-06-20");  // it was in the book: that is what was looked at
  CHECK(seen(looked, "2026-07-15").empty());
  World earlier = checked();
  failed(earlier, "brakes", "2026-05-20");
  look(earlier, "brakes found failed", "2026-06-10");
  failed(earlier, "brakes", "2026-06");  // told after that look
  CHECK(seen(earlier) == "brakes found failed 2026-05-20;");
  World year = checked();
  failed(year, "brakes", "2026");
  year.done("brakes", "2026-06-15");
  CHECK(seen(year) == "brakes found failed 2026;");
}

TEST_CASE("a machine that does a task without its parts, or with some, is judged by what it does") {
  World world(
      "  belts: {do: Belts, every: {years: 5}, safety: true, parts: {belt: 1}}\n"
      "  guards: {do: Guards, every: {years: 1}, safety: true}\n",
      "in-service: {on: 2026-01-01, at: 0}, change: {belts: {parts: {}}, guards: {parts: {guard: 1}}}");
  failed(world, "belts", "2026-06-01");
  failed(world, "guards", "2026-06-01");
  CHECK(seen(world) == "belts found failed 2026-06-01;");
}
