// Services told without what the meter showed: what their use counts from is said, and how to give the value.
#include <doctest/doctest.h>

#include "unit/cli/asking.h"

using cli_test::must;
using cli_test::Place;

namespace {

// About 10 h a week, read every Monday until the first of June.
void furnish(Place& place) {
  place.furnish();
  for (int week = 0; week < 22; ++week) {
    const auto day = service::day_of(2026, 1, 5) + std::chrono::days{7 * week};
    must(place, "reading loader " + std::to_string(1000 + 10 * week + week % 3) + " --on " + service::to_text(day));
  }
}

}  // namespace

TEST_CASE("a service without a value says from which reading its use and that of its checks counts") {
  Place place;
  furnish(place);
  must(place, "done loader engine-oil");
  CHECK(
      place.says("engine-oil: what the meter showed on 2026-06-15 is not known, so use counts from the 1210.0 h of "
                 "2026-06-01."));
  CHECK(place.says("If you read it: whichever reading loader VALUE --on 2026-06-15"));
  // The check after it is due by estimate for want of a value alone, and nobody worked with it since.
  CHECK(
      place.says("engine-oil/check-leaks: not listed -> due by estimate, its 1 h counted from the 1210.0 h of "
                 "2026-06-01"));
  must(place, "done loader engine-oil --format json");
  const auto untold = nlohmann::json::parse(place.out)["untold"];
  REQUIRE(untold.size() == 1);
  CHECK(untold[0]["last_on"] == "2026-06-01");
  CHECK(untold[0]["last_shown"] == 1210.0);
}

TEST_CASE("nothing is said where the value is told, was read that day or since, or does not matter") {
  Place place;
  furnish(place);
  for (const char* line : {"done loader engine-oil --at 1222", "done loader engine-oil --on 2026-05-04",
                           "done loader hoses", "done loader engine-oil --on 2026-05"}) {
    CAPTURE(line);
    must(place, line);
    CHECK_FALSE(place.says("is not known"));
  }
  must(place, "reading loader 1225");
  must(place, "done loader engine-oil");
  CHECK_FALSE(place.says("is not known"));
  place.write("facts.csv", "kind,machine,on,task\nservice,pump,2026-06-14,gland\n");
  must(place, "import facts.csv");
  CHECK_FALSE(place.says("is not known"));
}
