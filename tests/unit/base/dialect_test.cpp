// How spreadsheets write numbers and days, and that nothing is guessed.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "service/base.h"

namespace {

using service::DateOrder;
using service::DecimalMark;
using service::Dialect;
using service::DialectSurvey;

DialectSurvey numbers(const std::vector<std::string>& fields, Dialect told = {}) {
  DialectSurvey survey(told);
  for (std::size_t i = 0; i < fields.size(); ++i) survey.number(fields[i], i);
  return survey;
}

DialectSurvey days(const std::vector<std::string>& fields, Dialect told = {}) {
  DialectSurvey survey(told);
  for (std::size_t i = 0; i < fields.size(); ++i) survey.day(fields[i], i);
  return survey;
}

// `code at` of each diagnostic.
std::string found(const DialectSurvey& survey) {
  std::string text;
  for (const auto& diagnostic : survey.diagnostics())
    text += diagnostic.code + ' ' + std::to_string(diagnostic.at) + ';';
  return text;
}

// All fields as the strict reader gets them.
std::string plain(const std::vector<std::string>& fields, Dialect told = {}) {
  const auto survey = numbers(fields, told);
  if (!survey.diagnostics().empty()) return found(survey);
  std::string text;
  for (const std::string& field : fields) text += service::plain_number(field, survey.dialect()) + ' ';
  return text;
}

std::string iso(const std::vector<std::string>& fields, Dialect told = {}) {
  const auto survey = days(fields, told);
  if (!survey.diagnostics().empty()) return found(survey);
  std::string text;
  for (const std::string& field : fields) text += service::plain_day(field, survey.dialect()) + ' ';
  return text;
}

}  // namespace

TEST_CASE("a number that can be read in two ways is refused, unless another one tells") {
  CHECK(plain({"1.250"}) == "two-readings 0;");
  CHECK(plain({"1,250"}) == "two-readings 0;");
  CHECK(plain({"7", "1.250", "12"}) == "two-readings 1;");
  CHECK(plain({"1.250", "1250,5"}) == "1250 1250.5 ");
  CHECK(plain({"1.250", "12.5"}) == "1.250 12.5 ");
  CHECK(plain({"1,250", "12.5"}) == "1250 12.5 ");
  CHECK(plain({"1.250,5"}) == "1250.5 ");
  CHECK(plain({"1,250.5"}) == "1250.5 ");
  CHECK(plain({"1.250.000"}) == "1250000 ");  // no number has two points
  CHECK(plain({"0.250"}) == "0.250 ");        // no thousands begin with a zero
  CHECK(plain({"1250"}) == "1250 ");
  CHECK(plain({"-1,5"}) == "-1.5 ");
  CHECK(plain({"1 250", "1\u00a0250", "1'250"}) == "1250 1250 1250 ");
  const auto survey = numbers({"1.250"});
  CHECK(survey.diagnostics().at(0).message.find("1.250 or 1250") != std::string::npos);
  CHECK(numbers({"1.250", "1250,5"}).number_settled_by() == "1250,5");
}

TEST_CASE("a file that contradicts itself, or what was said of it, is refused") {
  CHECK(plain({"1,5", "2.5"}) == "mixed-dialect 1;");
  CHECK(plain({"2.5", "1,5"}) == "mixed-dialect 1;");
  CHECK(plain({"2.5"}, {DecimalMark::comma, {}}) == "mixed-dialect 0;");
  CHECK(plain({"2,5"}, {DecimalMark::point, {}}) == "mixed-dialect 0;");
}

TEST_CASE("what the user says of a file settles it") {
  CHECK(plain({"1.250"}, {DecimalMark::comma, {}}) == "1250 ");
  CHECK(plain({"1.250"}, {DecimalMark::point, {}}) == "1.250 ");
  CHECK(plain({"1,250"}, {DecimalMark::comma, {}}) == "1.250 ");
  CHECK(iso({"03/04/2025"}, {{}, DateOrder::day_first}) == "2025-04-03 ");
  CHECK(iso({"03/04/2025"}, {{}, DateOrder::month_first}) == "2025-03-04 ");
}

