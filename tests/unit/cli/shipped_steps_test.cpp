// The order of the shipped schedules' steps, and the tools that they use: safe before it is open, closed before it
// runs, and no step lets it start by itself again.
#include <doctest/doctest.h>

#include <cctype>
#include <string>
#include <string_view>
#include <vector>

#include "unit/cli/shipped_schedules.h"

using namespace cli_test;

namespace {

constexpr auto nowhere = std::string_view::npos;

// What of `words`, each first said after the one before it, comes too early or not at all.
std::string out_of_order(std::string_view text, std::initializer_list<std::string_view> words) {
  std::size_t from = 0;
  for (const std::string_view one : words) {
    const std::size_t at = text.find(one);
    if (at == nowhere) return "never says: " + std::string(one);
    if (at < from) return "too early: " + std::string(one);
    from = at;
  }
  return {};
}

TEST_CASE("a shipped task makes safe before it does anything else") {
  CHECK(wrong_in_shipped([](const ShippedTask& task, const auto& add) {
          if (task.steps.empty() || task.task->competent_person) return;  // the examiner decides what runs
          const std::string first = task.steps[0] + '\n' + task.steps[1];
          // What covers another begins with that one's steps.
          const bool safe = !task.task->covers.empty() || says(first, "key out") || says(first, "take the key") ||
                            says(first, "key in") || says(first, "locked off");
          if (!safe) add("neither key out nor locked off in its first two steps");
        }) == "");
}

TEST_CASE("what starts by itself is locked off at first, and no step puts it back on") {
  int such = 0;
  CHECK(wrong_in_shipped([&](const ShippedTask& task, const auto& add) {
          if (!task.warns_of("automatic-start") || task.steps.empty()) return;
          ++such;
          const std::string before = task.steps[0] + '\n' + task.steps[1];
          if (!says(before, "automatic start locked off and tagged")) add("not locked off in the first two steps");
          // Another task may follow, or the machine may be out of use: the sheet says when, behind all tasks.
          for (const char* armed : {"start back on", "back to automatic", "start on", "automatic start again"}) {
            if (says(task.all_steps(), armed)) add("armed by a step: " + std::string(armed));
          }
          if (!says(task.steps.back(), "everybody clear") &&
              !says(task.steps[task.steps.size() - 2], "everybody clear"))
            add("not everybody clear at its end");
        }) == "");
  CHECK(such >= 5);
}

TEST_CASE("a lock that comes off for a run goes back on, and comes off for nothing else") {
  int such = 0;
  CHECK(wrong_in_shipped([&](const ShippedTask& task, const auto& add) {
          const std::string text = task.all_steps();
          if (!says(text, "lock comes off") && !says(text, "lock off")) return;
          ++such;
          const std::size_t off = place_of("the lock off for this run, by whoever put it on", text);
          if (off == nowhere) return add("the lock comes off, and not for a run alone");
          if (place_of("locked off and tagged again", text, off) == nowhere) add("never locked off again");
        }) == "");
  CHECK(such >= 3);
}

TEST_CASE("a battery's earth lead comes off first and goes on last, between charger off and charger on") {
  int such = 0;
  CHECK(wrong_in_shipped([&](const ShippedTask& task, const auto& add) {
          const std::string text = task.all_steps();
          if (!task.warns_of("battery") || (!says(text, "lead") && !says(task.doing, "battery"))) return;
          ++such;
          const std::string wrong = out_of_order(
              text, {"charger off", "earth lead off", "earth lead on last", "charger on", "everybody clear"});
          if (!wrong.empty()) add(wrong);
          if (!says(task.doing, "battery")) return;
          const std::string both = out_of_order(
              text, {"earth lead off first", "then the other", "the other lead on", "then the earth lead on last"});
          if (!both.empty()) add(both);
        }) == "");
  CHECK(such >= 2);
}

TEST_CASE("whoever looks for leaks stops it first, and takes a card, never a hand") {
  int such = 0;
  CHECK(wrong_in_shipped([&](const ShippedTask& task, const auto& add) {
          if (says(task.tools, "leak detector")) return;  // gas
          std::vector<std::string> all = task.steps;
          all.insert(all.end(), task.checks.begin(), task.checks.end());
          for (const std::string& one : all) {
            const std::size_t leak = place_of("leak", one);
            if (leak == nowhere) continue;
            ++such;
            if (!says(one, "card") || !says(one, "never with a hand")) add("no card: " + one);
            if (place_of("stop", one) > leak) add("not stopped: " + one);
          }
        }) == "");
  CHECK(such >= 20);
}

TEST_CASE("pressure is off before what holds it is opened, and all is shut before it runs") {
  CHECK(wrong_in_shipped([](const ShippedTask& task, const auto& add) {
          const std::string text = task.all_steps();
          const auto in_order = [&](std::initializer_list<std::string_view> words) {
            const std::string wrong = out_of_order(text, words);
            if (!wrong.empty()) add(wrong);
          };
          if (task.steps.empty()) return;
          if (says(task.doing, "hydraulic oil"))
            in_order({"levers", "no pressure is left", "drain warm", "fill", "run"});
          if (says(task.doing, "gland"))
            in_order({"valves shut", "drain cock", "no pressure left", "old rings out", "drain cock shut",
                      "valves open", "guard back on", "run,"});
          if (says(task.doing, "coolant"))
            in_order({"cold", "drain into", "fill slowly", "cap on", "run to", "cold before"});
          if (says(task.doing, "change engine oil"))
            in_order({"drain", "fill to the mark", "run to", "check the level"});
          if (says(task.doing, "fuel filter"))
            in_order({"no flame", "tap shut", "new filter on", "tap open", "bleed", "run from"});
          if (says(task.doing, "burner")) in_order({"locked off", "checks for leaks", "lit and tested", "back on"});
          if (says(text, "on stands, not on the jack"))
            in_order({"chock", "on stands", "down off the stands", "torque"});
        }) == "");
}

struct Used {
  std::string_view words;
  std::string_view tool;
};

constexpr Used used[] = {
    {"card", "piece of card"},
    {"lamp", "lamp"},
    {"gas meter", "gas meter"},
    {"leak detector", "leak detector"},
    {"manual's torque", "torque wrench"},
    {"chock", "chocks"},
    {"axle on stands", "axle stands"},
    {"axle at a time on stands", "axle stands"},
    {"not on the jack", "jack"},
    {"trolley", "wheel trolley"},
    {"earth lead off", "battery spanner"},
    {"locked off", "lock and tag"},
    {"drain warm", "drain pan"},
    {"drain into", "drain pan"},
    {"filter by hand", "filter wrench"},
    {"filter comes off", "filter wrench"},
    {"goggles", "goggles"},
    {"gloves", "gloves"},
    {"apron", "apron"},
    {"dust mask", "dust mask"},
    {"vacuum chaff", "vacuum cleaner"},
    {"damp cloth", "damp cloth"},
    {"wiped off damp", "damp cloth"},
    {"wire brush", "wire brush"},
    {"soft brush", "soft brush"},
    {"grease gun", "grease gun"},
    {"feeler gauge", "feeler gauges"},
    {"tension gauge", "tension gauge"},
    {"pressure gauge on", "pressure gauge"},
    {"caliper", "caliper"},
    {"hoist", "hoist"},
    {"harness", "harness and line"},
    {"life jacket", "life jackets"},
    {"throw line", "throw line"},
    {"hook", "hook"},
    {"spanner", "spanner"},
    {"drip tray", "drip tray"},
};

TEST_CASE("what a step takes in hand stands among the tools") {
  CHECK(wrong_in_shipped([](const ShippedTask& task, const auto& add) {
          for (const auto& [words, tool] : used) {
            if (says(task.text(), words) && !says(task.tools, tool)) add(tool);
          }
        }) == "");
}

// The words of a tool that tell it from others, in the singular: `piece of card` is piece and card.
std::vector<std::string> telling_words(std::string_view tool) {
  std::vector<std::string> words{""};
  for (const char letter : tool) {
    if (std::isalpha(static_cast<unsigned char>(letter)) != 0) {
      words.back() += letter;
    } else {
      words.emplace_back();
    }
  }
  std::erase_if(words, [](const std::string& word) { return word.size() < 3 || word == "the" || word == "and"; });
  for (std::string& word : words) {
    if (word.size() > 3 && word.back() == 's') word.pop_back();
  }
  return words;
}

// At the beginning of a word: a lock is used by who locks.
bool begins_a_word(std::string_view beginning, std::string_view text) {
  for (std::size_t at = text.find(beginning); at != nowhere; at = text.find(beginning, at + 1)) {
    if (at == 0 || std::isalpha(static_cast<unsigned char>(text[at - 1])) == 0) return true;
  }
  return false;
}

TEST_CASE("each tool that a task lists is used by a step of it, or of what it covers") {
  CHECK(wrong_in_shipped([](const ShippedTask& task, const auto& add) {
          if (task.steps.empty()) return;
          std::string text = task.text() + task.doing;
          for (const std::string& covered : task.task->covers) {
            for (const std::string& step : task.schedule->task(covered)->steps) text += '\n' + lower(step);
          }
          for (const std::string& tool : task.task->tools) {
            const std::vector<std::string> words = telling_words(lower(tool));
            if (std::ranges::none_of(words, [&](const std::string& word) { return begins_a_word(word, text); }))
              add(tool);
          }
        }) == "");
}

// Each said behind the one before it; the same words may come again.
std::string not_in_turn(std::string_view text, std::initializer_list<std::string_view> words) {
  std::size_t from = 0;
  for (const std::string_view one : words) {
    const std::size_t at = text.find(one, from);
    if (at == nowhere) return "not in its turn: " + std::string(one);
    from = at + one.size();
  }
  return {};
}

TEST_CASE("safety stops go in and come out with the key out and all still, and nobody is under what comes down") {
  int such = 0;
  CHECK(wrong_in_shipped([&](const ShippedTask& task, const auto& add) {
          if (!says(task.all_steps(), "safety stop")) return;
          ++such;
          const std::string wrong =
              not_in_turn(task.all_steps(), {"raise", "key out", "still", "put in their safety stops", "clear", "down",
                                             "key out", "still", "clear", "off the stops", "key out", "still",
                                             "stops out from outside, nobody under it"});
          if (!wrong.empty()) add(wrong);
        }) == "");
  CHECK(such >= 1);
}

TEST_CASE("whoever may go where gas is takes a gas meter along, and somebody who stays out") {
  int such = 0;
  CHECK(wrong_in_shipped([&](const ShippedTask& task, const auto& add) {
          if (!task.warns_of("confined-space") || task.task->competent_person) return;
          ++such;
          if (!says(task.tools, "gas meter")) add("no gas meter");
          if (!says(task.all_steps(), "gas meter")) add("the gas meter is never read");
          if (!says(task.all_steps(), "stays out")) add("nobody stays out");
          if (task.task->people < 2) add("people: 2");
        }) == "");
  CHECK(such >= 3);
}

TEST_CASE("where wheels come off, their nuts are tightened once more after some work") {
  int such = 0;
  CHECK(wrong_in_shipped([&](const ShippedTask& task, const auto& add) {
          if (!says(task.all_steps(), "wheels off")) return;
          ++such;
          std::vector<std::string> checks = task.checks;
          for (const std::string& covered : task.task->covers) {
            for (const service::FollowUp& check : task.schedule->task(covered)->follow_ups)
              checks.push_back(lower(check.doing));
          }
          const bool again = std::ranges::any_of(checks, [](const std::string& check) {
            return says(check, "wheel nuts again") && says(check, "key out") && says(check, "manual's torque");
          });
          if (!again) add("no check of the nuts afterwards");
        }) == "");
  CHECK(such >= 3);
}

TEST_CASE("where one stays out for the other, or stands at the controls, it is work for two") {
  int such = 0;
  CHECK(wrong_in_shipped([&](const ShippedTask& task, const auto& add) {
          const std::string text = task.all_steps();
          if (!says(text, "stays out") && !says(text, "two of you") && !says(text, "two people") &&
              !says(text, "at the controls") && !says(text, "harness")) {
            return;
          }
          ++such;
          if (task.task->people < 2) add("people: 2");
        }) == "");
  CHECK(such >= 3);
}

}  // namespace
