// Checks of the twin itself. Each expected value is worked out by hand from the rule it stands beside, unless a
// published source is named there. (A reference that nobody checked would only be a second opinion.)
#define DOCTEST_CONFIG_IMPLEMENT_WITH_MAIN
#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <set>

#include "to_text.h"
#include "twin.h"
#include "worlds.h"

using namespace twin;

namespace {

constexpr Amount h = 100;  // one hour, or one of any other unit

Day on(int y, int m, int d) { return day_of(y, m, d); }

Limb hours(double n) {
  Limb l;
  l.kind = Kind::usage;
  l.amount = static_cast<Amount>(std::llround(n * 100));
  return l;
}
Limb usage(const std::string& meter, Amount n) {
  Limb l;
  l.kind = Kind::usage;
  l.meter = meter;
  l.amount = n * h;
  return l;
}
Limb calendar(int n, Unit u) {
  Limb l;
  l.kind = Kind::calendar;
  l.count = n;
  l.unit = u;
  return l;
}
Limb days(int n) { return calendar(n, Unit::days); }
Limb months(int n) { return calendar(n, Unit::months); }
Limb changes(const std::string& of, int n) {
  Limb l;
  l.kind = Kind::changes;
  l.name = of;
  l.count = n;
  return l;
}
Limb measured(const std::string& name, bool above, Amount limit) {
  Limb l;
  l.kind = Kind::measured;
  l.name = name;
  l.above = above;
  l.amount = limit * h;
  l.measure_unit = "u";
  return l;
}
Limb signs(std::vector<std::string> names) {
  Limb l;
  l.kind = Kind::sign;
  l.signs = std::move(names);
  return l;
}
Limb season(const std::string& name, int lead) {
  Limb l;
  l.kind = Kind::season;
  l.name = name;
  l.count = lead;
  return l;
}
Grace percent(int p) {
  Grace g;
  g.percent = p;
  return g;
}
Grace grace_hours(Amount n) {
  Grace g;
  g.hours = n * h;
  return g;
}
Grace grace_days(int n) {
  Grace g;
  g.days = n;
  return g;
}
Span year_only(int y) { return {on(y, 1, 1), on(y, 12, 31)}; }

// One machine `m` of one schedule, built up line by line.
struct Book {
  World w;
  Book() {
    Schedule s;
    s.name = "kind";
    w.schedules.push_back(s);
    w.schedules.front().tasks.reserve(8);  // `task` hands out references
    Machine m;
    m.name = "m";
    m.schedule = "kind";
    w.machines.push_back(m);
  }
  Machine& machine() { return w.machines.front(); }
  Task& task(const std::string& name, std::vector<Limb> every) {
    Task t;
    t.name = name;
    t.every = std::move(every);
    w.schedules.front().tasks.push_back(t);
    return w.schedules.front().tasks.back();
  }
  Fact& fact(FactKind kind, Span span) {
    Fact f;
    f.kind = kind;
    f.machine = "m";
    f.on = span;
    f.entry = static_cast<int>(w.facts.size());
    w.facts.push_back(f);
    return w.facts.back();
  }
  Fact& fact(FactKind kind, Day day) { return fact(kind, Span{day, day}); }
  Fact& reading(Day day, Amount hundredths, const std::string& meter = "") {
    Fact& f = fact(FactKind::reading, day);
    f.at = hundredths;
    f.meter = meter;
    return f;
  }
  Fact& done(const std::string& task, Span span, std::optional<Amount> at = std::nullopt) {
    Fact& f = fact(FactKind::service, span);
    f.task = task;
    f.at = at;
    return f;
  }
  Fact& done(const std::string& task, Day day, std::optional<Amount> at = std::nullopt) {
    return done(task, Span{day, day}, at);
  }
  Fact& sign(Day day, const std::string& name) {
    Fact& f = fact(FactKind::sign, day);
    f.name = name;
    return f;
  }
  Fact& measure(Day day, const std::string& name, Amount value) {
    Fact& f = fact(FactKind::measurement, day);
    f.name = name;
    f.value = value;
    return f;
  }
  Fact& meter_change(Day day, Amount last, Amount first) {
    Fact& f = fact(FactKind::meter_change, day);
    f.last = last;
    f.first = first;
    return f;
  }
  Fact& strike(int entry) {
    Fact& f = fact(FactKind::strike, 0);
    f.machine.clear();
    f.strikes = entry;
    return f;
  }
  void in_service(Day day, Amount at = 0) { machine().in_service = Start{day, at}; }
  void bought(Day day, Amount at = 0) { machine().bought = Start{day, at}; }

  PointAnswer ask(Day as_of, const std::string& task, const std::string& position = "") {
    w.as_of = as_of;
    for (const PointAnswer& p : evaluate(w).points)
      if (p.task == task && p.position == position) return p;
    FAIL("no such point: " << task);
    return {};
  }
};

std::string standing(const PointAnswer& p) {
  if (!p.exists) return "none";
  std::string text = word(p.standing);
  if (p.ruled_by) text += std::string(" by ") + word(*p.ruled_by);
  if (p.due_on) text += " since " + iso(*p.due_on);
  return text;
}

std::string day_text(const std::optional<Day>& day) { return day ? iso(*day) : "-"; }
std::string amount_text(const std::optional<Amount>& a) { return a ? decimal(*a) : "-"; }

std::string fitted_text(const PointAnswer& p) {
  if (!p.fitted) return "-";
  return iso(p.fitted->first) + ".." + iso(p.fitted->last) + " " + amount_text(p.fitted->at) + " " + p.fitted->meter +
         " " + word(p.fitted->basis);
}

std::string unknown_text(const PointAnswer& p) {
  std::string text;
  for (const Kind k : p.unknown) text += std::string(text.empty() ? "" : " ") + word(k);
  return text;
}

const LimbAnswer& limb(const PointAnswer& p, Kind kind) {
  for (const LimbAnswer& a : p.limbs)
    if (a.limb.kind == kind) return a;
  throw std::logic_error("no such limb");
}

}  // namespace

// ---- days -------------------------------------------------------------------------------------------------------

TEST_CASE("months are added to the anchor and cut to the month's last day") {
  // Published in the documentation of a general-purpose date library (dateutil), or executed in three of them.
  const auto added = [](int y, int m, int d, int n) { return iso(add_months(on(y, m, d), n)); };
  CHECK(added(2023, 1, 31, 1) == "2023-02-28");
  CHECK(added(2024, 1, 31, 1) == "2024-02-29");
  CHECK(added(2024, 1, 30, 1) == "2024-02-29");
  CHECK(added(2003, 1, 27, 1) == "2003-02-27");
  CHECK(added(2003, 1, 31, 1) == "2003-02-28");
  CHECK(added(2003, 1, 31, 2) == "2003-03-31");
  CHECK(added(2000, 2, 29, 12) == "2001-02-28");
  CHECK(added(2000, 2, 28, 12) == "2001-02-28");
  CHECK(added(1999, 2, 28, 12) == "2000-02-28");
  CHECK(added(2007, 3, 31, 1) == "2007-04-30");
  CHECK(added(2008, 2, 29, 12) == "2009-02-28");
  CHECK(added(2024, 2, 29, 12) == "2025-02-28");
  CHECK(added(2024, 2, 29, 48) == "2028-02-29");
  CHECK(added(2023, 8, 31, 6) == "2024-02-29");
  CHECK(added(2023, 8, 31, 12) == "2024-08-31");
  CHECK(added(2023, 11, 30, 3) == "2024-02-29");
  CHECK(added(2024, 12, 31, 2) == "2025-02-28");
  CHECK(added(2023, 2, 28, 1) == "2023-03-28");
  CHECK(added(2023, 2, 28, 12) == "2024-02-28");
  // The end of the twelfth (or 24th) calendar month: 14 CFR 91.409(a), 91.411.
  CHECK(iso(month_end(add_months(on(2024, 3, 15), 12))) == "2025-03-31");
  CHECK(iso(month_end(add_months(on(2020, 7, 22), 24))) == "2022-07-31");
  CHECK(iso(month_end(add_months(on(2023, 2, 28), 24))) == "2025-02-28");
  CHECK(iso(month_end(add_months(on(2022, 2, 10), 24))) == "2024-02-29");
}

TEST_CASE("days count as a calendar does") {
  CHECK(day_of(1970, 1, 1) == 0);
  CHECK(day_of(1970, 3, 1) == 59);
  CHECK(day_of(1969, 12, 31) == -1);
  CHECK(day_of(2000, 3, 1) == 11017);  // 30 x 365 + 7 leap days (72 to 96) + 31 + 29
  CHECK(iso(day_of(2024, 2, 29) + 1) == "2024-03-01");
  for (Day d = -1000; d < 25000; d += 13) {
    const Civil c = civil_of(d);
    CHECK(day_of(c.year, c.month, c.day) == d);
  }
}

// ---- the worked examples ----------------------------------------------------------------------------------------

