// Month arithmetic and dates of reduced precision, as standards and the documentation of date libraries state them.
#include <doctest/doctest.h>

#include <array>
#include <string>
#include <string_view>

#include "support/world.h"

using service::add_months;
using service::to_text;
using test::day;
using test::World;

TEST_CASE("adding months keeps the day of the month or clamps to the last one") {
  struct Row {
    std::string_view from;
    int months;
    std::string_view expected;
    std::string_view source;
  };
  constexpr std::array rows{
      Row{"2003-01-27", 1, "2003-02-27", "python-dateutil documentation, examples of relativedelta"},
      Row{"2003-01-31", 1, "2003-02-28", "python-dateutil documentation, examples of relativedelta"},
      Row{"2003-01-31", 2, "2003-03-31", "python-dateutil documentation, examples of relativedelta"},
      Row{"2000-02-29", 12, "2001-02-28", "python-dateutil documentation, examples of relativedelta"},
      Row{"2000-02-28", 12, "2001-02-28", "python-dateutil documentation, examples of relativedelta"},
      Row{"1999-02-28", 12, "2000-02-28", "python-dateutil documentation, examples of relativedelta"},
      Row{"2001-02-28", -12, "2000-02-28", "python-dateutil documentation, examples of relativedelta"},
      Row{"2001-03-01", -12, "2000-03-01", "python-dateutil documentation, examples of relativedelta"},
      Row{"2007-03-31", 1, "2007-04-30", "java.time.LocalDate documentation, plusMonths; from memory, and executed"},
      Row{"2008-02-29", 12, "2009-02-28", "java.time.LocalDate documentation, plusYears; from memory, and executed"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.from);
    CAPTURE(row.source);
    CHECK(to_text(add_months(day(row.from), row.months)) == std::string(row.expected));
  }
}

// A rule of iCalendar (RFC 5545, 2009) leaves out the months that lack the day (3.3.10). RFC 7529 (2015) adds
// SKIP=BACKWARD, which takes the last day of such a month and keeps the anchor: that is our arithmetic. The days below
// are those of the test vectors of libical (icalrecur_test_rscale.txt) for RFC 7529.

TEST_CASE("monthly from the last of January, clamped and never drifting") {
  // SKIP=BACKWARD, monthly from 20140131, four times: 31 January, 28 February, 31 March, 30 April.
  World world("  exam: {do: Examine, every: {months: 1}, counts-from: due}\n", "in-service: {on: 2014-01-31, at: 0}");
  for (const char* const due : {"2014-02-28", "2014-03-31", "2014-04-30"}) {
    CHECK(test::text_or_none(world.point(due, "exam").due_on) == due);
    world.done("exam", due);
  }
}

TEST_CASE("the thirty-first of each month of 2015") {
  // SKIP=BACKWARD, BYMONTHDAY=31.
  constexpr std::array<std::string_view, 12> ends{"2015-01-31", "2015-02-28", "2015-03-31", "2015-04-30",
                                                  "2015-05-31", "2015-06-30", "2015-07-31", "2015-08-31",
                                                  "2015-09-30", "2015-10-31", "2015-11-30", "2015-12-31"};
  int months = 0;
  for (const std::string_view end : ends) CHECK(to_text(add_months(day("2015-01-31"), months++)) == std::string(end));
}

TEST_CASE("a date is a day, a month or a year") {
  // Library of Congress, Extended Date/Time Format (4 Feb 2019), level 0, which is ISO 8601-1: 1985-04-12, 1985-04,
  // 1985. That a month and a year are read as all their days: ours.
  CHECK(to_text(test::span("1985-04-12").first) == "1985-04-12");
  CHECK(to_text(test::span("1985-04-12").last) == "1985-04-12");
  CHECK(to_text(test::span("1985-04").first) == "1985-04-01");
  CHECK(to_text(test::span("1985-04").last) == "1985-04-30");
  CHECK(to_text(test::span("1985").first) == "1985-01-01");
  CHECK(to_text(test::span("1985").last) == "1985-12-31");
}

TEST_CASE("only the extended form of a date, with hyphens") {
  // Library of Congress, Extended Date/Time Format (4 Feb 2019): no basic form.
  CHECK_FALSE(service::parse_day_span("20050924").value.has_value());
  CHECK(service::parse_day_span("2005-09-24").value.has_value());
}
