// A fleet whose names make messages hard, and texts that are read beside it.
#pragma once

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/asking.h"
#include "unit/cli/place.h"

namespace cli_test {

using nlohmann::json;

inline constexpr const char* as_of = " --as-of 2026-06-15";

// A fleet whose names make it hard: tasks that are parts of each other, machines that are called like words.
class Field : public Place {
 public:
  Field() {
    write("fleet.yaml", R"(fleet: Field
machines:
  loader: {name: Loader tractor, schedule: tractor, in-service: {on: 2024-03-02, at: 0}}
  pump: {name: Old pump, schedule: pump, in-service: {on: 2025-01-10, at: 0}}
  pump-3: {schedule: pump, in-service: {on: 2025-01-10, at: 0}}
  saw: {schedule: pump, in-service: {on: 2025-01-10, at: 0}}
  north: {name: Gate, schedule: pump, in-service: {on: 2025-01-10, at: 0}}
  south: {name: Gate, schedule: pump, in-service: {on: 2025-01-10, at: 0}}
  combine: {schedule: combine, in-service: {on: 2024-03-02, at: 0}}
)");
    write("schedules/tractor.yaml", R"(schedule: tractor
meters: {engine: {unit: h, rolls-over-at: 10000}}
tasks:
  engine-oil:
    do: Change engine oil and filter
    every: {hours: 250, months: 12}
    fluids: {engine-oil-10w30: 12 L}
    follow-up: {check-leaks: {do: "Run, stop, look for leaks", within: {hours: 1}}}
  engine-oil-filter: {do: Filter alone, every: {hours: 500}}
  filter: {do: Cabin filter, every: {months: 12}}
  air-primary: {do: Air element, every: {hours: 500, measured: {restriction: {above: 6, unit: kPa}}}}
  tyre: {do: Check the tyre, every: {months: 12, measured: {tread: {below: 15, unit: mm}}}, positions: [front-left, front-right]}
  hoses: {do: Renew worn hoses, every: {years: 6, signs: [leak]}}
  brakes: {do: Check the brakes, every: {months: 12, signs: [long-pedal]}, safety: true}
  test: {do: Examine, every: {months: 14}, by-whom: competent-person}
)");
    write("schedules/pump.yaml",
          "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n"
          "  gland: {do: Repack the gland, every: {months: 36}}\n"
          "  gland-500: {do: Grease, every: {hours: 500}}\n");
    write("schedules/combine.yaml",
          "schedule: combine\nmeters: {engine: {unit: h}, separator: {unit: h}, road: {unit: km}}\n"
          "tasks:\n  oil: {do: Oil, every: {hours: 250}}\n  belt: {do: Belt, every: {usage: {separator: 300}}}\n");
    must(*this, "new .");
    must(*this, std::string("reading loader 1500 --on 2026-05-01") + as_of);
  }

  // The lines that came of it.
  json lines(const std::string& text, int status, const std::string& more = "") {
    input = text;
    INFO(text);
    CHECK(run("import --messages - --format json" + more + as_of) == status);
    REQUIRE_MESSAGE(!out.empty(), err);
    answer = json::parse(out);
    return answer["lines"];
  }

  // What one line became, in the columns of the book: `reading loader 2026-06-15 1511.4`.
  std::string taken(const std::string& text, const std::string& more = "") {
    const json line = lines(text, 0, " --dry-run" + more).at(0);
    std::string said;
    for (const json& fact : answer["facts"]) {
      std::string words;
      for (const char* key : {"kind", "machine", "on", "at", "meter", "task", "position", "name", "value", "unit",
                              "found", "by", "note", "sure"}) {
        if (!fact.contains(key)) continue;
        const json& value = fact[key];
        words += (words.empty() ? "" : " ") + (value.is_string() ? value.get<std::string>() : value.dump());
      }
      said += (said.empty() ? "" : "; ") + words;
    }
    return said;
  }

  // The code of why one line is not taken; nothing of it is.
  std::string refused(const std::string& text, const std::string& more = "") {
    const json line = lines(text, 65, " --dry-run" + more).at(0);
    CHECK(answer["facts"].empty());
    CHECK_FALSE(line["wrong"].at(0)["hint"].is_null());
    return line["wrong"].at(0)["code"];
  }

  json answer;
};

}  // namespace cli_test