TEST_CASE("hours or months, whichever comes first") {
  SUBCASE("due by months, today") {
    Book b;
    b.task("oil", {hours(250), months(1)});
    b.done("oil", on(2026, 1, 31), 1000 * h);
    b.reading(on(2026, 2, 28), 1100 * h);
    const PointAnswer p = b.ask(on(2026, 2, 28), "oil");
    CHECK(standing(p) == "due by calendar since 2026-02-28");
    CHECK(amount_text(limb(p, Kind::usage).left) == "150");
    CHECK(limb(p, Kind::calendar).left_days == 0);
  }
  SUBCASE("overdue by months, one day") {
    Book b;
    b.task("oil", {hours(250), months(1)});
    b.done("oil", on(2026, 1, 31), 1000 * h);
    b.reading(on(2026, 3, 1), 1100 * h);
    const PointAnswer p = b.ask(on(2026, 3, 1), "oil");
    CHECK(standing(p) == "overdue by calendar since 2026-02-28");
    CHECK(limb(p, Kind::calendar).left_days == -1);
  }
  SUBCASE("overdue by hours, one day left on months") {
    Book b;
    b.task("oil", {hours(250), months(12)});
    b.done("oil", on(2025, 3, 2), 1250 * h);
    b.reading(on(2026, 3, 1), 151140);
    const PointAnswer p = b.ask(on(2026, 3, 1), "oil");
    CHECK(p.standing == Standing::overdue);
    CHECK(p.ruled_by == Kind::usage);
    CHECK(amount_text(limb(p, Kind::usage).used) == "261.4");
    CHECK(amount_text(limb(p, Kind::usage).left) == "-11.4");
    CHECK(amount_text(limb(p, Kind::usage).due_at) == "1500");
    CHECK(limb(p, Kind::calendar).left_days == 1);
    CHECK(day_text(limb(p, Kind::calendar).due_on) == "2026-03-02");
    // 364 days for 261.4 h; 250 h are reached on day 364 x 250 / 261.4 = 348.13, so first on day 349.
    CHECK(day_text(p.due_on) == iso(on(2025, 3, 2) + 349));
    CHECK(fitted_text(p) == "2025-03-02..2025-03-02 1250 engine recorded");
  }
  SUBCASE("from a leap day") {
    Book b;
    b.task("oil", {months(12)});
    b.done("oil", on(2024, 2, 29));
    CHECK(standing(b.ask(on(2025, 2, 27), "oil")) == "unreached");
    CHECK(standing(b.ask(on(2025, 2, 28), "oil")) == "due by calendar since 2025-02-28");
    CHECK(standing(b.ask(on(2025, 3, 1), "oil")) == "overdue by calendar since 2025-02-28");
  }
  SUBCASE("the year only") {
    Book b;
    b.task("oil", {months(24)});
    b.done("oil", year_only(2009));
    const PointAnswer p = b.ask(on(2026, 5, 1), "oil");
    CHECK(standing(p) == "overdue by calendar since 2011-01-01");
    CHECK(fitted_text(p) == "2009-01-01..2009-12-31 - engine unknown");
  }
  SUBCASE("grace of ten percent") {
    const auto at = [](Amount now) {
      Book b;
      b.w.grace = percent(10);
      b.task("oil", {hours(250)});
      b.done("oil", on(2026, 1, 1), 900 * h);
      b.reading(on(2026, 4, 1), now);
      return b.ask(on(2026, 4, 1), "oil").standing;
    };
    CHECK(at(114999) == Standing::unreached);
    CHECK(at(115000) == Standing::due);
    CHECK(at(117500) == Standing::due);
    CHECK(at(117510) == Standing::overdue);
  }
  SUBCASE("counts from the earlier") {
    const auto next = [](Amount done) {
      Book b;
      b.in_service(on(2026, 1, 1), 400 * h);
      b.task("oil", {hours(100)}).counts_from = CountsFrom::earlier;
      b.done("oil", on(2026, 2, 1), done);
      return amount_text(limb(b.ask(on(2026, 2, 1), "oil"), Kind::usage).due_at);
    };
    CHECK(next(504 * h) == "600");
    CHECK(next(480 * h) == "580");
    CHECK(next(500 * h) == "600");
    CHECK(next(59999) == "600");
    CHECK(next(600 * h) == "700");  // overrun by a whole interval: restarts from when it was done
  }
}

// ---- published rules --------------------------------------------------------------------------------------------

TEST_CASE("services inside the variance count on the scheduled day, outside on the actual one") {
  // US Army DA PAM 750-8 (22 Aug 2005), chapter 3, item (h)1 to 3; the step of 180 days is that of TB 43-PS-580.
  const auto next_day = [](Day done) {
    Book b;
    b.in_service(on(2006, 4, 17) - 180);
    Task& t = b.task("semiannual", {days(180)});
    t.counts_from = CountsFrom::due;
    t.grace = percent(10);
    b.done("semiannual", done);
    return day_text(limb(b.ask(done, "semiannual"), Kind::calendar).due_on);
  };
  CHECK(next_day(on(2006, 5, 5)) == "2006-10-14");
  CHECK(next_day(on(2006, 5, 6)) == "2006-11-02");
  CHECK(next_day(on(2006, 3, 30)) == "2006-10-14");
  CHECK(next_day(on(2006, 3, 29)) == "2006-09-25");

  const auto next_hours = [](Amount done) {
    Book b;
    b.in_service(on(2006, 1, 1), 1000 * h);
    Task& t = b.task("service", {hours(250)});
    t.counts_from = CountsFrom::due;
    t.grace = percent(10);
    b.done("service", on(2006, 3, 1), done);
    return amount_text(limb(b.ask(on(2006, 3, 1), "service"), Kind::usage).due_at);
  };
  CHECK(next_hours(1275 * h) == "1500");
  CHECK(next_hours(1276 * h) == "1526");
  CHECK(next_hours(1225 * h) == "1500");
  CHECK(next_hours(1224 * h) == "1474");
}

TEST_CASE("the window of the variance") {
  // TB 43-PS-636 (Nov 2005): semiannual, due 17 Apr 2006, window 30 Mar to 5 May 2006; item (h)4: past it, down.
  Book b;
  Task& t = b.task("semiannual", {days(180)});
  t.grace = percent(10);
  b.done("semiannual", on(2006, 4, 17) - 180);
  CHECK(b.ask(on(2006, 4, 16), "semiannual").standing == Standing::unreached);
  CHECK(b.ask(on(2006, 4, 17), "semiannual").standing == Standing::due);
  CHECK(b.ask(on(2006, 5, 5), "semiannual").standing == Standing::due);
  CHECK(b.ask(on(2006, 5, 6), "semiannual").standing == Standing::overdue);

  // TB 43-PS-580 (March 2001): 90 -> 9, 180 -> 18, 360 -> 36 days.
  for (const int n : {90, 180, 360}) {
    Book c;
    c.w.grace = percent(10);
    c.task("t", {days(n)});
    c.done("t", on(2001, 1, 1));
    CHECK(limb(c.ask(on(2001, 1, 2), "t"), Kind::calendar).grace == n / 10);
  }
}

TEST_CASE("a hundred hours, the excess counted in the next hundred") {
  // 14 CFR 91.409(b): a late inspection keeps the grid, an early one starts afresh.
  const auto next = [](Amount done) {
    Book b;
    b.in_service(on(2026, 1, 1), 1000 * h);
    b.task("inspection", {hours(100)}).counts_from = CountsFrom::earlier;
    b.done("inspection", on(2026, 2, 1), done);
    return amount_text(limb(b.ask(on(2026, 2, 1), "inspection"), Kind::usage).due_at);
  };
  CHECK(next(1106 * h) == "1200");
  CHECK(next(1110 * h) == "1200");
  CHECK(next(1104 * h) == "1200");
  CHECK(next(1090 * h) == "1190");
}

TEST_CASE("calendar months run to their last day") {
  // 14 CFR 91.409(a), 91.411(a)(1).
  const auto due = [](Day done, int n) {
    Book b;
    b.task("annual", {months(n)}).until_month_end = true;
    b.done("annual", done);
    return day_text(limb(b.ask(done, "annual"), Kind::calendar).due_on);
  };
  CHECK(due(on(2024, 3, 15), 12) == "2025-03-31");
  CHECK(due(on(2024, 3, 1), 12) == "2025-03-31");
  CHECK(due(on(2024, 3, 31), 12) == "2025-03-31");
  CHECK(due(on(2023, 2, 28), 12) == "2024-02-29");
  CHECK(due(on(2007, 6, 6), 12) == "2008-06-30");
  CHECK(due(on(2020, 7, 22), 24) == "2022-07-31");
  CHECK(due(on(2022, 2, 10), 24) == "2024-02-29");

  Book b;
  b.task("annual", {months(12)}).until_month_end = true;
  b.done("annual", on(2007, 6, 6));
  CHECK(b.ask(on(2008, 6, 30), "annual").standing == Standing::due);
  CHECK(b.ask(on(2008, 7, 1), "annual").standing == Standing::overdue);
}

TEST_CASE("days are days, months are months") {
  // 49 CFR 396.3(a)(2): 90 days, not three months.
  Book b;
  b.task("exits", {days(90)});
  b.done("exits", on(2024, 3, 1));
  CHECK(day_text(limb(b.ask(on(2024, 3, 2), "exits"), Kind::calendar).due_on) == "2024-05-30");
  // LOLER 1998 reg. 9(3)(a): at least every six months.
  Book c;
  c.task("basket", {months(6)});
  c.done("basket", on(2023, 8, 31));
  CHECK(day_text(limb(c.ask(on(2023, 9, 1), "basket"), Kind::calendar).due_on) == "2024-02-29");
}

TEST_CASE("whichever occurs first, hours or a month") {
  // TM 5-3895-383-24, 1-12: `M/60 HR`; the dates are our own.
  const auto at = [](Day day, Amount value) {
    Book b;
    b.task("m", {hours(60), months(1)});
    b.done("m", on(2024, 3, 14), 500 * h);
    b.reading(day, value);
    return b.ask(day, "m");
  };
  CHECK(at(on(2024, 4, 10), 561 * h).ruled_by == Kind::usage);
  CHECK(standing(at(on(2024, 4, 14), 520 * h)) == "due by calendar since 2024-04-14");
}

