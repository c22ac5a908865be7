// The catalogue of cautions, how a schedule names them, and which a service carries.
#include "service/cautions.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <vector>

#include "service/text.h"
#include "unit/fleet/texts.h"

using namespace service;
using fleet_texts::codes_of;
using fleet_texts::fleet_of;
using fleet_texts::one_machine;

namespace {

std::string schedule_with(const std::string& cautions) {
  return "schedule: pump\ntasks:\n  gland:\n    do: Repack the gland\n    every: {months: 6}\n    cautions: [" +
         cautions + "]\n";
}

std::string text_of(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

std::string joined(const std::vector<std::string>& cautions) {
  std::string all;
  for (const std::string& one : cautions) all += (all.empty() ? "" : " | ") + one;
  return all;
}

TEST_CASE("every caution of the catalogue has a name, a sentence and a source") {
  REQUIRE(!caution_catalogue().empty());
  std::set<std::string_view> names;
  for (const Caution& one : caution_catalogue()) {
    CAPTURE(std::string(one.name));
    CHECK(names.insert(one.name).second);
    CHECK(one.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string_view::npos);
    CHECK(is_caution_name(one.name));
    CHECK(!is_caution_name(one.sentence));
    CHECK(one.sentence.size() > 20);
    CHECK(one.sentence.back() != '.');  // it is put into sentences and lists, which end themselves
    CHECK(cleaned(one.sentence) == one.sentence);
    CHECK(!one.source.empty());
    CHECK(one.source.find("://") == std::string_view::npos);
    CHECK(one.source.find("www") == std::string_view::npos);
    CHECK(caution(one.name) == &one);
    CHECK(caution_sentence(one.name) == one.sentence);
  }
}

TEST_CASE("what can kill in a breath or through the skin says what to do") {
  const auto says = [](std::string_view name, std::string_view words) {
    return caution_sentence(name).find(words) != std::string_view::npos;
  };
  CHECK(says("fluid-under-pressure", "card or wood, never with a hand"));
  CHECK(says("fluid-under-pressure", "to a hospital at once"));
  CHECK(says("confined-space", "gas meter"));
  CHECK(says("confined-space", "never go in alone"));
  CHECK(says("raised-parts", "hydraulics or a jack alone"));
  CHECK(says("battery", "off first, and put it on last"));
  CHECK(says("electricity", "prove it dead"));
}

TEST_CASE("the schema of schedules names the catalogue's cautions, all of them and no other") {
  const std::string schema = text_of(std::string(SOURCE_DIR) + "/schemas/schedule.schema.json");
  const std::size_t begin = schema.find("\"enum\": [", schema.find("\"caution\": {"));
  REQUIRE(begin != std::string::npos);
  const std::string listed = schema.substr(begin + 9, schema.find(']', begin) - begin - 9);
  std::string expected;
  for (const Caution& one : caution_catalogue()) expected += '"' + std::string(one.name) + "\",";
  std::string found;
  std::ranges::copy_if(listed, std::back_inserter(found), [](char letter) { return letter > ' '; });
  CHECK(found + ',' == expected);
}

TEST_CASE("a schedule names a caution, or writes a sentence of its own") {
  const Fleet fleet = fleet_of(one_machine, schedule_with("hot-fluid, \"Mind the geese\""));
  const Task& task = fleet.schedules[0].tasks[0];
  CHECK(joined(task.cautions) == "hot-fluid | Mind the geese");
  CHECK(caution_sentence("Mind the geese") == "Mind the geese");
  for (const char* wrong : {"hot-fluids", "Hot-Fluid", "hot_fluid", "gloves", "12", "true", "Gloves!"}) {
    CAPTURE(wrong);
    CHECK(codes_of(one_machine, schedule_with(wrong)) == "unknown-caution");
  }
}

TEST_CASE("a fleet made in code names only cautions that there are") {
  Fleet fleet = fleet_of(one_machine, schedule_with("hot-fluid"));
  fleet.schedules[0].tasks[0].cautions = {"hot-fluit"};
  try {
    checked(std::move(fleet));
    FAIL("accepted");
  } catch (const Failure& failure) {
    REQUIRE(failure.diagnostics().size() == 1);
    CHECK(failure.diagnostics()[0].code == "unknown-caution");
    CHECK(failure.diagnostics()[0].hint == "did you mean `hot-fluid`?");
  }
}

TEST_CASE("a service carries the cautions of all that it covers, each once") {
  const Fleet fleet = fleet_of(one_machine, R"(schedule: pump
tasks:
  large: {do: Do all, every: {months: 24}, covers: [middle, other], cautions: [used-oil, "Mind the geese"]}
  middle: {do: Do some, every: {months: 12}, covers: [small]}
  small: {do: Do little, every: {months: 1}, cautions: [confined-space, used-oil, "Mind the dog"]}
  other: {do: Do another, every: {months: 6}, covers: [small], cautions: ["Mind the geese", hot-fluid]}
)");
  const Schedule& schedule = fleet.schedules[0];
  CHECK(joined(schedule.task("large")->all_cautions) ==
        "hot-fluid | used-oil | confined-space | Mind the geese | Mind the dog");
  CHECK(joined(schedule.task("middle")->all_cautions) == "used-oil | confined-space | Mind the dog");
  CHECK(joined(schedule.task("small")->all_cautions) == "used-oil | confined-space | Mind the dog");
}

TEST_CASE("the base cautions stand in the order in which they are done") {
  const BaseCautions& base = base_cautions();
  const auto place_of = [&](std::string_view words) {
    return std::ranges::find_if(base.steps,
                                [&](std::string_view step) { return step.find(words) != std::string_view::npos; }) -
           base.steps.begin();
  };
  CHECK(place_of("lowered") == 0);
  CHECK(place_of("take the key") == 1);
  CHECK(place_of("automatic start too") == 1);
  CHECK(place_of("all has stopped") == 2);
  CHECK(place_of("block what stays raised") == 3);
  CHECK(place_of("let pressure off") == 4);  // what is raised is blocked by now, so that nothing drops
  CHECK(place_of("cool") == 5);
  CHECK(place_of("cannot start") == 6);
  CHECK(place_of("operator's manual") == 7);
}

}  // namespace
