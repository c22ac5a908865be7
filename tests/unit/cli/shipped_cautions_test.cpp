// What the shipped schedules warn of: whoever copies a task gets the warnings of the work it is.
#include <doctest/doctest.h>

#include <set>
#include <string>
#include <string_view>
#include <variant>

#include "unit/cli/shipped_schedules.h"

using namespace cli_test;

namespace {

struct Warned {
  std::string_view words;
  std::string_view caution;
};

// Of what the task is for.
constexpr Warned by_work[] = {
    {"engine oil", "used-oil"},
    {"hydraulic oil", "used-oil"},
    {"change engine oil", "hot-fluid"},
    {"change engine oil", "fluid-under-pressure"},
    {"hydraulic oil", "hot-fluid"},
    {"hydraulic oil", "fluid-under-pressure"},
    {"hydraulic oil", "stored-energy"},
    {"change engine oil", "under-the-machine"},
    {"hydraulic oil", "under-the-machine"},
    {"coolant", "pressure-cap"},
    {"coolant", "hot-fluid"},
    {"coolant", "coolant"},
    {"coolant", "hot-surface"},
    {"fuel", "fuel-vapour"},
    {"hose", "fluid-under-pressure"},
    {"hose", "raised-parts"},
    {"air element", "hot-surface"},
    {"air element", "dust-lungs"},
    {"cabin filter", "dust-lungs"},
    {"brake", "fluid-under-pressure"},
    {"brake", "raised-parts"},
    {"brake", "not-on-the-jack"},
    {"brake", "under-the-machine"},
    {"brake", "asbestos"},
    {"brake", "heavy-parts"},
    {"brake", "tyre-and-rim"},
    {"tyre", "tyre-and-rim"},
    {"gland", "fluid-under-pressure"},
    {"gland", "hot-surface"},
    {"knife", "sharp-edges"},
    {"drum", "sharp-edges"},
    {"chaff", "moving-parts"},
    {"chaff", "dust-lungs"},
    {"dust", "dust-explosion"},
    {"dust", "dust-lungs"},
    {"dust", "confined-space"},
    {"burner", "fuel-vapour"},
    {"burner", "dust-lungs"},
    {"burner", "working-alone"},
    {"battery", "battery"},
    {"battery", "charger-off"},
    {"lifting gear", "raised-parts"},
    {"fork", "raised-parts"},
};

// Of what its steps, and the checks after it, have people do or handle.
constexpr Warned by_steps[] = {
    {"leak", "fluid-under-pressure"},
    {"pressure is left", "fluid-under-pressure"},
    {"under pressure", "fluid-under-pressure"},
    {"drain warm", "hot-fluid"},
    {"marked used oil", "used-oil"},
    {"fuel", "fuel-vapour"},
    {"rinse", "spray-residue"},
    {"washed down", "spray-residue"},
    {"belt", "shafts-and-belts"},
    {"shaft", "shafts-and-belts"},
    {"on stands", "raised-parts"},
    {"on its stops", "raised-parts"},
    {"boom", "raised-parts"},
    {"not on the jack", "not-on-the-jack"},
    {"axle", "not-on-the-jack"},
    {"lead off", "battery"},
    {"charger", "charger-off"},
    {"automatic start", "automatic-start"},
    {"mains and set", "back-feed"},
    {"power locked off", "electricity"},
    {"no line within reach", "overhead-lines"},
    {"doors open", "exhaust-gas"},
    {"gas meter", "confined-space"},
    {"stays out", "confined-space"},
    {"into the tank", "confined-space"},
    {"at the controls", "engine-running"},
    {"its own panel", "engine-running"},
    {"while it runs", "engine-running"},
    {"feel for heat", "engine-running"},
    {"stays out", "working-alone"},
    {"life jacket", "deep-water"},
    {"brake dust", "asbestos"},
    {"dust mask", "dust-lungs"},
    {"vacuum", "dust-lungs"},
    {"harness", "work-at-height"},
    {"walkway", "work-at-height"},
    {"cut-proof gloves", "sharp-edges"},
    {"trolley", "heavy-parts"},
    {"hoist", "heavy-parts"},
};

TEST_CASE("each shipped task warns of something, and of what its work is known for") {
  CHECK(wrong_in_shipped([](const ShippedTask& task, const auto& add) {
          if (task.task->cautions.empty()) add("no cautions at all");
          for (const auto& [words, caution] : by_work) {
            if (says(task.doing, words) && !task.warns_of(caution)) add(caution);
          }
          for (const auto& [fluid, amount] : task.task->fluids) {
            if (says(fluid, "oil") && !task.warns_of("used-oil")) add("used-oil, for " + fluid);
          }
        }) == "");
}

TEST_CASE("each shipped task warns of what its steps have people do") {
  CHECK(wrong_in_shipped([](const ShippedTask& task, const auto& add) {
          for (const auto& [words, caution] : by_steps) {
            if (task.task->competent_person && words == "leak") continue;  // of gas, with an instrument
            if (says(task.text(), words) && !task.warns_of(caution)) {
              add(std::string(caution) + ", for it says: " + std::string(words));
            }
          }
        }) == "");
}

TEST_CASE("where one machine of a kind starts by itself, or carries spray, each of its tasks says so") {
  CHECK(wrong_in_shipped([](const ShippedTask& task, const auto& add) {
          for (const std::string_view caution : {"automatic-start", "spray-residue"}) {
            const bool of_its_kind = std::ranges::any_of(task.schedule->tasks, [&](const service::Task& other) {
              return std::ranges::find(other.cautions, caution) != other.cautions.end();
            });
            if (of_its_kind && !task.warns_of(caution)) add(caution);
          }
        }) == "");
}

TEST_CASE(
    "brakes, tyres, guards, lifting gear, dust, fire and what the law examines are safety tasks, exact to the day") {
  CHECK(wrong_in_shipped([](const ShippedTask& task, const auto& add) {
          const bool covers_one = std::ranges::any_of(
              task.task->covers, [&](const std::string& name) { return task.schedule->task(name)->safety; });
          for (const char* words :
               {"brake", "steering", "tyre", "wheel bearing", "guards", "stop button", "lifting", "fork", "hose",
                "dust", "extinguisher", "burner", "official test", "change-over", "locks and breakaway"}) {
            if (says(task.doing, words) && !task.task->safety && !covers_one) add("no safety task");
          }
          for (const char* words : {"lifting", "burner", "official test"}) {
            if (says(task.doing, words) && !task.task->competent_person) add("for anybody");
          }
          if (task.task->competent_person && !task.task->safety) add("examined, and no safety task");
          if (task.task->safety && task.task->until_month_end) add("stretched to the month's end");
        }) == "");
}

TEST_CASE("every value of the sample is said to be an example") {
  const service::Fleet fleet = sample_fleet();
  for (const ShippedTask& task : tasks_of(fleet)) {
    CAPTURE(task.name);
    CHECK(task.task->notes.find("example value") != std::string::npos);
  }
}

TEST_CASE("the sample shows every kind of limb, and every way to count") {
  const service::Fleet fleet = sample_fleet();
  std::set<std::string> seen;
  const std::vector<ShippedTask> tasks = tasks_of(fleet);
  for (const ShippedTask& one : tasks) {
    const service::Task& task = *one.task;
    for (const service::Limb& limb : task.every) seen.insert("limb " + std::to_string(limb.index()));
    seen.insert("counts-from " + std::to_string(static_cast<int>(task.counts_from)));
    if (!task.first.empty()) seen.insert("first");
    if (!task.in.empty()) seen.insert("in");
    if (task.grace) seen.insert("grace");
    if (task.until_month_end) seen.insert("until");
    if (!task.covers.empty()) seen.insert("covers");
    if (!task.positions.empty()) seen.insert("positions");
    if (!task.follow_ups.empty()) seen.insert(task.safety ? "safety follow-up" : "follow-up");
    if (task.competent_person) seen.insert("by-whom");
    if (task.people > 1) seen.insert("people");
  }
  CHECK(seen.size() == std::variant_size_v<service::Limb> + 3 + 10);
}

}  // namespace