TEST_CASE("a biennial service includes the annual, the annual the semiannual") {
  // TM 9-2320-272-24-1, 2-9.
  Book b;
  b.task("semiannual", {months(6)});
  b.task("annual", {months(12)}).covers = {"semiannual"};
  b.task("biennial", {months(24)}).covers = {"annual"};
  b.done("biennial", on(2020, 1, 10));
  b.done("annual", on(2021, 1, 20));
  CHECK(day_text(limb(b.ask(on(2020, 2, 1), "semiannual"), Kind::calendar).due_on) == "2020-07-10");
  CHECK(day_text(limb(b.ask(on(2020, 2, 1), "annual"), Kind::calendar).due_on) == "2021-01-10");
  CHECK(day_text(limb(b.ask(on(2021, 2, 1), "semiannual"), Kind::calendar).due_on) == "2021-07-20");
  CHECK(day_text(limb(b.ask(on(2021, 2, 1), "annual"), Kind::calendar).due_on) == "2022-01-20");
  CHECK(day_text(limb(b.ask(on(2021, 2, 1), "biennial"), Kind::calendar).due_on) == "2022-01-10");
}

// ---- decided cases, computed by hand ----------------------------------------------------------------------------

TEST_CASE("first, in and change replace limb by limb") {
  Book b;
  b.in_service(on(2024, 1, 10));
  Task& t = b.task("oil", {hours(250), months(12)});
  t.first = {hours(50)};
  t.in = {{"dusty", {hours(125)}}, {"coastal", {months(6)}}};
  const auto limbs = [&] {
    const PointAnswer p = b.ask(on(2024, 1, 20), "oil");
    return amount_text(limb(p, Kind::usage).due_at) + " " + day_text(limb(p, Kind::calendar).due_on);
  };
  SUBCASE("running in") { CHECK(limbs() == "50 2025-01-10"); }
  SUBCASE("running in wins over a condition, but what first does not name stays") {
    b.machine().conditions = {"dusty", "coastal"};
    CHECK(limbs() == "50 2024-07-10");
  }
  SUBCASE("running in wins over change") {
    b.machine().changes = {Change{"oil", {hours(200), months(9)}, {}}};
    CHECK(limbs() == "50 2024-10-10");
  }
  SUBCASE("unless change names first") {
    b.machine().changes = {Change{"oil", {hours(200)}, {hours(30)}}};
    CHECK(limbs() == "30 2025-01-10");
  }
  SUBCASE("after the first service: change after in") {
    b.machine().conditions = {"dusty", "coastal"};
    b.machine().changes = {Change{"oil", {hours(200)}, {hours(30)}}};
    b.done("oil", on(2024, 1, 15), 40 * h);
    CHECK(limbs() == "240 2024-07-15");
  }
  SUBCASE("a bought machine does not run in") {
    b.machine().in_service.reset();
    b.bought(on(2024, 1, 10), 10 * h);
    b.done("oil", on(2024, 1, 15), 40 * h);
    CHECK(limbs() == "290 2025-01-15");
  }
}

TEST_CASE("a usage limb replaces only the one on the same meter") {
  Book b;
  b.machine().meters = {Meter{"engine", "h", std::nullopt}, Meter{"separator", "h", std::nullopt}};
  b.in_service(on(2024, 1, 1));
  Task& t = b.task("belt", {usage("separator", 300), hours(500)});
  t.first = {usage("engine", 100)};  // the same meter as `hours`
  const PointAnswer p = b.ask(on(2024, 1, 2), "belt");
  REQUIRE(p.limbs.size() == 2);
  CHECK(p.limbs[0].limb.meter == "separator");
  CHECK(amount_text(p.limbs[0].due_at) == "300");
  CHECK(p.limbs[1].limb.meter == "engine");
  CHECK(amount_text(p.limbs[1].due_at) == "100");
  // The meter of the first usage limb as written; the other meters of a new machine start at zero.
  CHECK(fitted_text(p) == "2024-01-01..2024-01-01 0 separator in-service");
}

TEST_CASE("delivery hours are of the first meter; the others start at zero") {
  Book b;
  b.machine().meters = {Meter{"engine", "h", std::nullopt}, Meter{"separator", "h", std::nullopt}};
  b.in_service(on(2024, 1, 1), 5 * h);
  b.task("belt", {usage("separator", 50), usage("engine", 50)});
  b.reading(on(2024, 1, 11), 60 * h, "separator");
  PointAnswer p = b.ask(on(2024, 1, 11), "belt");
  CHECK(amount_text(p.limbs[0].due_at) == "50");
  CHECK(amount_text(p.limbs[1].due_at) == "55");
  CHECK(standing(p) == "overdue by usage since 2024-01-10");  // six a day: 48 on the ninth, 54 on the tenth
  b.done("belt", on(2024, 1, 6));
  p = b.ask(on(2024, 1, 11), "belt");
  CHECK(fitted_text(p) == "2024-01-06..2024-01-06 30 separator interpolated");
  CHECK(amount_text(p.limbs[1].due_at) == "55");  // the engine was never read since: still five
}

TEST_CASE("a changes limb replaces only the one on the same task") {
  Book b;
  b.in_service(on(2024, 1, 1));
  b.task("a", {days(10)});
  b.task("b", {days(10)});
  Task& t = b.task("c", {changes("a", 3), changes("b", 5)});
  t.in = {{"dusty", {changes("b", 2)}}};
  b.machine().conditions = {"dusty"};
  const PointAnswer p = b.ask(on(2024, 1, 2), "c");
  REQUIRE(p.limbs.size() == 2);
  CHECK(p.limbs[0].limb.count == 3);
  CHECK(p.limbs[1].limb.count == 2);
}

TEST_CASE("of several conditions the shorter, in different units the one due first") {
  Book b;
  Task& t = b.task("t", {hours(500), months(12)});
  t.in = {{"dusty", {hours(125), days(30)}}, {"coastal", {hours(200), months(1)}}};
  b.machine().conditions = {"dusty", "coastal"};
  b.done("t", on(2024, 2, 1), 0);
  const PointAnswer february = b.ask(on(2024, 2, 2), "t");
  CHECK(amount_text(limb(february, Kind::usage).due_at) == "125");
  CHECK(day_text(limb(february, Kind::calendar).due_on) == "2024-03-01");  // a month of 29 days; 30 days: 2 March
  b.done("t", on(2024, 3, 1), 10 * h);
  CHECK(day_text(limb(b.ask(on(2024, 3, 2), "t"), Kind::calendar).due_on) == "2024-03-31");  // a month: 1 April
}

TEST_CASE("counts from due: within grace on either side, chained from the original anchor") {
  Book b;
  b.in_service(on(2023, 1, 31));
  Task& t = b.task("t", {months(1)});
  t.counts_from = CountsFrom::due;
  t.grace = grace_days(3);
  const auto due = [&](Day as_of) { return day_text(limb(b.ask(as_of, "t"), Kind::calendar).due_on); };
  CHECK(due(on(2023, 2, 1)) == "2023-02-28");
  SUBCASE("late within grace") {
    b.done("t", on(2023, 3, 3));
    CHECK(due(on(2023, 3, 3)) == "2023-03-31");  // not 28 March
    b.done("t", on(2023, 3, 28));                // three days early
    CHECK(due(on(2023, 3, 28)) == "2023-04-30");
    b.done("t", on(2023, 4, 26));  // four days early: from when it was done
    CHECK(due(on(2023, 4, 26)) == "2023-05-26");
  }
  SUBCASE("late outside") {
    b.done("t", on(2023, 3, 4));
    CHECK(due(on(2023, 3, 4)) == "2023-04-04");
  }
  SUBCASE("safety: no grace, so only the day itself counts as on it") {
    b.w.schedules.front().tasks.front().safety = true;
    b.done("t", on(2023, 2, 27));
    CHECK(due(on(2023, 2, 27)) == "2023-03-27");
  }
}

TEST_CASE("counts from due: the first service is the start of a chain where the machine was not new") {
  Book b;
  b.bought(on(2023, 1, 1), 100 * h);
  Task& t = b.task("t", {hours(100)});
  t.counts_from = CountsFrom::due;
  t.grace = percent(10);
  b.done("t", on(2023, 2, 1), 195 * h);
  CHECK(amount_text(limb(b.ask(on(2023, 2, 1), "t"), Kind::usage).due_at) == "295");
  b.done("t", on(2023, 3, 1), 304 * h);
  const PointAnswer p = b.ask(on(2023, 3, 1), "t");
  CHECK(amount_text(limb(p, Kind::usage).due_at) == "395");
  CHECK(amount_text(limb(p, Kind::usage).used) == "0");   // used counts from fitted
  CHECK(amount_text(limb(p, Kind::usage).left) == "91");  // left follows the due point
}

TEST_CASE("counts from the earlier, in months") {
  Book b;
  b.in_service(on(2023, 1, 31));
  b.task("t", {months(1)}).counts_from = CountsFrom::earlier;
  const auto due_after = [&](Day done) {
    Book c = b;
    c.done("t", done);
    return day_text(limb(c.ask(done, "t"), Kind::calendar).due_on);
  };
  CHECK(due_after(on(2023, 2, 20)) == "2023-03-20");  // early: from when it was done
  CHECK(due_after(on(2023, 2, 28)) == "2023-03-31");
  CHECK(due_after(on(2023, 3, 30)) == "2023-03-31");  // over, but the next due day is not reached
  CHECK(due_after(on(2023, 3, 31)) == "2023-04-30");  // it is: 31 March + 1 month
}

