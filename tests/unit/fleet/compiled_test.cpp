// The compiled fleet: it may save time, and never change an answer.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "service/fleet.h"
#include "unit/fleet/texts.h"
#include "unit/record/support.h"

namespace {

namespace fs = std::filesystem;
using record_test::Folder;
using service::FleetFiles;

// Two machines with a name in quotes, a list and a nested map: all that a tree can hold.
FleetFiles two_files() {
  return fleet_texts::files_of(
      "fleet: Test farm\nmachines:\n  pump: {name: \"Pump: 1\", schedule: pump, conditions: [wet, dusty]}\n  mill:\n"
      "    schedule: pump\n    notes: |\n      Two\n      lines.\n",
      "schedule: pump\ntasks:\n  gland:\n    do: Repack the gland\n    every: {months: 6}\n    in: {wet: {months: "
      "3}}\n");
}

// All that came out of the files that these tests change, mistakes with their places and the lines they show.
std::string said_of(const FleetFiles& files) {
  std::string said;
  try {
    const auto fleet = service::read_fleet(files);
    said = fleet.name;
    for (const auto& machine : fleet.machines) {
      said += "; " + machine.key + " " + machine.name + " " + machine.notes;
      for (const auto& condition : machine.conditions) said += " " + condition;
    }
    for (const auto& task : fleet.schedules.at(0).tasks) {
      said += "; " + task.name + " " + task.doing + " every " + fleet_texts::words(task.every) + " at " +
              std::to_string(task.place.line);
      for (const auto& [condition, limbs] : task.in) said += " in " + condition + " " + fleet_texts::words(limbs);
    }
  } catch (const service::Failure& failure) {
    for (const auto& told : failure.diagnostics()) {
      said += told.code + " " + told.message + " " + std::to_string(told.place->line) + ":" +
              std::to_string(told.place->column) + " " + told.place->text + "\n";
    }
  }
  return said;
}

std::string compiled_of(const FleetFiles& files) { return service::compile_fleet(files, service::read_fleet(files)); }

void write(const fs::path& file, const std::string& text) {
  fs::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary) << text;
}

}  // namespace

TEST_CASE("the same fleet comes out of the compiled text as out of the files") {
  FleetFiles files = two_files();
  const std::string parsed = said_of(files);
  CHECK_FALSE(service::is_compiled(files));
  files.compiled = compiled_of(files);
  CHECK(service::is_compiled(files));
  CHECK(said_of(files) == parsed);
}

TEST_CASE("where a file changed by one byte all is read again") {
  const FleetFiles before = two_files();
  const std::string compiled = compiled_of(before);
  for (const auto& [name, text] : before.texts) {
    for (std::size_t at = 0; at < text.size(); ++at) {
      FleetFiles changed = before;
      changed.texts[name][at] = static_cast<char>(changed.texts[name][at] ^ 1);
      const std::string parsed = said_of(changed);
      changed.compiled = compiled;
      CAPTURE(name);
      CAPTURE(at);
      CHECK(said_of(changed) == parsed);
      CHECK_FALSE(service::is_compiled(changed));
    }
  }
}

TEST_CASE("a compiled text with any one bit turned, or cut anywhere, changes no answer") {
  FleetFiles files = two_files();
  const std::string parsed = said_of(files);
  const std::string compiled = compiled_of(files);
  int unlike = 0;
  for (std::size_t at = 0; at < compiled.size(); ++at) {
    for (unsigned bit = 0; bit < 8; ++bit) {
      files.compiled = compiled;
      files.compiled[at] = static_cast<char>(static_cast<unsigned char>(compiled[at]) ^ (1U << bit));
      unlike += service::is_compiled(files) || said_of(files) != parsed ? 1 : 0;
    }
    files.compiled = compiled.substr(0, at);
    unlike += service::is_compiled(files) || said_of(files) != parsed ? 1 : 0;
  }
  CHECK(unlike == 0);
}

TEST_CASE("files with a mistake are read again each time, and a fleet of other files is not kept for them") {
  FleetFiles files = two_files();
  const auto fleet = service::read_fleet(files);
  files.compiled = service::compile_fleet(files, fleet);
  files.texts["fleet.yaml"] += "fleet: Twice\n";
  CHECK_FALSE(service::is_compiled(files));
  CHECK(said_of(files).find("duplicate-key") != std::string::npos);
  CHECK(service::compile_fleet(files, fleet).empty());
}

TEST_CASE("what is turned off stays turned off") {
  FleetFiles files = two_files();
  files.texts["fleet.yaml"] += "mail: {to: [yard@farm.example], weekly-word: off}\n";
  REQUIRE_FALSE(service::read_fleet(files).mail.weekly_word.has_value());
  files.compiled = compiled_of(files);
  REQUIRE(service::is_compiled(files));
  CHECK_FALSE(service::read_fleet(files).mail.weekly_word.has_value());
}

TEST_CASE("all that the sample fleet holds comes out of the compiled text, places by the folder's new name") {
  FleetFiles files = service::load_fleet_files(SOURCE_DIR "/sample-fleet");
  files.compiled.clear();
  const auto parsed = service::read_fleet(files);
  const std::string text = service::compile_fleet(files, parsed);
  files.compiled = text;
  REQUIRE(service::is_compiled(files));
  const auto again = service::read_fleet(files);
  CHECK(service::compile_fleet(files, again) == text);  // each value, in the order in which they are written
  CHECK((again.files_checksum == parsed.files_checksum));
  REQUIRE(again.index != nullptr);
  CHECK((again.machine(parsed.machines.back().key) == &again.machines.back()));

  files.folder = "elsewhere";
  REQUIRE(service::is_compiled(files));
  const auto moved = service::read_fleet(files);
  CHECK(moved.machines.front().place.file == "elsewhere/fleet.yaml");
  CHECK(moved.machines.front().place.line == parsed.machines.front().place.line);
  CHECK(service::compile_fleet(files, moved) == text);
}

TEST_CASE("the compiled text lies in the fleet's folder, for its owner, in one piece") {
  const Folder folder;
  for (const auto& [name, text] : two_files().texts) write(folder.path() / name, text);
  const FleetFiles before = service::load_fleet_files(folder.path());
  CHECK(before.compiled.empty());
  service::keep_compiled(folder.path(), before, service::read_fleet(before));
  const FleetFiles after = service::load_fleet_files(folder.path());
  CHECK(service::is_compiled(after));
  CHECK(said_of(after) == said_of(before));
  struct stat status {};
  REQUIRE(::stat((folder.path() / ".compiled-fleet").c_str(), &status) == 0);
  CHECK((status.st_mode & 0777U) == 0600U);
  CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()) == 3);
}

TEST_CASE("where the compiled text cannot be kept or read, nothing else is lost") {
  const Folder folder;
  for (const auto& [name, text] : two_files().texts) write(folder.path() / name, text);
  fs::create_directory(folder.path() / ".compiled-fleet");  // in its way
  const FleetFiles there = service::load_fleet_files(folder.path());
  service::keep_compiled(folder.path(), there, service::read_fleet(there));
  const FleetFiles files = service::load_fleet_files(folder.path());
  CHECK(files.compiled.empty());
  CHECK(said_of(files) == said_of(two_files()));
  CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()) == 3);
  service::keep_compiled(folder.path() / "nowhere", files, service::read_fleet(files));
}
