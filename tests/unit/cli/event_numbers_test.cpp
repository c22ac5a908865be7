// `due --format ics` from day to day: under which numbers its events are handed out, and what is kept of that.
#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include "unit/cli/asking.h"

using cli_test::must;
using cli_test::Place;

namespace {

namespace fs = std::filesystem;

// Of the event with that title: SEQUENCE and DTSTART.
struct Event {
  long sequence = 0;
  std::string day;
};

Event event(const std::string& calendar, const std::string& title) {
  const std::size_t at = calendar.find("SUMMARY:" + title);
  REQUIRE_MESSAGE(bool(at != std::string::npos), title);
  const std::size_t begin = calendar.rfind("BEGIN:VEVENT", at);
  const auto value = [&](std::string_view name) {
    const std::size_t from = calendar.find(name, begin) + name.size();
    return calendar.substr(from, calendar.find('\r', from) - from);
  };
  return {std::stol(value("SEQUENCE:")), value("DTSTART;VALUE=DATE:")};
}

std::string calendar(Place& place, const std::string& more = "") {
  must(place, "due --all --format ics" + more);
  return place.out;
}

void furnish(Place& place) {
  place.furnish();
  must(place, "done pump gland --at 10 --on 2026-06-10");
}

void edit_gland(const Place& place, const std::string& months) {
  std::string text = cli_test::pump_schedule;
  text.replace(text.find("36"), 2, months);
  place.write("schedules/pump.yaml", text);
}

constexpr const char* gland = "pump gland";

}  // namespace

TEST_CASE("an interval that is edited on the same day moves its event under a higher number") {
  Place place;
  furnish(place);
  const std::string before = calendar(place);
  CHECK(place.err.empty());
  CHECK(calendar(place) == before);  // to the byte
  edit_gland(place, "48");
  const std::string after = calendar(place);
  CHECK(event(after, gland).day != event(before, gland).day);
  CHECK(event(after, gland).sequence > event(before, gland).sequence);
  CHECK(event(after, "Skarvey estate: ").sequence == event(before, "Skarvey estate: ").sequence);  // has not moved
  CHECK(calendar(place) == after);
  // A backup that has lost a fact, put back.
  must(place, "backup copy.db");
  must(place, "reading loader 120 --on 2026-06-14");
  const std::string fuller = calendar(place);
  CHECK(event(fuller, gland).sequence >= event(after, gland).sequence);
  fs::copy_file(place.folder / "copy.db", place.folder / "record.db", fs::copy_options::overwrite_existing);
  edit_gland(place, "24");
  const std::string restored = calendar(place);
  CHECK(event(restored, gland).sequence > event(fuller, gland).sequence);
  CHECK(event(restored, "Skarvey estate: ").sequence == event(fuller, "Skarvey estate: ").sequence);
  // The overdue list's calendar has the same names, numbers and memory.
  must(place, "due --overdue --format ics");
  CHECK(calendar(place) == restored);
}

TEST_CASE("of a day that is given the calendar is that of the day and the book, and nothing is kept") {
  Place place;
  furnish(place);
  const std::string given = calendar(place, " --as-of 2026-06-16");
  CHECK_FALSE(fs::exists(place.folder / ".calendar"));
  calendar(place);
  edit_gland(place, "48");
  calendar(place);
  const std::string kept = place.read(".calendar");
  edit_gland(place, "36");
  CHECK(calendar(place, " --as-of 2026-06-16") == given);
  CHECK(place.read(".calendar") == kept);
  // Today by name is the clock's day.
  calendar(place, " --as-of today");
  CHECK(place.read(".calendar") != kept);
}

TEST_CASE("where numbers cannot be kept that is said, and the calendar stands") {
  Place place;
  furnish(place);
  const std::string whole = calendar(place);
  place.write(".calendar", "nonsense\n");
  CHECK(calendar(place) == whole);
  CHECK(place.complains(".calendar is not what this program keeps"));
  CHECK(place.complains("may be taken for the old one"));
  CHECK(calendar(place) == whole);
  CHECK(place.err.empty());  // it was replaced
  fs::remove(place.folder / ".calendar");
  fs::create_directories(place.folder / ".calendar" / "inside");
  CHECK(calendar(place) == whole);
  CHECK(place.complains(".calendar is a folder"));
  CHECK(place.run("due --format ics --output .calendar") == 64);
}

TEST_CASE("a calendar says what needs doing in its first line, and that nothing does") {
  Place place;
  furnish(place);
  must(place, "done loader engine-oil tyre hoses --at 100 --on 2026-06-10 --checked");
  CHECK(calendar(place, " --as-of 2026-06-16").find("SUMMARY:Skarvey estate: nothing due\r\n") != std::string::npos);
  must(place, "saw loader leak --on 2026-06-12");
  must(place, "saw loader odd noise --on 2026-06-12");
  must(place, "out-of-use pump --on 2026-06-12");
  const std::string counts = "SUMMARY:Skarvey estate: 1 not to be run\\, 1 overdue\\, 1 seen\r\n";
  CHECK(calendar(place, " --as-of 2026-06-16").find(counts) != std::string::npos);
  must(place, "due --overdue --format ics --as-of 2026-06-16");
  CHECK(place.out.find(counts) != std::string::npos);
}