TEST_CASE("each limb has a chain of its own") {
  Book b;
  b.in_service(on(2023, 1, 1), 0);
  b.task("t", {hours(100), days(100)}).counts_from = CountsFrom::earlier;
  b.done("t", on(2023, 3, 1), 120 * h);  // 59 days: early by days, over by hours
  const PointAnswer p = b.ask(on(2023, 3, 1), "t");
  CHECK(amount_text(limb(p, Kind::usage).due_at) == "200");
  CHECK(day_text(limb(p, Kind::calendar).due_on) == "2023-06-09");
}

TEST_CASE("until the month's end, with percent grace") {
  Book b;
  Task& t = b.task("t", {months(1)});
  t.until_month_end = true;
  t.grace = percent(10);
  b.done("t", on(2024, 1, 15));
  const PointAnswer p = b.ask(on(2024, 2, 20), "t");
  CHECK(p.standing == Standing::unreached);
  CHECK(day_text(limb(p, Kind::calendar).due_on) == "2024-02-29");
  CHECK(limb(p, Kind::calendar).grace == 3);  // 15 January to 15 February are 31 days
  CHECK(b.ask(on(2024, 3, 3), "t").standing == Standing::due);
  CHECK(b.ask(on(2024, 3, 4), "t").standing == Standing::overdue);
}

TEST_CASE("percent grace of a calendar limb is of the days in that interval, rounded down") {
  Book b;
  b.w.grace = percent(5);
  b.task("t", {months(12)});
  b.done("t", on(2023, 3, 1));  // 366 days to 1 March 2024
  CHECK(limb(b.ask(on(2023, 3, 2), "t"), Kind::calendar).grace == 18);
  Book c;
  c.w.grace = percent(10);
  c.task("t", {months(1)});
  c.done("t", on(2023, 2, 1));  // 28 days
  CHECK(limb(c.ask(on(2023, 2, 2), "t"), Kind::calendar).grace == 2);
}

TEST_CASE("grace by limb") {
  Book b;
  b.w.grace = percent(10);
  Task& t = b.task("t", {hours(100), months(2)});
  t.grace = grace_hours(7);
  b.done("t", on(2023, 1, 1), 0);
  const PointAnswer p = b.ask(on(2023, 1, 2), "t");
  CHECK(limb(p, Kind::usage).grace == 700);
  CHECK(limb(p, Kind::calendar).grace == 5);  // the fleet's ten percent of 59 days
  b.w.schedules.front().tasks.front().safety = true;
  const PointAnswer s = b.ask(on(2023, 1, 2), "t");
  CHECK(limb(s, Kind::usage).grace == 0);
  CHECK(limb(s, Kind::calendar).grace == 0);
}

TEST_CASE("hours in grace hold for every meter in hours") {
  Book b;
  b.machine().meters = {Meter{"engine", "h", std::nullopt}, Meter{"drum", "h", std::nullopt},
                        Meter{"road", "km", std::nullopt}};
  for (const char* meter : {"engine", "drum", "road"}) {
    Task& t = b.task(meter, {usage(meter, 100 * h)});
    t.grace = grace_hours(7);
    b.done(meter, on(2023, 1, 1), 0).meter = meter;
  }
  CHECK(limb(b.ask(on(2023, 1, 2), "engine"), Kind::usage).grace == 700);
  CHECK(limb(b.ask(on(2023, 1, 2), "drum"), Kind::usage).grace == 700);
  CHECK(limb(b.ask(on(2023, 1, 2), "road"), Kind::usage).grace == 0);
}

TEST_CASE("what a service says of the usage at fitting") {
  Book b;
  b.task("t", {hours(250)});
  b.reading(on(2024, 1, 1), 1000 * h);
  b.reading(on(2024, 1, 11), 1100 * h);
  const auto fitted = [&](Day as_of = on(2024, 2, 1)) { return fitted_text(b.ask(as_of, "t")); };
  SUBCASE("its own value, which is a reading too") {
    b.done("t", on(2024, 1, 20), 1150 * h);
    CHECK(fitted() == "2024-01-20..2024-01-20 1150 engine recorded");
    CHECK(amount_text(limb(b.ask(on(2024, 2, 1), "t"), Kind::usage).used) == "0");
  }
  SUBCASE("between readings") {
    b.done("t", on(2024, 1, 4));
    CHECK(fitted() == "2024-01-04..2024-01-04 1030 engine interpolated");
  }
  SUBCASE("the same day as a reading") {
    b.done("t", on(2024, 1, 11));
    CHECK(fitted() == "2024-01-11..2024-01-11 1100 engine interpolated");
  }
  SUBCASE("after the last reading") {
    b.done("t", on(2024, 1, 20));
    CHECK(fitted() == "2024-01-20..2024-01-20 1100 engine last-known");
    b.reading(on(2024, 1, 29), 1280 * h);  // nine days later: ten a day
    CHECK(fitted(on(2024, 1, 28)) == "2024-01-20..2024-01-20 1100 engine last-known");
    CHECK(fitted() == "2024-01-20..2024-01-20 1190 engine interpolated");
  }
  SUBCASE("before the first reading") {
    b.done("t", on(2023, 12, 31));
    CHECK(fitted() == "2023-12-31..2023-12-31 - engine unknown");
    const PointAnswer p = b.ask(on(2024, 2, 1), "t");
    CHECK(standing(p) == "no-record");
    CHECK(unknown_text(p) == "usage");
  }
  SUBCASE("a year only, with a value: kept out of interpolation") {
    b.done("t", year_only(2024), 1090 * h);
    CHECK(fitted() == "2024-01-01..2024-12-31 1090 engine recorded");
    CHECK(amount_text(limb(b.ask(on(2024, 2, 1), "t"), Kind::usage).due_at) == "1340");
    CHECK(amount_text(limb(b.ask(on(2024, 2, 1), "t"), Kind::usage).used) == "10");
  }
  SUBCASE("a year only, with a value: other services are not drawn towards it") {
    b.done("t", year_only(2024), 1090 * h);
    b.task("u", {hours(500)});
    b.done("u", on(2024, 1, 6));
    CHECK(fitted_text(b.ask(on(2024, 2, 1), "u")) == "2024-01-06..2024-01-06 1050 engine interpolated");
  }
  SUBCASE("a month only, without a value: usage on the first day of the span") {
    b.done("t", Span{on(2024, 1, 1), on(2024, 1, 31)});
    CHECK(fitted() == "2024-01-01..2024-01-31 1000 engine interpolated");
  }
}

TEST_CASE("interpolation is linear by day, rounded half away from zero") {
  Book b;
  b.task("t", {hours(250)});
  b.reading(on(2024, 1, 1), 0);
  b.reading(on(2024, 1, 9), 100);  // an eighth of an hour a day: 12.5 hundredths
  const auto at = [&](int day) {
    Book c = b;
    c.done("t", on(2024, 1, day));
    return c.ask(on(2024, 1, 9), "t").fitted->at.value();
  };
  CHECK(at(2) == 13);
  CHECK(at(3) == 25);
  CHECK(at(4) == 38);  // 37.5
  CHECK(at(8) == 88);  // 87.5
}

TEST_CASE("two readings of a day") {
  Book b;
  b.task("t", {hours(10)});
  b.done("t", on(2024, 1, 1), 100 * h);
  b.reading(on(2024, 1, 5), 105 * h);
  b.reading(on(2024, 1, 5), 108 * h);
  CHECK(amount_text(limb(b.ask(on(2024, 1, 5), "t"), Kind::usage).used) == "8");
  b.done("t", on(2024, 1, 5));
  CHECK(b.ask(on(2024, 1, 5), "t").fitted->at == 108 * h);
}

TEST_CASE("meter changes") {
  Book b;
  b.task("t", {hours(250)});
  b.in_service(on(2024, 1, 1), 0);
  b.reading(on(2024, 1, 11), 100 * h);
  SUBCASE("a new meter") {
    b.meter_change(on(2024, 1, 21), 150 * h, 0);
    b.reading(on(2024, 1, 31), 60 * h);
    const PointAnswer p = b.ask(on(2024, 1, 31), "t");
    CHECK(amount_text(limb(p, Kind::usage).used) == "210");
    b.done("t", on(2024, 2, 1), 70 * h);
    CHECK(fitted_text(b.ask(on(2024, 2, 1), "t")) == "2024-02-01..2024-02-01 220 engine recorded");
  }
  SUBCASE("a used meter") {
    b.meter_change(on(2024, 1, 21), 150 * h, 1000 * h);
    b.reading(on(2024, 1, 31), 1110 * h);
    CHECK(standing(b.ask(on(2024, 1, 31), "t")) == "overdue by usage since 2024-01-31");
    CHECK(amount_text(limb(b.ask(on(2024, 1, 31), "t"), Kind::usage).used) == "260");
  }
  SUBCASE("rolled over") {
    b.meter_change(on(2024, 1, 21), 200 * h, 0);
    b.reading(on(2024, 1, 21), 10 * h);
    b.done("t", on(2024, 1, 21));
    CHECK(b.ask(on(2024, 1, 21), "t").fitted->at == 210 * h);
  }
}

