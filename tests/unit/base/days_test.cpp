// Days: read strictly, counted in months from an anchor, written back.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "service/base.h"
#include "support/world.h"

using service::add_months;
using service::Day;
using service::day_of;
using service::last_of_month;
using service::parse_day;
using service::parse_day_span;
using service::parse_horizon;
using service::parse_month_day;
using service::parse_span_days;
using service::to_text;
using test::day;
using test::span;

namespace {

std::string months_on(std::string_view anchor, int months) { return to_text(add_months(day(anchor), months)); }

std::string horizon(std::string_view text, std::string_view from) {
  const auto read = parse_horizon(text, day(from));
  return read.value ? to_text(*read) : "refused";
}

}  // namespace

TEST_CASE("a day is read whole, as ISO 8601 writes it") {
  CHECK(*parse_day("2026-03-01") == day_of(2026, 3, 1));
  CHECK(*parse_day("2024-02-29") == day_of(2024, 2, 29));
  CHECK(*parse_day("2000-02-29") == day_of(2000, 2, 29));  // divisible by 400
  CHECK(*parse_day("1900-01-01") == day_of(1900, 1, 1));
  CHECK(*parse_day("2199-12-31") == day_of(2199, 12, 31));
  CHECK(to_text(*parse_day("2026-03-01")) == "2026-03-01");
}

TEST_CASE("what is no real day is refused, and the reader says what is wrong") {
  for (const std::string_view text :
       {"",           "2023-02-29",  "2100-02-29",  "2024-02-30",     "2024-04-31",       "2024-13-01",
        "2024-00-10", "2024-01-00",  "2024-01-32",  "24-05-01",       "2024-5-1",         "2024-05-1",
        "2024-5-01",  "2024-05-01x", "2024-05-01 ", " 2024-05-01",    "2024-05-01T00:00", "2024-05-01Z",
        "2024/05/01", "2024.05.01",  "20240501",    "01.05.2024",     "01/05/2024",       "2024-05--1",
        "2024-+5-01", "-2024-05-01", "+2024-05-01", "02024-05-01",    "2024-05-011",      "2024-0x-01",
        "today",      "2024-W18-3",  "2024-122",    "２０２４-05-01", "1899-12-31",       "2200-01-01",
        "0000-01-01"}) {
    CAPTURE(text);
    const auto read = parse_day(text);
    CHECK_FALSE(read.value.has_value());
    CHECK_FALSE(read.problem.empty());
    CHECK_FALSE(parse_day_span(text).value.has_value());
  }
  CHECK_FALSE(parse_day(std::string_view("2024-05-01\0", 11)).value.has_value());
}

TEST_CASE("a month or a year alone is no day") {
  CHECK_FALSE(parse_day("2024-05").value.has_value());
  CHECK_FALSE(parse_day("2024").value.has_value());
}

TEST_CASE("a month or a year alone is a span from its first to its last day") {
  CHECK(span("2009") == service::DaySpan{day_of(2009, 1, 1), day_of(2009, 12, 31)});
  CHECK(span("2009-05") == service::DaySpan{day_of(2009, 5, 1), day_of(2009, 5, 31)});
  CHECK(span("2024-02") == service::DaySpan{day_of(2024, 2, 1), day_of(2024, 2, 29)});
  CHECK(span("2023-02").last == day_of(2023, 2, 28));
  CHECK(span("2009-05-17") == service::DaySpan{day_of(2009, 5, 17)});
  CHECK(span("2009-05-17").whole_day());
  CHECK_FALSE(span("2009-05").whole_day());
}

TEST_CASE("a span is written as short as it was") {
  for (const std::string_view text : {"2009", "2009-05", "2009-05-17", "2024-02", "2023-12", "2023-12-31"}) {
    CHECK(to_text(span(text)) == std::string(text));
  }
}

TEST_CASE("no other precision is read as a span") {
  for (const std::string_view text :
       {"", "9", "09", "209", "2009-", "2009-5", "2009-13", "2009-00", "2009-05-", "20090", "200905", "2009x", " 2009",
        "2009 ", "1899", "2200", "2200-01", "2009/05"}) {
    CAPTURE(text);
    const auto read = parse_day_span(text);
    CHECK_FALSE(read.value.has_value());
    CHECK_FALSE(read.problem.empty());
  }
}

