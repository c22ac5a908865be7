// Odd sums of months, each computed with a date library of another language as well: python-dateutil 2.8.2, where all
// three are named java.time 17 and PostgreSQL 15 too.
#include <doctest/doctest.h>

#include <array>
#include <string>
#include <string_view>

#include "support/world.h"

using service::add_months;
using service::last_of_month;
using service::to_text;
using test::day;

TEST_CASE("sums of months are those of other libraries") {
  struct Row {
    std::string_view from;
    int months;
    std::string_view expected;
    std::string_view computed_with;
  };
  constexpr std::array rows{
      Row{"2023-01-31", 1, "2023-02-28", "all three"}, Row{"2024-01-31", 1, "2024-02-29", "all three"},
      Row{"2024-01-30", 1, "2024-02-29", "dateutil"},  Row{"2024-02-29", 12, "2025-02-28", "all three"},
      Row{"2024-02-29", 48, "2028-02-29", "dateutil"}, Row{"2023-03-31", -1, "2023-02-28", "all three"},
      Row{"2023-08-31", 6, "2024-02-29", "all three"}, Row{"2023-08-31", 12, "2024-08-31", "dateutil"},
      Row{"2023-11-30", 3, "2024-02-29", "dateutil"},  Row{"2024-12-31", 2, "2025-02-28", "dateutil"},
      Row{"2023-02-28", 1, "2023-03-28", "dateutil"},  Row{"2023-02-28", 12, "2024-02-28", "dateutil"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.from);
    CAPTURE(row.computed_with);
    CHECK(to_text(add_months(day(row.from), row.months)) == std::string(row.expected));
  }
}

TEST_CASE("adding months is neither associative nor undone by taking them away") {
  CHECK(to_text(add_months(add_months(day("2023-01-31"), 1), 1)) == "2023-03-28");
  CHECK(to_text(add_months(day("2023-01-31"), 2)) == "2023-03-31");
  CHECK(to_text(add_months(add_months(day("2023-03-31"), -1), 1)) == "2023-03-28");
}

TEST_CASE("the month's end after so many months") {
  // dateutil: relativedelta(months=n, day=31)
  CHECK(to_text(last_of_month(add_months(day("2024-03-15"), 12))) == "2025-03-31");
  CHECK(to_text(last_of_month(add_months(day("2020-07-22"), 24))) == "2022-07-31");
  CHECK(to_text(last_of_month(add_months(day("2023-02-28"), 24))) == "2025-02-28");
  CHECK(to_text(last_of_month(add_months(day("2022-02-10"), 24))) == "2024-02-29");
}