TEST_CASE("facts after the as-of day are not there yet, whenever they were entered") {
  Book b;
  b.task("t", {months(1)});
  b.done("t", on(2024, 3, 1));
  b.done("t", on(2024, 1, 1));
  CHECK(fitted_text(b.ask(on(2024, 2, 29), "t")) == "2024-01-01..2024-01-01 - engine unknown");
  CHECK(fitted_text(b.ask(on(2024, 3, 1), "t")) == "2024-03-01..2024-03-01 - engine unknown");
}

TEST_CASE("partial dates are ordered by their first day") {
  Book b;
  b.task("t", {months(12)});
  b.done("t", on(2023, 6, 1));
  b.done("t", year_only(2023));
  CHECK(b.ask(on(2024, 1, 1), "t").fitted->first == on(2023, 6, 1));
  b.done("t", year_only(2024));
  CHECK(b.ask(on(2024, 2, 1), "t").fitted->first == on(2024, 1, 1));
}

TEST_CASE("no record") {
  SUBCASE("in service new: from that day") {
    Book b;
    b.task("t", {hours(250), months(12)});
    b.in_service(on(2024, 1, 1), 5 * h);
    const PointAnswer p = b.ask(on(2024, 2, 1), "t");
    CHECK(standing(p) == "unreached");
    CHECK(fitted_text(p) == "2024-01-01..2024-01-01 5 engine in-service");
    CHECK(amount_text(limb(p, Kind::usage).due_at) == "255");
    CHECK(unknown_text(p) == "");
  }
  SUBCASE("bought: no record, unless a sign was seen or a limit reached") {
    Book b;
    b.task("t", {hours(250), months(12), signs({"leak"}), measured("gap", true, 5)});
    b.bought(on(2024, 1, 1), 800 * h);
    PointAnswer p = b.ask(on(2024, 2, 1), "t");
    CHECK(standing(p) == "no-record");
    CHECK(unknown_text(p) == "usage calendar");
    CHECK(!p.fitted);
    b.measure(on(2024, 1, 5), "gap", 499);
    CHECK(standing(b.ask(on(2024, 2, 1), "t")) == "no-record");
    b.measure(on(2024, 1, 6), "gap", 500);
    CHECK(standing(b.ask(on(2024, 2, 1), "t")) == "due by measured since 2024-01-06");
    b.sign(on(2024, 1, 8), "leak");
    p = b.ask(on(2024, 2, 1), "t");
    CHECK(standing(p) == "overdue by sign since 2024-01-08");
    CHECK(unknown_text(p) == "usage calendar");
  }
  SUBCASE("a service whose usage nobody knows: the other limbs still count") {
    Book b;
    b.task("t", {hours(250), months(12)});
    b.done("t", on(2024, 1, 1));
    const PointAnswer p = b.ask(on(2024, 2, 1), "t");
    CHECK(standing(p) == "unreached");
    CHECK(unknown_text(p) == "usage");
  }
  SUBCASE("before its day, and after it left, a machine has no points") {
    Book b;
    b.task("t", {months(12)});
    b.in_service(on(2024, 1, 10));
    b.machine().left = on(2024, 6, 1);
    CHECK(standing(b.ask(on(2024, 1, 9), "t")) == "none");
    CHECK(standing(b.ask(on(2024, 1, 10), "t")) == "unreached");
    CHECK(standing(b.ask(on(2024, 5, 31), "t")) == "unreached");
    CHECK(standing(b.ask(on(2024, 6, 1), "t")) == "none");
    Book c;
    c.task("t", {months(12)});
    c.bought(on(2024, 1, 10));
    CHECK(standing(c.ask(on(2024, 1, 9), "t")) == "none");
    CHECK(standing(c.ask(on(2024, 1, 10), "t")) == "no-record");
  }
  SUBCASE("a lone measurement is not quiet, a sign always is") {
    Book b;
    b.task("s", {signs({"leak"})});
    b.task("m", {measured("gap", true, 5)});
    b.task("both", {measured("gap", true, 5), months(12)});
    b.in_service(on(2024, 1, 1));
    CHECK(unknown_text(b.ask(on(2024, 1, 5), "s")) == "");
    CHECK(unknown_text(b.ask(on(2024, 1, 5), "m")) == "measured");
    CHECK(unknown_text(b.ask(on(2024, 1, 5), "both")) == "");
    b.measure(on(2024, 1, 4), "gap", 1);
    CHECK(unknown_text(b.ask(on(2024, 1, 5), "m")) == "");
  }
}

TEST_CASE("positions") {
  Book b;
  b.task("tyre", {months(12)}).positions = {"left", "right"};
  b.done("tyre", on(2024, 1, 1));
  b.done("tyre", on(2024, 2, 1)).position = "left";
  CHECK(b.ask(on(2024, 3, 1), "tyre", "left").fitted->first == on(2024, 2, 1));
  CHECK(b.ask(on(2024, 3, 1), "tyre", "right").fitted->first == on(2024, 1, 1));
}

TEST_CASE("several services of a task on a day are one") {
  Book b;
  b.in_service(on(2024, 1, 1), 0);
  Task& t = b.task("t", {hours(100)});
  t.counts_from = CountsFrom::due;
  t.grace = grace_hours(10);
  b.done("t", on(2024, 2, 1), 95 * h);
  b.done("t", on(2024, 2, 1), 96 * h);
  CHECK(amount_text(limb(b.ask(on(2024, 2, 1), "t"), Kind::usage).due_at) == "200");  // once on 100, not twice

  Book c;
  c.in_service(on(2024, 1, 1));
  c.task("inner", {months(12)});
  c.task("outer", {changes("inner", 2)});
  c.done("inner", on(2024, 2, 1));
  c.done("inner", on(2024, 2, 1), 5 * h);
  CHECK(limb(c.ask(on(2024, 2, 2), "outer"), Kind::changes).changes_used == 1);
}

TEST_CASE("changes") {
  Book b;
  b.in_service(on(2024, 1, 1));
  b.task("primary", {months(12)}).positions = {"left", "right"};
  Task& t = b.task("safety", {changes("primary", 3)});
  b.task("big", {months(24)}).covers = {"primary"};
  SUBCASE("at n due, beyond overdue; any position; a covered task counts; days, not services") {
    b.done("primary", on(2024, 1, 1));  // the day it was fitted is not after it
    b.done("primary", on(2024, 2, 1)).position = "left";
    b.done("primary", on(2024, 2, 1)).position = "right";
    CHECK(limb(b.ask(on(2024, 2, 1), "safety"), Kind::changes).changes_used == 1);
    b.done("big", on(2024, 3, 1));
    CHECK(standing(b.ask(on(2024, 3, 1), "safety")) == "unreached");
    b.done("primary", on(2024, 4, 1));
    CHECK(standing(b.ask(on(2024, 5, 1), "safety")) == "due by changes since 2024-04-01");
    b.done("primary", on(2024, 6, 1));
    CHECK(standing(b.ask(on(2024, 6, 1), "safety")) == "overdue by changes since 2024-04-01");
    b.done("safety", on(2024, 6, 1));
    CHECK(standing(b.ask(on(2024, 6, 2), "safety")) == "unreached");
  }
  SUBCASE("percent grace rounds down") {
    t.grace = percent(60);  // of three: one
    for (int m = 2; m <= 5; ++m) b.done("primary", on(2024, m, 1));
    CHECK(standing(b.ask(on(2024, 5, 1), "safety")) == "due by changes since 2024-04-01");
    b.done("primary", on(2024, 6, 1));
    CHECK(standing(b.ask(on(2024, 6, 1), "safety")) == "overdue by changes since 2024-04-01");
  }
}

TEST_CASE("measured: the latest since fitted") {
  Book b;
  b.in_service(on(2024, 1, 1));
  b.w.grace = percent(10);  // none for a measured limb
  b.task("filter", {measured("restriction", true, 25)});
  b.task("tyre", {measured("tread", false, 3)});
  b.measure(on(2024, 2, 1), "restriction", 2500);
  CHECK(standing(b.ask(on(2024, 2, 1), "filter")) == "due by measured since 2024-02-01");
  b.measure(on(2024, 2, 2), "restriction", 2501);
  CHECK(standing(b.ask(on(2024, 2, 2), "filter")) == "overdue by measured since 2024-02-02");
  b.measure(on(2024, 2, 3), "restriction", 2400);
  CHECK(standing(b.ask(on(2024, 2, 3), "filter")) == "unreached");
  b.measure(on(2024, 2, 3), "tread", 300);
  CHECK(standing(b.ask(on(2024, 2, 3), "tyre")) == "due by measured since 2024-02-03");
  b.measure(on(2024, 2, 4), "tread", 299);
  CHECK(standing(b.ask(on(2024, 2, 4), "tyre")) == "overdue by measured since 2024-02-04");
  b.done("tyre", on(2024, 2, 4));  // entered after the measurement of that day
  CHECK(standing(b.ask(on(2024, 2, 4), "tyre")) == "unreached");
  b.measure(on(2024, 2, 4), "tread", 298);
  CHECK(standing(b.ask(on(2024, 2, 4), "tyre")) == "overdue by measured since 2024-02-04");
}