TEST_CASE("what is no number stays as it was, for the strict reader to refuse") {
  for (const char* text : {"", "x", "1e3", "0x10", "nan", "1.25.5", "12,34,567", "1 25", "1..5", ".5", "5.", "--1",
                           "1,2,3", "1.250,5,0", "1'250 000"}) {
    CAPTURE(text);
    for (const Dialect& dialect : {Dialect{}, Dialect{DecimalMark::point, {}}, Dialect{DecimalMark::comma, {}}}) {
      CHECK(service::plain_number(text, dialect) == text);
    }
    CHECK(found(numbers({text})).empty());
  }
}

TEST_CASE("a day that can be read in two ways is refused, unless another one tells") {
  CHECK(iso({"03/04/2025"}) == "two-readings 0;");
  CHECK(iso({"03.04.2025"}) == "two-readings 0;");
  CHECK(iso({"2025-04-03", "03-04-2025"}) == "two-readings 1;");
  CHECK(iso({"03/04/2025", "13/02/2025"}) == "2025-04-03 2025-02-13 ");
  CHECK(iso({"03/04/2025", "02/13/2025"}) == "2025-03-04 2025-02-13 ");
  CHECK(iso({"3.4.2025", "31.12.2024"}) == "2025-04-03 2024-12-31 ");
  CHECK(iso({"04/04/2025"}) == "2025-04-04 ");  // the same either way
  CHECK(iso({"2025/04/03", "2025.04.03"}) == "2025-04-03 2025-04-03 ");
  CHECK(iso({"04/2025", "2025/04", "2025", "2025-04"}) == "2025-04 2025-04 2025 2025-04 ");
  CHECK(iso({"13/02/2025", "02/13/2025"}) == "mixed-dialect 1;");
  CHECK(iso({"13/02/2025"}, {{}, DateOrder::month_first}) == "mixed-dialect 0;");
}

TEST_CASE("what is no day stays as it was") {
  for (const char* text : {"", "soon", "31/02/2025", "03/04/25", "1/2/3", "45000", "03/04/2025 00:00", "3/4-2025",
                           "03//2025", "2025-02-30", "1/1/1/2025"}) {
    CAPTURE(text);
    CHECK(service::plain_day(text, {{}, DateOrder::day_first}) == text);
    CHECK(service::plain_day(text, {{}, DateOrder::month_first}) == text);
    CHECK(found(days({text})).empty());
  }
}

TEST_CASE("UTF-16 of either byte order becomes UTF-8, and broken UTF-16 nothing") {
  const std::string text = "a\u00e4\u20ac\U0001F69C\n";
  const std::string little(
      "\xff\xfe"
      "a\0"
      "\xe4\0"
      "\xac\x20"
      "\x3d\xd8\x9c\xde"
      "\n\0",
      14);
  std::string big;
  for (std::size_t i = 0; i < little.size(); i += 2) {
    big += little[i + 1];
    big += little[i];
  }
  CHECK(service::is_utf16(little));
  CHECK(service::from_utf16(little).value_or("broken") == text);
  CHECK(service::from_utf16(big).value_or("broken") == text);
  CHECK(service::from_utf16(text).value_or("broken") == text);
  CHECK_FALSE(service::from_utf16(little.substr(0, 9)).has_value());                 // half a letter
  CHECK_FALSE(service::from_utf16(little.substr(0, 10)).has_value());                // half a pair
  CHECK_FALSE(service::from_utf16(std::string("\xff\xfe\x9c\xde", 4)).has_value());  // the second half alone
  const std::string lone_half(
      "\xff\xfe\x3d\xd8"
      "a\0",
      6);
  CHECK_FALSE(service::from_utf16(lone_half).has_value());  // the first half, then a letter
}

TEST_CASE("text that is not UTF-8 is said to look like what it looks like") {
  CHECK(service::encoding_hint("gr\xfcn").find("Windows-1252") != std::string::npos);
  CHECK(service::encoding_hint("gr\x81n").find("Windows-1252") == std::string::npos);
}