TEST_CASE("months keep the day and are clamped to the month's last day") {
  CHECK(months_on("2026-01-31", 1) == "2026-02-28");
  CHECK(months_on("2024-01-31", 1) == "2024-02-29");
  CHECK(months_on("2026-01-31", 2) == "2026-03-31");
  CHECK(months_on("2026-01-31", 3) == "2026-04-30");
  CHECK(months_on("2024-02-29", 12) == "2025-02-28");
  CHECK(months_on("2024-02-29", 48) == "2028-02-29");
  CHECK(months_on("2025-11-30", 3) == "2026-02-28");  // over the year's end
  CHECK(months_on("2025-12-15", 1) == "2026-01-15");
  CHECK(months_on("2025-12-15", 12) == "2026-12-15");
  CHECK(months_on("2026-05-10", 0) == "2026-05-10");
}

TEST_CASE("months also count back") {
  CHECK(months_on("2026-03-31", -1) == "2026-02-28");
  CHECK(months_on("2026-01-15", -1) == "2025-12-15");
  CHECK(months_on("2026-01-15", -13) == "2024-12-15");
  CHECK(months_on("2024-02-29", -12) == "2023-02-28");
}

TEST_CASE("months from an anchor are not months chained from a clamped day") {
  const Day anchor = day("2026-01-31");
  CHECK(to_text(add_months(add_months(anchor, 1), 1)) == "2026-03-28");
  CHECK(to_text(add_months(anchor, 2)) == "2026-03-31");
}

TEST_CASE("the last day of a month") {
  CHECK(to_text(last_of_month(day("2026-02-10"))) == "2026-02-28");
  CHECK(to_text(last_of_month(day("2024-02-29"))) == "2024-02-29");
  CHECK(to_text(last_of_month(day("2025-12-01"))) == "2025-12-31");
}

TEST_CASE("days between two days, either way") {
  CHECK(service::days_between(day("2024-02-28"), day("2024-03-01")) == 2);
  CHECK(service::days_between(day("2023-02-28"), day("2023-03-01")) == 1);
  CHECK(service::days_between(day("2026-03-01"), day("2026-02-27")) == -2);
  CHECK(service::days_between(day("2026-03-01"), day("2026-03-01")) == 0);
}

TEST_CASE("a day of every year is a month and a day") {
  CHECK(*parse_month_day("08-01") == service::MonthDay{8, 1});
  CHECK(*parse_month_day("12-31") == service::MonthDay{12, 31});
  CHECK(to_text(parse_month_day("08-01").value->in_year(2026)) == "2026-08-01");
  for (const std::string_view text : {"", "8-1", "08-1", "8-01", "13-01", "00-01", "08-00", "02-30", "04-31", "08-32",
                                      "08/01", "0801", "08-01 ", "2026-08-01", "aug-01"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_month_day(text).value.has_value());
  }
}

TEST_CASE("29 February of every year is the 28th in common years") {
  const auto leap = parse_month_day("02-29");
  REQUIRE(leap.value.has_value());
  CHECK(to_text(leap.value->in_year(2024)) == "2024-02-29");
  CHECK(to_text(leap.value->in_year(2025)) == "2025-02-28");
}

TEST_CASE("a length of time in whole days") {
  CHECK(*parse_span_days("30d") == 30);
  CHECK(*parse_span_days("6w") == 42);
  CHECK(*parse_span_days("1d") == 1);
  // Months are no number of days without a day to count from.
  for (const std::string_view text : {"3m", "", "30", "d", "w", "-1d", "1.5d", "30 d", "30d ", "1e1d", "d30", "30dd",
                                      "30x", "99999999999999999999d", "4294967297w"}) {
    CAPTURE(text);
    const auto read = parse_span_days(text);
    CHECK_FALSE(read.value.has_value());
    CHECK_FALSE(read.problem.empty());
  }
}

TEST_CASE("a horizon ends on the last day inside it") {
  CHECK(horizon("30d", "2026-01-31") == "2026-03-02");  // 28 Feb is the 28th day
  CHECK(horizon("6w", "2026-01-31") == "2026-03-14");   // 42 days
  CHECK(horizon("1m", "2026-01-31") == "2026-02-28");
  CHECK(horizon("3m", "2026-01-31") == "2026-04-30");
  CHECK(horizon("12m", "2024-02-29") == "2025-02-28");
  for (const std::string_view text : {"", "30", "m", "-3m", "3y", "3 m", "1.5m", "3M", "99999999999999999999m"}) {
    CAPTURE(text);
    CHECK(horizon(text, "2026-01-31") == "refused");
  }
}