TEST_CASE("sign: due on the day, overdue after that day and its grace") {
  Book b;
  b.in_service(on(2024, 1, 1));
  Task& t = b.task("hose", {signs({"leak", "crack"}), months(60)});
  b.sign(on(2024, 2, 1), "squeal");
  CHECK(standing(b.ask(on(2024, 2, 1), "hose")) == "unreached");
  b.sign(on(2024, 2, 3), "crack");
  b.sign(on(2024, 2, 5), "leak");
  CHECK(standing(b.ask(on(2024, 2, 3), "hose")) == "due by sign since 2024-02-03");
  CHECK(standing(b.ask(on(2024, 2, 4), "hose")) == "overdue by sign since 2024-02-03");
  t.grace = grace_days(2);
  CHECK(standing(b.ask(on(2024, 2, 5), "hose")) == "due by sign since 2024-02-03");
  CHECK(standing(b.ask(on(2024, 2, 6), "hose")) == "overdue by sign since 2024-02-03");
  b.done("hose", on(2024, 2, 6));
  CHECK(standing(b.ask(on(2024, 2, 6), "hose")) == "unreached");
  {  // a look that finds it worn sees it, and a good one answers that
    Book looked = b;
    Fact& worn = looked.fact(FactKind::looked_at, on(2024, 2, 8));
    worn.name = "leak";
    worn.found_good = false;
    looked.sign(on(2024, 2, 9), "leak");
    CHECK(standing(looked.ask(on(2024, 2, 7), "hose")) == "unreached");
    CHECK(standing(looked.ask(on(2024, 2, 9), "hose")) == "due by sign since 2024-02-08");
    looked.fact(FactKind::looked_at, on(2024, 2, 10)).name = "leak";
    CHECK(standing(looked.ask(on(2024, 2, 10), "hose")) == "unreached");
  }
  b.sign(on(2024, 2, 6), "leak");  // entered after the service of that day
  CHECK(standing(b.ask(on(2024, 2, 6), "hose")) == "due by sign since 2024-02-06");
  t.grace.reset();
  b.w.grace = grace_days(9);  // is not for signs
  CHECK(standing(b.ask(on(2024, 2, 7), "hose")) == "overdue by sign since 2024-02-06");
}

TEST_CASE("kept as seen: until a look finds it good, or what was found failed is done again") {
  Book b;
  b.in_service(on(2024, 1, 1));
  b.task("brakes", {months(12)}).safety = true;
  Task& fork = b.task("fork", {months(12), signs({"leak"})});
  fork.competent_person = true;
  fork.positions = {"left", "right"};
  fork.follow_ups = {FollowUp{"tag", {days(5)}}};
  Task& belts = b.task("belts", {months(60), measured("slack", true, 5)});
  belts.safety = true;
  belts.parts = true;
  b.task("wipers", {months(12)});
  b.task("big", {months(24)}).covers = {"brakes"};
  const auto seen = [&](Day as_of) {
    b.w.as_of = as_of;
    std::string text;
    for (const SeenAnswer& s : evaluate(b.w).seen)
      text += s.sign + " " + iso(s.on) + (s.looked ? " looked" : "") + (s.note.empty() ? "" : " " + s.note) + ";";
    return text;
  };
  const auto failed = [&](const std::string& task, Day day, const std::string& position = "") {
    Fact& f = b.done(task, day);
    f.position = position;
    f.found_failed = true;
  };
  const auto look = [&](Day day, const std::string& name, bool good) {
    Fact& f = b.fact(FactKind::looked_at, day);
    f.name = name;
    f.found_good = good;
    f.note = "n";
  };
  b.sign(on(2024, 2, 1), "leak");  // listed
  b.measure(on(2024, 2, 1), "slack", 200);
  for (const char* const task : {"belts", "wipers"}) failed(task, on(2024, 2, 1));
  CHECK(seen(on(2024, 2, 1)) == "");
  b.sign(on(2024, 2, 2), "hum");
  b.measure(on(2024, 2, 3), "heat", 9050).unit = "C";
  CHECK(seen(on(2024, 2, 3)) == "hum 2024-02-02;heat 90.5 C 2024-02-03;");
  look(on(2024, 2, 4), "hum", false);
  look(on(2024, 2, 4), "heat 90.5 C", true);
  CHECK(seen(on(2024, 2, 4)) == "hum 2024-02-02 looked n;");
  look(on(2024, 2, 5), "hum", true);
  look(on(2024, 2, 6), "hum", false);   // it is back
  look(on(2024, 2, 6), "leak", false);  // listed
  CHECK(seen(on(2024, 2, 6)) == "hum 2024-02-06 looked n;");
  look(on(2024, 2, 7), "hum", true);
  look(on(2024, 2, 7), "old name", false);  // nobody saw it
  CHECK(seen(on(2024, 2, 7)) == "old name 2024-02-07 looked n;");
  look(on(2024, 2, 8), "old name", true);
  failed("brakes", on(2024, 3, 1));
  CHECK(seen(on(2024, 3, 1)) == "brakes found failed 2024-03-01;");
  failed("brakes", on(2024, 3, 2));
  failed("big", on(2024, 3, 3));
  CHECK(seen(on(2024, 3, 3)) == "brakes found failed 2024-03-01;big found failed 2024-03-03;");
  b.done("brakes", on(2024, 3, 3));  // nobody knows what of the big one failed
  CHECK(seen(on(2024, 3, 3)) == "big found failed 2024-03-03;");
  b.done("big", on(2024, 3, 4));
  CHECK(seen(on(2024, 3, 4)) == "");
  failed("fork/tag", on(2024, 3, 5));
  CHECK(seen(on(2024, 3, 5)) == "fork/tag found failed 2024-03-05;");
  b.done("fork/tag", on(2024, 3, 6));
  CHECK(seen(on(2024, 3, 6)) == "");
  b.done("big", on(2024, 3, 20));
  look(on(2024, 3, 21), "brakes found failed", true);
  failed("brakes", on(2024, 3, 10));
  b.w.facts.back().on = Span{on(2024, 3, 1), on(2024, 3, 31)};
  CHECK(seen(on(2024, 3, 21)) == "brakes found failed 2024-03-01;");  // in March, so perhaps after both
  look(on(2024, 3, 21), "brakes found failed", true);                 // when it was in the book
  CHECK(seen(on(2024, 3, 21)) == "");
  failed("brakes", on(2024, 3, 10));
  b.w.facts.back().on = Span{on(2024, 3, 1), on(2024, 3, 31)};
  b.done("brakes", on(2024, 3, 31));
  CHECK(seen(on(2024, 3, 31)) == "brakes found failed 2024-03-01;");
  b.done("brakes", on(2024, 4, 1));
  CHECK(seen(on(2024, 4, 1)) == "");
  failed("fork", on(2024, 4, 1));
  failed("fork", on(2024, 4, 2), "left");
  b.done("fork", on(2024, 4, 3)).position = "left";
  CHECK(seen(on(2024, 4, 3)) == "fork found failed 2024-04-01;");  // the right one is as it was
  b.done("fork", on(2024, 4, 4)).position = "right";
  CHECK(seen(on(2024, 4, 4)) == "");
  look(on(2024, 4, 5), "fork found failed", false);  // at both, as it was found
  b.done("fork", on(2024, 4, 6)).position = "left";
  CHECK(seen(on(2024, 4, 6)) == "fork found failed 2024-04-05 looked n;");
  b.done("fork", on(2024, 4, 7)).position = "right";
  CHECK(seen(on(2024, 4, 7)) == "");
  const auto worn = [&](const std::string& task, Day day) { b.done(task, day).found_worn = true; };
  worn("brakes", on(2024, 4, 10));
  CHECK(seen(on(2024, 4, 10)) == "brakes found worn 2024-04-10;");
  worn("big", on(2024, 4, 11));  // may wait: neither kept nor an answer
  CHECK(seen(on(2024, 4, 11)) == "brakes found worn 2024-04-10;");
  failed("brakes", on(2024, 4, 12));
  CHECK(seen(on(2024, 4, 12)) == "brakes found failed 2024-04-12;");
  worn("brakes", on(2024, 4, 13));
  CHECK(seen(on(2024, 4, 13)) == "brakes found worn 2024-04-13;");
  b.done("brakes", on(2024, 4, 14));
  CHECK(seen(on(2024, 4, 14)) == "");
  failed("brakes", on(2024, 5, 1));
  look(on(2024, 5, 1), "brakes found failed", true);
  failed("brakes", on(2024, 5, 2));
  CHECK(seen(on(2024, 5, 2)) == "brakes found failed 2024-05-02;");
  b.machine().left = on(2024, 6, 1);
  CHECK(seen(on(2024, 6, 1)) == "");
}

TEST_CASE("season: so many days before it, each year") {
  Book b;
  b.w.seasons = {Season{"harvest", 8, 1, 9, 20}, Season{"feeding", 11, 15, 2, 10}};
  Task& t = b.task("ready", {season("harvest", 14)});
  b.done("ready", on(2023, 9, 20));  // the season of 2023 has not ended: it serves that one
  CHECK(day_text(limb(b.ask(on(2023, 10, 1), "ready"), Kind::season).due_on) == "2024-07-18");
  b.done("ready", on(2023, 9, 21));  // since it ended: it serves 2024
  CHECK(day_text(limb(b.ask(on(2023, 10, 1), "ready"), Kind::season).due_on) == "2025-07-18");
  CHECK(standing(b.ask(on(2025, 7, 17), "ready")) == "unreached");
  CHECK(standing(b.ask(on(2025, 7, 18), "ready")) == "due by season since 2025-07-18");
  CHECK(standing(b.ask(on(2025, 7, 19), "ready")) == "overdue by season since 2025-07-18");
  t.grace = grace_days(3);
  CHECK(standing(b.ask(on(2025, 7, 21), "ready")) == "due by season since 2025-07-18");
  CHECK(standing(b.ask(on(2025, 7, 22), "ready")) == "overdue by season since 2025-07-18");

  // Over New Year: from 15 November to 10 February.
  b.task("shed", {season("feeding", 10)});
  b.done("shed", on(2024, 1, 5));
  CHECK(day_text(limb(b.ask(on(2024, 3, 1), "shed"), Kind::season).due_on) == "2024-11-05");
  b.done("shed", on(2024, 2, 11));
  CHECK(day_text(limb(b.ask(on(2024, 3, 1), "shed"), Kind::season).due_on) == "2025-11-05");
}

