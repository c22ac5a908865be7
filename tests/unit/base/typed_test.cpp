// Days and values as people type them, row by row. Today is a Monday in June.
#include "service/typed.h"

#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

#include "support/world.h"

using test::day;

namespace {

struct Typed {
  std::string_view text;
  std::string_view means;  // or what is wrong with it
};

std::string span_of(std::string_view text) {
  const auto read = service::typed_day_span(text, day("2026-06-15"));
  return read ? service::to_text(*read) : read.problem;
}

std::string day_read(std::string_view text) {
  const auto read = service::typed_day(text, day("2026-06-15"));
  return read ? service::to_text(*read) : read.problem;
}

std::string amount_of(std::string_view text) {
  const auto read = service::typed_amount(text);
  return read ? service::to_text(*read) : "refused";
}

std::string measure_of(std::string_view text) {
  const auto read = service::typed_measure(text);
  return read ? service::to_text(*read) : "refused";
}

constexpr std::string_view no_day = "is not a day like 2026-03-01, 15.06.2026, yesterday or -3d";

}  // namespace

TEST_CASE("days as people type them") {
  const std::vector<Typed> rows{
      {"2026-03-01", "2026-03-01"},
      {"2026-03", "2026-03"},
      {"2026", "2026"},
      {"today", "2026-06-15"},
      {"Today", "2026-06-15"},
      {"yesterday", "2026-06-14"},
      {"YESTERDAY", "2026-06-14"},
      {"-0d", "2026-06-15"},
      {"-3d", "2026-06-12"},
      {"-2w", "2026-06-01"},
      {"-400d", "2025-05-11"},
      // With dots the day comes first, whatever the numbers.
      {"15.06.2026", "2026-06-15"},
      {"03.04.2026", "2026-04-03"},
      {"3.4.2026", "2026-04-03"},
      {"06.15.2026", "is not a day of the calendar"},
      {"30.02.2026", "is not a day of the calendar"},
      {"05.2026", "2026-05"},
      {"2026.06.15", "2026-06-15"},
      // With slashes or hyphens only what can be read one way.
      {"15/06/2026", "2026-06-15"},
      {"06/15/2026", "2026-06-15"},
      {"15-06-2026", "2026-06-15"},
      {"03/04/2026", "could be 2026-04-03 or 2026-03-04"},
      {"3-4-2026", "could be 2026-04-03 or 2026-03-04"},
      {"05/05/2026", "2026-05-05"},
      {"2026/06/15", "2026-06-15"},
      {"31/02/2026", "is not a day of the calendar"},
      {"15/16/2026", "is not a day of the calendar"},
  };
  for (const Typed& row : rows) {
    CAPTURE(row.text);
    CHECK(span_of(row.text) == row.means);
  }
}

TEST_CASE("what is no day is refused with what is wrong") {
  const std::vector<Typed> rows{
      {"", "is empty"},
      {"15.06.26", "has no year of four digits"},
      {"15/06", "has no year of four digits"},
      {"15.06.", no_day},
      {"15.06/2026", no_day},
      {"15. 6. 2026", no_day},
      {"3d", no_day},
      {"+3d", no_day},
      {"-d", no_day},
      {"-3", no_day},
      {"-3x", no_day},
      {"--3d", no_day},
      {"-3m", no_day},
      {"-9999999d", "is more than 100 years"},
      {"-40000d", "is more than 100 years"},
      {"soon", no_day},
      {"tomorrow ", no_day},
      {"today ", no_day},
      {"1.1.1.2026", no_day},
      {"2026-02-30", "is not a day of the calendar"},
      {"1899-12-31", "is not a day of the calendar"},
  };
  for (const Typed& row : rows) {
    CAPTURE(row.text);
    CHECK(span_of(row.text) == row.means);
  }
  CHECK(day_read("2026-03") == "must be a whole date like 2026-03-01");
  CHECK(day_read("05.2026") == "must be a whole date like 2026-03-01");
  CHECK(day_read("15.6.2026") == "2026-06-15");
}

TEST_CASE("which days take the clock to read") {
  for (const std::string_view text : {"today", "Yesterday", "-3d", "-2w"}) CHECK(service::counts_from_today(text));
  for (const std::string_view text : {"2026-06-15", "15.06.2026", "-3", "d", "", "-d"}) {
    CHECK_FALSE(service::counts_from_today(text));
  }
}

TEST_CASE("values with one comma and one or two digits after it") {
  const std::vector<Typed> rows{
      {"2383", "2383"},    {"2383.7", "2383.7"}, {"2383,7", "2383.7"},   {"2383,75", "2383.75"},
      {"0,5", "0.5"},      {"1,250", "refused"}, {"1,2505", "refused"},  {",5", "refused"},
      {"5,", "refused"},   {"1,2,3", "refused"}, {"1.250,5", "refused"}, {"1,250.5", "refused"},
      {"-2,5", "refused"}, {"2,5h", "refused"},  {" 2,5", "refused"},    {"", "refused"},
  };
  for (const Typed& row : rows) {
    CAPTURE(row.text);
    CHECK(amount_of(row.text) == row.means);
  }
  CHECK(service::typed_amount("1,250").problem == "could be 1250 or 1.250");
  CHECK(measure_of("4,5") == "4.5");
  CHECK(measure_of("-4,25") == "-4.25");
  CHECK(measure_of("0.125") == "0.125");
  CHECK(measure_of("0,125") == "refused");
  CHECK(measure_of("-,5") == "refused");
}

TEST_CASE("until when may be so far ahead, and what is neither that nor a day is no day") {
  const auto until = [](std::string_view text) {
    const auto read = service::typed_until(text, day("2026-06-15"));
    return read ? service::to_text(*read) : "no day";
  };
  CHECK(until("+14d") == "2026-06-29");
  CHECK(until("+2w") == "2026-06-29");
  CHECK(until("+3m") == "2026-09-15");
  CHECK(until("2026-09-20") == "2026-09-20");
  for (const std::string_view wrong : {"+14", "+", "+14h", "14d", "20 September", "+-2d"}) {
    CAPTURE(std::string(wrong));
    CHECK(until(wrong) == "no day");
  }
}
