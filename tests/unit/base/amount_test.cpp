// Numbers as people write them, read strictly and written back.
#include <doctest/doctest.h>

#include <chrono>
#include <string>
#include <string_view>

#include "service/base.h"
#include "support/print.h"

using service::Amount;
using service::parse_amount;
using service::parse_count;
using service::parse_measure;
using service::parse_minutes;
using service::to_text;
using service::to_text_tenths;

namespace {

// No number for any of our readers, whatever the number of decimals that it allows.
constexpr std::string_view never_a_number[] = {
    "",
    " ",
    " 5",
    "5 ",
    "\t5",
    "5\n",
    "1 000",
    "1,5",
    "1.000,5",
    "1,000.5",
    "1'000",
    "1_000",
    "1e3",
    "1E3",
    "1e400",
    "nan",
    "NaN",
    "inf",
    "-inf",
    "0x10",
    "0b1",
    "010h",
    "+5",
    ".5",
    "5.",
    "-",
    "--5",
    "-.5",
    "- 5",
    "5-",
    "5..0",
    "5.0.0",
    "5h",
    "five",
    "½",
    "−5",
    "５",
    "１２",
    "٣",
    "5\xc2\xa0",
    "1/2",
    "$5",
    "99999999999999999999",
};

struct Row {
  std::string_view text;
  std::int64_t value;
};

}  // namespace