TEST_CASE("covers is transitive, and an ordinary task never covers a competent person's") {
  Book b;
  b.task("a", {months(1)});
  b.task("b", {months(1)}).covers = {"a"};
  b.task("c", {months(1)}).covers = {"b", "exam"};
  b.task("exam", {months(12)}).competent_person = true;
  b.done("c", on(2024, 1, 1), 100 * h);
  CHECK(fitted_text(b.ask(on(2024, 1, 2), "a")) == "2024-01-01..2024-01-01 100 engine recorded");
  CHECK(standing(b.ask(on(2024, 1, 2), "exam")) == "no-record");
}

TEST_CASE("follow-ups") {
  Book b;
  b.in_service(on(2024, 1, 1));
  Task& t = b.task("wheel", {months(12)});
  t.follow_ups = {FollowUp{"re-torque", {hours(10), days(7)}}};
  b.task("big", {months(24)}).covers = {"wheel"};
  CHECK(standing(b.ask(on(2024, 1, 2), "wheel/re-torque")) == "none");  // new, not done
  b.done("wheel", on(2024, 2, 1), 100 * h);
  CHECK(standing(b.ask(on(2024, 2, 1), "wheel/re-torque")) == "unreached");
  CHECK(standing(b.ask(on(2024, 2, 8), "wheel/re-torque")) == "due by calendar since 2024-02-08");
  b.reading(on(2024, 2, 5), 110 * h);
  CHECK(standing(b.ask(on(2024, 2, 5), "wheel/re-torque")) == "due by usage since 2024-02-05");
  b.reading(on(2024, 2, 6), 111 * h);
  CHECK(standing(b.ask(on(2024, 2, 6), "wheel/re-torque")) == "overdue by usage since 2024-02-05");
  b.done("wheel/re-torque", on(2024, 2, 6));
  CHECK(standing(b.ask(on(2024, 2, 6), "wheel/re-torque")) == "none");
  b.done("big", on(2024, 3, 1));  // covers it, so the check is owed again
  CHECK(b.ask(on(2024, 3, 1), "wheel/re-torque").exists);
  b.done("wheel/re-torque", on(2024, 3, 1));
  CHECK(!b.ask(on(2024, 3, 1), "wheel/re-torque").exists);
  b.done("wheel", on(2024, 3, 1));  // entered after the check of that day
  CHECK(b.ask(on(2024, 3, 1), "wheel/re-torque").exists);
}

TEST_CASE("a follow-up takes the fleet's grace in percent, and no other") {
  Book b;
  Task& t = b.task("wheel", {months(12)});
  t.grace = grace_days(20);
  t.follow_ups = {FollowUp{"re-torque", {days(10)}}};
  b.done("wheel", on(2024, 2, 1));
  b.w.grace = grace_days(5);
  CHECK(standing(b.ask(on(2024, 2, 11), "wheel/re-torque")) == "due by calendar since 2024-02-11");
  CHECK(standing(b.ask(on(2024, 2, 12), "wheel/re-torque")) == "overdue by calendar since 2024-02-11");
  b.w.grace = percent(20);
  CHECK(standing(b.ask(on(2024, 2, 13), "wheel/re-torque")) == "due by calendar since 2024-02-11");
  CHECK(standing(b.ask(on(2024, 2, 14), "wheel/re-torque")) == "overdue by calendar since 2024-02-11");
  t.safety = true;
  CHECK(standing(b.ask(on(2024, 2, 12), "wheel/re-torque")) == "overdue by calendar since 2024-02-11");
}

TEST_CASE("an examination has its own grace alone, and is never put off") {
  Book b;
  b.w.grace = percent(10);
  Task& t = b.task("exam", {months(12)});
  t.competent_person = true;
  b.done("exam", on(2023, 1, 1)).by = "inspector";
  CHECK(standing(b.ask(on(2024, 1, 1), "exam")) == "due by calendar since 2024-01-01");
  CHECK(standing(b.ask(on(2024, 1, 2), "exam")) == "overdue by calendar since 2024-01-01");
  t.grace = grace_days(3);
  CHECK(standing(b.ask(on(2024, 1, 4), "exam")) == "due by calendar since 2024-01-01");
  CHECK(standing(b.ask(on(2024, 1, 5), "exam")) == "overdue by calendar since 2024-01-01");
  Fact& f = b.fact(FactKind::put_off, on(2024, 1, 2));
  f.task = "exam";
  f.until = on(2024, 3, 1);
  CHECK(!b.ask(on(2024, 1, 5), "exam").put_off);
}

TEST_CASE("a service told of later owes no check") {
  for (const bool safety : {false, true}) {
    Book b;
    Task& t = b.task("wheel", {months(12)});
    t.safety = safety;
    t.follow_ups = {FollowUp{"re-torque", {days(7)}}};
    b.task("big", {months(24)}).covers = {"wheel"};
    b.done("wheel", on(2024, 2, 1)).history = true;
    CHECK(b.ask(on(2024, 2, 2), "wheel/re-torque").exists == safety);
    b.done("big", on(2024, 3, 1)).history = true;
    CHECK(b.ask(on(2024, 3, 1), "wheel/re-torque").exists == safety);
    b.done("wheel", on(2024, 4, 1));
    b.done("wheel", on(2024, 4, 1)).history = true;  // the same service, told again
    CHECK(b.ask(on(2024, 4, 1), "wheel/re-torque").exists);
    b.done("wheel", on(2024, 4, 2)).history = true;
    CHECK(b.ask(on(2024, 4, 2), "wheel/re-torque").exists == safety);
  }
}

TEST_CASE("put off") {
  Book b;
  b.task("t", {hours(100), months(1)});
  b.done("t", on(2024, 1, 1), 0);
  b.reading(on(2024, 2, 10), 90 * h);
  Fact& f = b.fact(FactKind::put_off, on(2024, 2, 11));
  f.task = "t";
  f.until = on(2024, 3, 1);
  f.at = 120 * h;
  CHECK(!b.ask(on(2024, 2, 10), "t").put_off);
  const PointAnswer p = b.ask(on(2024, 2, 11), "t");
  CHECK(p.put_off);
  CHECK(p.standing == Standing::overdue);  // it stays overdue
  CHECK(b.ask(on(2024, 2, 29), "t").put_off);
  CHECK(!b.ask(on(2024, 3, 1), "t").put_off);
  b.reading(on(2024, 2, 20), 120 * h);
  CHECK(b.ask(on(2024, 2, 19), "t").put_off);
  CHECK(!b.ask(on(2024, 2, 20), "t").put_off);  // whichever comes first
  b.done("t", on(2024, 2, 15));
  CHECK(b.ask(on(2024, 2, 14), "t").put_off);
  CHECK(!b.ask(on(2024, 2, 15), "t").put_off);  // a service ends it
}

TEST_CASE("strikes") {
  Book b;
  b.task("t", {months(1)});
  b.done("t", on(2024, 1, 1));
  b.done("t", on(2024, 2, 1));
  CHECK(b.ask(on(2024, 2, 2), "t").fitted->first == on(2024, 2, 1));
  b.strike(1);
  CHECK(b.ask(on(2024, 2, 2), "t").fitted->first == on(2024, 1, 1));
  b.strike(2);
  CHECK(b.ask(on(2024, 2, 2), "t").fitted->first == on(2024, 2, 1));
  b.strike(3);
  CHECK(b.ask(on(2024, 2, 2), "t").fitted->first == on(2024, 1, 1));
}

TEST_CASE("the worst limb rules, then the earliest due day, then usage") {
  Book b;
  b.task("t", {signs({"leak"}), days(40), hours(100)});
  b.done("t", on(2024, 1, 1), 0);
  b.reading(on(2024, 2, 10), 100 * h);  // reached on day 40 too
  CHECK(standing(b.ask(on(2024, 2, 10), "t")) == "due by usage since 2024-02-10");
  b.sign(on(2024, 2, 9), "leak");  // overdue on the tenth
  CHECK(standing(b.ask(on(2024, 2, 10), "t")) == "overdue by sign since 2024-02-09");

  Book c;
  c.w.grace = grace_days(30);
  c.task("t", {hours(100), days(35)});
  c.done("t", on(2024, 1, 1), 0);
  c.reading(on(2024, 2, 10), 100 * h);
  CHECK(standing(c.ask(on(2024, 2, 10), "t")) == "due by calendar since 2024-02-05");  // both due, the earlier
}

