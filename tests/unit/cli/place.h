// A folder of its own with a small invented fleet, and a world around the command that a test commands.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "run.h"
#include "service/base.h"
#include "support/temporary_folder.h"

namespace cli_test {

inline constexpr const char* small_fleet = R"(fleet: Skarvey estate
grace: 2%
sites:
  yard: {name: Home yard}
  mere: {name: Pumping station}
machines:
  loader:
    name: Loader tractor
    schedule: tractor
    site: yard
    in-service: {on: 2024-03-02, at: 0}
  pump:
    name: Old pump
    schedule: pump
    site: mere
    in-service: {on: 2025-01-10, at: 0}
)";

inline constexpr const char* tractor_schedule = R"(schedule: tractor
meters: {engine: {unit: h, rolls-over-at: 10000}}
tasks:
  engine-oil:
    do: Change engine oil and filter
    every: {hours: 250, months: 12}
    fluids: {engine-oil-10w30: 12 L}
    follow-up: {check-leaks: {do: "Run, stop, look for leaks", within: {hours: 1}}}
  tyre:
    do: Check the tyre
    every: {months: 12, measured: {tread: {below: 15, unit: mm}}}
    positions: [front-left, front-right]
  hoses:
    do: Renew worn hoses
    every: {years: 6, signs: [leak]}
)";

inline constexpr const char* pump_schedule = R"(schedule: pump
meters: {engine: {unit: h}}
tasks:
  gland:
    do: Repack the gland
    every: {months: 36}
)";

class Place {
 public:
  Place() {
    world.folder = folder;
    world.milliseconds = [this] { return now += 1000; };
    world.variable = [this](const std::string& name) -> std::optional<std::string> {
      const auto found = variables.find(name);
      return found == variables.end() ? std::nullopt : std::optional(found->second);
    };
    world.draw = [this] {
      std::array<std::uint8_t, 10> bytes{};
      ++drawn;
      for (std::size_t i = 0; i < bytes.size(); ++i)
        bytes[i] = static_cast<std::uint8_t>(std::size_t{drawn} * 37 + i * 101);
      return bytes;
    };
    world.read_input = [this] { return input; };
    world.write_output = [this](std::string_view text) {
      if (output_error == 0) out += text;
      return output_error;
    };
    world.write_error = [this](std::string_view text) { err += text; };
  }
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;

  void write(const std::string& name, const std::string& text) const {
    std::filesystem::create_directories((folder / name).parent_path());
    std::ofstream(folder / name, std::ios::binary) << text;
  }

  std::string read(const std::string& name) const {
    std::ifstream file(folder / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }

  // The small fleet with an empty record.
  void furnish() {
    write("fleet.yaml", small_fleet);
    write("schedules/tractor.yaml", tractor_schedule);
    write("schedules/pump.yaml", pump_schedule);
    if (run("new .") != 0) throw std::runtime_error(err);
  }

  // Words split at blanks; what they printed is in out and err.
  int run(const std::string& line) {
    std::istringstream words(line);
    return run_words({std::istream_iterator<std::string>(words), {}});
  }

  int run_words(const std::vector<std::string>& words) {
    out.clear();
    err.clear();
    return cli::run(words, world);
  }

  // As it is written, or where it goes on in the next line for want of room.
  bool says(std::string_view text) const {
    return out.find(text) != std::string::npos || unfolded(out).find(text) != std::string::npos;
  }
  static std::string unfolded(const std::string& text) {
    std::string line;
    for (std::size_t i = 0; i < text.size(); ++i) {
      const bool goes_on = text[i] == '\n' && i + 1 < text.size() && text[i + 1] != '\n';
      line += goes_on ? ' ' : text[i];
      if (goes_on) i = text.find_first_not_of(' ', i + 1) - 1;
    }
    return line;
  }
  bool complains(std::string_view text) const { return err.find(text) != std::string::npos; }

  test::TemporaryFolder temporary;
  std::filesystem::path folder = temporary.path();
  cli::World world;
  std::map<std::string, std::string> variables;
  std::string input;
  std::string out;
  std::string err;
  int output_error = 0;
  // Noon of 15 June 2026, UTC; each look at the clock is a second later.
  std::int64_t now = service::days_between(service::day_of(1970, 1, 1), service::day_of(2026, 6, 15)) * 86'400'000LL +
                     12 * 3'600'000LL;
  unsigned drawn = 0;
};

}  // namespace cli_test