TEST_CASE("an amount has at most two decimals and is kept in hundredths") {
  for (const Row& row : {Row{"0", 0}, Row{"5", 500}, Row{"1250", 125'000}, Row{"1250.5", 125'050}, Row{"0.05", 5},
                         Row{"1250.25", 125'025}, Row{"5.0", 500}, Row{"5.00", 500}}) {
    CAPTURE(row.text);
    const auto read = parse_amount(row.text);
    REQUIRE(read.value.has_value());
    CHECK(read.value->hundredths == row.value);
    CHECK(read.problem.empty());
  }
}

TEST_CASE("leading zeros are no octal numbers, and a final zero is no third decimal") {
  CHECK(to_text(*parse_amount("0100")) == "100");  // octal would be 64
  CHECK(to_text(*parse_amount("007.5")) == "7.5");
  CHECK(to_text(*parse_amount("1.250")) == "1.25");
  CHECK(to_text(*parse_amount("2.5000")) == "2.5");
  CHECK_FALSE(parse_amount("1.255").value.has_value());
  CHECK_FALSE(parse_amount("0.001").value.has_value());
}

TEST_CASE("what is no number is refused by every reader, and the reader says what is wrong") {
  for (const std::string_view text : never_a_number) {
    CAPTURE(text);
    const auto amount = parse_amount(text);
    CHECK_FALSE(amount.value.has_value());
    CHECK_FALSE(amount.problem.empty());
    const auto measure = parse_measure(text);
    CHECK_FALSE(measure.value.has_value());
    CHECK_FALSE(measure.problem.empty());
    const auto count = parse_count(text);
    CHECK_FALSE(count.value.has_value());
    CHECK_FALSE(count.problem.empty());
  }
}

TEST_CASE("a NUL inside a number does not end it") {
  CHECK_FALSE(parse_amount(std::string_view("5\0", 2)).value.has_value());
  CHECK_FALSE(parse_measure(std::string_view("5\0"
                                             "6",
                                             3))
                  .value.has_value());
  CHECK_FALSE(parse_count(std::string_view("\0", 1)).value.has_value());
}

TEST_CASE("no meter shows less than nothing, so no amount is read below zero") {
  for (const std::string_view text : {"-3", "-0.01", "-1000000000"}) {
    CAPTURE(text);
    const auto read = parse_amount(text);
    CHECK_FALSE(read.value.has_value());
    CHECK_FALSE(read.problem.empty());
  }
}

TEST_CASE("an amount is at most a thousand million units") {
  CHECK(parse_amount("1000000000").value->hundredths == 100'000'000'000);
  CHECK_FALSE(parse_amount("1000000000.01").value.has_value());
  CHECK_FALSE(parse_amount("9223372036854775807").value.has_value());
  CHECK_FALSE(parse_amount("92233720368547758.08").value.has_value());   // 2^63 hundredths
  CHECK_FALSE(parse_amount("184467440737095516.17").value.has_value());  // 2^64 + 1 hundredths
}

TEST_CASE("a measurement has at most six decimals and is kept in millionths") {
  for (const Row& row : {Row{"25", 25'000'000}, Row{"24.9", 24'900'000}, Row{"0.000001", 1}, Row{"-3.5", -3'500'000},
                         Row{"0.1230000", 123'000}, Row{"0012", 12'000'000}}) {
    CAPTURE(row.text);
    const auto read = parse_measure(row.text);
    REQUIRE(read.value.has_value());
    CHECK(read.value->millionths == row.value);
  }
  CHECK_FALSE(parse_measure("0.0000001").value.has_value());
  CHECK_FALSE(parse_measure("1.2345678").value.has_value());
  CHECK_FALSE(parse_measure("18446744073710").value.has_value());  // times a million just past 2^64
}

TEST_CASE("a count is a whole number up to a million") {
  CHECK(*parse_count("0") == 0);
  CHECK(*parse_count("12") == 12);
  CHECK(*parse_count("0100") == 100);
  CHECK(*parse_count("1000000") == 1'000'000);
  for (const std::string_view text : {"1000001", "-1", "1.0", "1.5", "4294967297"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_count(text).value.has_value());
  }
}

TEST_CASE("an amount is written with as few decimals as are exact") {
  CHECK(to_text(Amount{125'000}) == "1250");
  CHECK(to_text(Amount{125'050}) == "1250.5");
  CHECK(to_text(Amount{125'025}) == "1250.25");
  CHECK(to_text(Amount{5}) == "0.05");
  CHECK(to_text(Amount{0}) == "0");
  CHECK(to_text(Amount{-300}) == "-3");
  CHECK(to_text(Amount{-5}) == "-0.05");
  CHECK(to_text(Amount{-1'140}) == "-11.4");
}

TEST_CASE("hours are written with at least one decimal") {
  CHECK(to_text_tenths(Amount{125'000}) == "1250.0");
  CHECK(to_text_tenths(Amount{1'140}) == "11.4");
  CHECK(to_text_tenths(Amount{25}) == "0.25");
  CHECK(to_text_tenths(Amount{0}) == "0.0");
  CHECK(to_text_tenths(Amount{-1'140}) == "-11.4");
  CHECK(to_text_tenths(Amount{-50}) == "-0.5");
}

TEST_CASE("a measurement is written as it was read") {
  for (const std::string_view text : {"25", "24.9", "0.000001", "-3.5", "-0.25", "0"}) {
    CHECK(to_text(*parse_measure(text)) == std::string(text));
  }
}

TEST_CASE("an hour of the clock is one unit of an hour meter") {
  CHECK(service::on_hour_meter(std::chrono::hours{24}) == service::Amount::units(24));
  CHECK(service::on_hour_meter(service::Hours{1}) == Amount{1});
  // A hundredth of an hour is 36 seconds.
  CHECK(std::chrono::seconds{service::Hours{1}}.count() == 36);
}

TEST_CASE("amounts add, subtract and compare exactly") {
  CHECK(service::Amount::units(3) + Amount{1} == Amount{301});
  CHECK(service::Amount::units(3) - service::Amount::units(5) == Amount{-200});
  CHECK(-Amount{25} == Amount{-25});
  CHECK(Amount{-1} < Amount{0});
}

TEST_CASE("minutes are written with their unit") {
  CHECK(parse_minutes("50 min").value->count() == 50);
  CHECK(parse_minutes("1 h").value->count() == 60);
  CHECK(parse_minutes("1 h 30 min").value->count() == 90);
  CHECK(parse_minutes("120 min").value->count() == 120);
  for (const std::string_view text :
       {"", "50", "min", "h", "-5 min", "1 h 30", "30 min 1 h", "1 h 1 h", "1 min 30 s", " 50 min", "50 min ",
        "1e2 min", "0x5 min", "1 d", "99999999999999999999 min", "99999999999999999999 h"}) {
    CAPTURE(text);
    const auto read = parse_minutes(text);
    CHECK_FALSE(read.value.has_value());
    CHECK_FALSE(read.problem.empty());
  }
}