TEST_CASE("by estimate: due at the due point, and the meter is to be read beyond the grace") {
  // Grace 10 h: due from 100 h on, overdue beyond 110 h.
  const auto asked = [](Amount read, Amount estimate, bool safety = false, int more_days = 1000) {
    Book b;
    b.w.grace = grace_hours(10);
    b.task("t", {hours(100), days(more_days)}).safety = safety;
    b.done("t", on(2024, 1, 1), 0);
    b.reading(on(2024, 2, 10), read);
    b.w.as_of = on(2024, 3, 1);
    const PointAnswer p = evaluate(b.w, {{"m", "engine", estimate}}).points.front();
    return std::string(word(p.standing)) + (p.by_estimate ? " by estimate" : "") +
           (p.read_the_meter ? ", read the meter" : "");
  };
  CHECK(asked(99 * h, 100 * h - 1) == "unreached");
  CHECK(asked(99 * h, 100 * h) == "unreached by estimate");
  CHECK(asked(99 * h, 110 * h) == "unreached by estimate");
  CHECK(asked(99 * h, 110 * h + 1) == "unreached by estimate, read the meter");
  // Reached by facts, and within grace by them.
  CHECK(asked(105 * h, 105 * h) == "due");
  CHECK(asked(105 * h, 110 * h) == "due");
  CHECK(asked(105 * h, 110 * h + 1) == "due, read the meter");
  CHECK(asked(110 * h, 110 * h + 1) == "due, read the meter");
  CHECK(asked(110 * h + 1, 150 * h) == "overdue");
  // Safety has no grace.
  CHECK(asked(100 * h, 100 * h, true) == "due");
  CHECK(asked(100 * h, 100 * h + 1, true) == "due, read the meter");
  // Due by the calendar, on its day, whose limb rules.
  CHECK(asked(50 * h, 111 * h, false, 60) == "due, read the meter");
  CHECK(asked(50 * h, 110 * h, false, 60) == "due");
}

TEST_CASE("laid up, out of use, back") {
  Book b;
  b.task("t", {months(12)});
  b.fact(FactKind::laid_up, on(2024, 1, 1)).until = on(2024, 2, 1);
  b.fact(FactKind::out_of_use, on(2024, 3, 1));
  b.fact(FactKind::back, on(2024, 4, 1));
  const auto state = [&](Day as_of) {
    b.w.as_of = as_of;
    const MachineAnswer m = evaluate(b.w).machines.front();
    return std::string(m.laid_up ? "laid-up " : "") + (m.out_of_use ? "out-of-use" : "");
  };
  CHECK(state(on(2024, 1, 31)) == "laid-up ");
  CHECK(state(on(2024, 2, 1)) == "");
  CHECK(state(on(2024, 3, 1)) == "out-of-use");
  CHECK(state(on(2024, 4, 1)) == "");
}

// ---- text -------------------------------------------------------------------------------------------------------

TEST_CASE("ids are 26 digits of base 32, ordered by time of entry") {
  // Entered at 2026-01-01T00:00:00Z, which is 20454 x 86 400 000 = 1 767 225 600 000 ms after 1970; the two ids were
  // computed apart, with whole numbers of any length. 26 digits hold 130 bits: the first is never above 7.
  CHECK(batch_id(0) == "01kdvdna000000000000000000");
  CHECK(batch_id(37) == "01kdvdpe480000000000000015");
  for (int i = 0; i < 500; ++i) {
    CHECK(batch_id(i) < batch_id(i + 1));
    CHECK(batch_id(i)[0] <= '7');
    CHECK(batch_id(i).find_first_not_of("0123456789abcdefghjkmnpqrstvwxyz") == std::string::npos);
  }
  CHECK(fact_id(0) == batch_id(0) + "-1");
  CHECK(entered_at(0) == "2026-01-01T00:00:00.000Z");
  CHECK(entered_at(3671) == "2026-01-01T01:01:11.000Z");
}

TEST_CASE("a world as text") {
  Book b;
  b.w.grace = percent(5);
  b.in_service(on(2024, 1, 1), 150);
  Task& t = b.task("oil", {hours(62.5), months(12), signs({"leak", "noise"})});
  t.first = {hours(50)};
  t.in = {{"dusty", {hours(30)}}};
  t.follow_ups = {FollowUp{"check", {hours(1)}}};
  b.machine().conditions = {"dusty"};
  b.done("oil", Span{on(2024, 5, 1), on(2024, 5, 31)}, 4025);
  const FleetFiles files = fleet_files(b.w);
  CHECK(files.fleet ==
        "fleet: Twin holding\n"
        "time-zone: Europe/Oslo\n"
        "grace: 5%\n"
        "sites:\n"
        "  yard: {name: Home yard}\n"
        "machines:\n"
        "  m:\n"
        "    name: The m\n"
        "    schedule: kind\n"
        "    site: yard\n"
        "    in-service: {on: 2024-01-01, at: 1.5}\n"
        "    conditions: [dusty]\n");
  REQUIRE(files.schedules.size() == 1);
  CHECK(files.schedules[0].first == "schedules/kind.yaml");
  CHECK(files.schedules[0].second ==
        "schedule: kind\n"
        "tasks:\n"
        "  oil:\n"
        "    do: Do the oil\n"
        "    every: {hours: 62.5, months: 12, signs: [leak, noise]}\n"
        "    first: {hours: 50}\n"
        "    in: {dusty: {hours: 30}}\n"
        "    follow-up: {check: {do: Check it, within: {hours: 1}}}\n");
  CHECK(facts_csv(b.w, Rows::plain) ==
        "kind,machine,on,meter,at,task,position,name,value,unit,last,first,until,found,by,note,history\r\n"
        "service,m,2024-05,,40.25,oil,,,,,,,,,,,\r\n");
  b.strike(0);
  CHECK_THROWS(facts_csv(b.w, Rows::plain));
  const std::string rows = facts_csv(b.w, Rows::exported);
  CHECK(rows.find("strike,,,,,,,,,,,,,,,,," + fact_id(1)) != std::string::npos);
  CHECK(rows.find("," + fact_id(0) + "\r\n") != std::string::npos);
}

// ---- worlds -----------------------------------------------------------------------------------------------------

TEST_CASE("small worlds are valid, and each family reaches every standing it can") {
  // Not every one here, to stay quick: every k-th, with k prime to the sizes of the digits.
  constexpr std::size_t step = 13;
  for (int family = 0; family < family_count(); ++family) {
    INFO(std::string(family_name(family)));
    std::map<std::string, int> seen;
    const std::size_t size = family_size(family);
    for (std::size_t i = 0; i < size; i += step) {
      const World w = family_world(family, i);
      const std::string wrong = problem(w);
      if (!wrong.empty()) FAIL("world " << i << ": " << wrong);
      for (const PointAnswer& p : evaluate(w).points)
        if (p.exists) ++seen[word(p.standing)];
      if (i % (step * 50) == 0) {
        // Everything can be said in text.
        CHECK(!fleet_files(w).schedules.empty());
        CHECK(facts_csv(w, Rows::plain, RollOvers::left_out).find("kind,machine") == 0);
      }
    }
    CHECK(seen["unreached"] > 0);
    CHECK(seen["due"] > 0);
    CHECK(seen["overdue"] > 0);
    // The machines of "which limbs hold" that are bought have it too, before their first service.
    CHECK(seen["no-record"] > 0);
    MESSAGE(std::string(family_name(family)) << ": " << size << " worlds");
  }
}

TEST_CASE("random worlds are valid, use every feature, and reach every standing by every limb") {
  std::map<std::string, int> used, standings, bases, unknown;
  for (const std::string& name : all_features()) used[name] = 0;
  int put_off = 0, follow_ups = 0, exported = 0, found = 0;
  constexpr std::uint64_t seeds = 4000;
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    const World w = random_world(seed);
    const std::string wrong = problem(w);
    if (!wrong.empty()) FAIL("seed " << seed << ": " << wrong);
    for (const std::string& name : features(w)) ++used[name];
    for (const PointAnswer& p : evaluate(w).points) {
      if (!p.exists) continue;
      ++standings[std::string(word(p.standing)) + (p.ruled_by ? std::string(" ") + word(*p.ruled_by) : "")];
      if (p.fitted) ++bases[word(p.fitted->basis)];
      for (const Kind k : p.unknown) ++unknown[word(k)];
      if (p.put_off) ++put_off;
      if (p.task.find('/') != std::string::npos) ++follow_ups;
    }
    if (seed % 10 == 0) {
      CHECK(!fleet_files(w).fleet.empty());
      CHECK(facts_csv(w, Rows::exported).find("strikes\r\n") != std::string::npos);
    }
    if (needs_ids(w)) ++exported;
    if (has_found_roll_overs(w)) ++found;
  }
  for (const auto& each : used) {
    INFO(each.first);
    CHECK(each.second >= 5);
  }
  for (const char* s : {"overdue usage", "overdue calendar", "overdue changes", "overdue measured", "overdue sign",
                        "overdue season", "due usage", "due calendar", "due changes", "due measured", "due sign",
                        "due season", "no-record", "unreached"}) {
    INFO(std::string(s));
    CHECK(standings[s] >= 5);
  }
  for (const char* s : {"recorded", "interpolated", "last-known", "in-service", "unknown"}) {
    INFO(std::string(s));
    CHECK(bases[s] >= 5);
  }
  for (const char* s : {"usage", "calendar", "changes", "measured", "season"}) {
    INFO(std::string(s));
    CHECK(unknown[s] >= 5);
  }
  CHECK(unknown["sign"] == 0);  // what nobody saw is quiet
  CHECK(put_off >= 5);
  CHECK(follow_ups >= 5);
  CHECK(exported >= 5);
  CHECK(found >= 5);
  for (const auto& [name, count] : used) MESSAGE(name << ": " << count);
  for (const auto& [name, count] : standings) MESSAGE(name << ": " << count);
}

TEST_CASE("the same seed makes the same world") {
  for (std::uint64_t seed : {1u, 77u, 4242u}) {
    CHECK(facts_csv(random_world(seed), Rows::exported) == facts_csv(random_world(seed), Rows::exported));
    CHECK(facts_csv(random_world(seed), Rows::exported) != facts_csv(random_world(seed + 1), Rows::exported));
  }
}
