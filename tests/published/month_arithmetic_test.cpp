// Month arithmetic against published and executed values.
#include <doctest/doctest.h>

#include <array>
#include <string>
#include <string_view>

#include "support/world.h"

using service::add_months;
using service::to_text;
using test::day;

TEST_CASE("adding months keeps the day of the month or clamps to the last one") {
  struct Row {
    std::string_view from;
    int months;
    std::string_view expected;
    std::string_view source;
  };
  // "dateutil": examples of the python-dateutil documentation (relativedelta). "java.time": the example in the API
  // documentation of LocalDate. "executed": computed with dateutil 2.8.2, java.time 17 and PostgreSQL 15 or the first.
  constexpr std::array rows{
      Row{"2023-01-31", 1, "2023-02-28", "executed, all three"},
      Row{"2024-01-31", 1, "2024-02-29", "executed, all three"},
      Row{"2024-01-30", 1, "2024-02-29", "executed"},
      Row{"2003-01-27", 1, "2003-02-27", "dateutil"},
      Row{"2003-01-31", 1, "2003-02-28", "dateutil"},
      Row{"2003-01-31", 2, "2003-03-31", "dateutil"},
      Row{"2000-02-29", 12, "2001-02-28", "dateutil"},
      Row{"2000-02-28", 12, "2001-02-28", "dateutil"},
      Row{"1999-02-28", 12, "2000-02-28", "dateutil"},
      Row{"2001-02-28", -12, "2000-02-28", "dateutil"},
      Row{"2001-03-01", -12, "2000-03-01", "dateutil"},
      Row{"2007-03-31", 1, "2007-04-30", "java.time"},
      Row{"2008-02-29", 12, "2009-02-28", "java.time"},
      Row{"2024-02-29", 12, "2025-02-28", "executed, all three"},
      Row{"2024-02-29", 48, "2028-02-29", "executed"},
      Row{"2023-03-31", -1, "2023-02-28", "executed, all three"},
      Row{"2023-08-31", 6, "2024-02-29", "executed, all three"},
      Row{"2023-08-31", 12, "2024-08-31", "executed"},
      Row{"2023-11-30", 3, "2024-02-29", "executed"},
      Row{"2024-12-31", 2, "2025-02-28", "executed"},
      Row{"2023-02-28", 1, "2023-03-28", "executed"},
      Row{"2023-02-28", 12, "2024-02-28", "executed"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.from);
    CAPTURE(row.source);
    CHECK(to_text(add_months(day(row.from), row.months)) == std::string(row.expected));
  }
}

TEST_CASE("chaining clamped months is another arithmetic, and not ours") {
  // Executed with dateutil 2.8.2.
  CHECK(to_text(add_months(add_months(day("2023-01-31"), 1), 1)) == "2023-03-28");
  CHECK(to_text(add_months(day("2023-01-31"), 2)) == "2023-03-31");
  CHECK(to_text(add_months(add_months(day("2023-03-31"), -1), 1)) == "2023-03-28");
}

TEST_CASE("a month's end after so many calendar months") {
  // Executed with dateutil 2.8.2: relativedelta(months=n, day=31).
  CHECK(to_text(service::last_of_month(add_months(day("2024-03-15"), 12))) == "2025-03-31");
  CHECK(to_text(service::last_of_month(add_months(day("2020-07-22"), 24))) == "2022-07-31");
  CHECK(to_text(service::last_of_month(add_months(day("2023-02-28"), 24))) == "2025-02-28");
  CHECK(to_text(service::last_of_month(add_months(day("2022-02-10"), 24))) == "2024-02-29");
}

TEST_CASE("the chain of due days keeps its anchor where clamped days would drift") {
  // RFC 7529, SKIP=BACKWARD, monthly from 31 January 2014, as in the test vectors of libical
  // (src/test/icalrecur_test_rscale.txt): 31 Jan, 28 Feb, 31 Mar, 30 Apr.
  const auto anchor = day("2014-01-31");
  CHECK(to_text(add_months(anchor, 1)) == "2014-02-28");
  CHECK(to_text(add_months(anchor, 2)) == "2014-03-31");
  CHECK(to_text(add_months(anchor, 3)) == "2014-04-30");
  // The same vectors, BYMONTHDAY=31 through 2015.
  constexpr std::array<std::string_view, 12> ends{"2015-01-31", "2015-02-28", "2015-03-31", "2015-04-30",
                                                  "2015-05-31", "2015-06-30", "2015-07-31", "2015-08-31",
                                                  "2015-09-30", "2015-10-31", "2015-11-30", "2015-12-31"};
  for (int i = 0; i < 12; ++i)
    CHECK(to_text(add_months(day("2015-01-31"), i)) == std::string(ends[static_cast<std::size_t>(i)]));
}

TEST_CASE("reduced precision is a span and the cautious end is its first day") {
  // ISO 8601 reduced precision as in the Library of Congress EDTF specification, level 0 (4 Feb 2019): 1985-04-12,
  // 1985-04, 1985. `20050924` is not of the extended form and is refused.
  CHECK(to_text(test::span("1985-04-12").first) == "1985-04-12");
  CHECK(to_text(test::span("1985-04").last) == "1985-04-30");
  CHECK(to_text(test::span("1985").first) == "1985-01-01");
  CHECK(to_text(test::span("1985").last) == "1985-12-31");
  CHECK_FALSE(service::parse_day_span("20050924").value.has_value());
  CHECK(to_text(test::span("2019")) == "2019");
  CHECK(to_text(test::span("2019-02")) == "2019-02");
}
