// Every mistake that the fleet room reports, as people see it. Each folder of tests/errors holds a small fleet with one
// mistake and, in expected.txt, the words for it. REFRESH=1 in the environment writes the words anew: read the
// difference by eye before keeping it.
//
// Two kinds of file are instructions to this test: NAME.repeat stands for a large file NAME (a count on the first
// line, then the text to repeat), and path.txt for a folder to look for instead of this one.
#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "render/shared/diagnostics.h"
#include "service/fleet.h"

namespace {

namespace fs = std::filesystem;

const fs::path errors_folder = fs::path(SOURCE_DIR) / "tests" / "errors";

std::string text_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

template <class Texts>
std::string joined(const Texts& texts) {
  std::string lines;
  for (const std::string& text : texts) lines += text + '\n';
  return lines;
}

std::vector<fs::path> folders() {
  std::vector<fs::path> found;
  for (const auto& entry : fs::directory_iterator(errors_folder)) {
    if (entry.is_directory()) found.push_back(entry.path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

void add_repeated(const fs::path& folder, service::FleetFiles& files) {
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.path().extension() != ".repeat") continue;
    const std::string recipe = text_of(entry.path());
    const std::size_t end = recipe.find('\n');
    std::string text;
    for (int count = std::stoi(recipe.substr(0, end)); count > 0; --count) text.append(recipe, end + 1);
    files.texts[entry.path().lexically_relative(folder).replace_extension().generic_string()] = text;
  }
}

struct Said {
  std::string text;
  std::set<std::string> codes;
};

Said said_of(const std::vector<service::Diagnostic>& diagnostics) {
  Said said{cli::diagnostics_to_text(diagnostics, "whichever"), {}};
  for (const service::Diagnostic& diagnostic : diagnostics) said.codes.insert(diagnostic.code);
  return said;
}

// What is said about a folder, without the place where the project lies.
Said said_about(const fs::path& folder) {
  const fs::path instead = folder / "path.txt";
  std::string name;
  if (fs::exists(instead)) std::ifstream(instead) >> name;
  Said said;
  try {
    service::FleetFiles files = service::load_fleet_files(name.empty() ? folder : folder / name);
    files.folder.clear();
    add_repeated(folder, files);
    said = said_of(service::read_fleet(files).remarks);
  } catch (const service::Failure& failure) {
    said = said_of(failure.diagnostics());
  }
  const std::string here = folder.generic_string();
  for (std::size_t at = said.text.find(here); at != std::string::npos; at = said.text.find(here)) {
    said.text.replace(at, here.size(), "FOLDER");
  }
  return said;
}

std::set<std::string> codes_in_source() {
  std::set<std::string> codes;
  const std::string text = text_of(fs::path(SOURCE_DIR) / "libservice" / "src" / "fleet" / "codes.h");
  const std::regex literal("\"([a-z0-9-]+)\"");
  for (std::sregex_iterator match(text.begin(), text.end(), literal), end; match != end; ++match) {
    codes.insert((*match)[1].str());
  }
  return codes;
}

}  // namespace

TEST_CASE("each mistake in a fleet is reported in the words that were agreed") {
  const bool refresh = std::getenv("REFRESH") != nullptr;
  REQUIRE(folders().size() > 0);
  for (const fs::path& folder : folders()) {
    const std::string code = folder.filename().string();
    CAPTURE(code);
    const Said said = said_about(folder);
    if (refresh) std::ofstream(folder / "expected.txt", std::ios::binary) << said.text;
    REQUIRE(fs::exists(folder / "expected.txt"));
    CHECK(said.text == text_of(folder / "expected.txt"));
    CHECK(joined(said.codes) == code + '\n');
  }
}

TEST_CASE("out of the compiled text come the same remarks in the same places, and mistakes are never compiled") {
  int compiled = 0;
  for (const fs::path& folder : folders()) {
    if (fs::exists(folder / "path.txt")) continue;
    CAPTURE(folder.filename().string());
    const auto said = [](const service::FleetFiles& files) {
      try {
        return said_of(service::read_fleet(files).remarks).text;
      } catch (const service::Failure& failure) {
        return said_of(failure.diagnostics()).text;
      }
    };
    service::FleetFiles files;
    try {
      files = service::load_fleet_files(folder);
    } catch (const service::Failure&) {
      continue;  // nothing to compile
    }
    add_repeated(folder, files);
    const std::string parsed = said(files);
    try {
      files.compiled = service::compile_fleet(files, service::read_fleet(files));
      CHECK(service::is_compiled(files));
      ++compiled;
    } catch (const service::Failure&) {
      continue;  // it is never compiled
    }
    CHECK(said(files) == parsed);
  }
  CHECK(compiled > 5);
}

TEST_CASE("each code has a folder with its mistake, and each folder a code") {
  std::set<std::string> names;
  for (const fs::path& folder : folders()) names.insert(folder.filename().string());
  const std::set<std::string> codes = codes_in_source();
  for (const std::string& code : codes) CHECK_MESSAGE(names.contains(code), code);
  for (const std::string& name : names) CHECK_MESSAGE(codes.contains(name), name);
}

TEST_CASE("codes are spelled in one file of the fleet room only") {
  const std::set<std::string> codes = codes_in_source();
  REQUIRE(codes.size() > 50);
  for (const auto& entry : fs::directory_iterator(fs::path(SOURCE_DIR) / "libservice" / "src" / "fleet")) {
    if (entry.path().filename() == "codes.h") continue;
    const std::string text = text_of(entry.path());
    for (const std::string& code : codes) {
      CAPTURE(code);
      CAPTURE(entry.path().filename().string());
      CHECK(text.find('"' + code + '"') == std::string::npos);
    }
  }
}

TEST_CASE("the table of mistakes names each code once, with what it says and its cure") {
  const std::string table = text_of(errors_folder / "README.md");
  std::multiset<std::string> rows;
  const std::regex row("\\n\\| `([a-z0-9-]+)` \\| [^|\\n]+ \\| [^|\\n]+ \\|");
  for (std::sregex_iterator match(table.begin(), table.end(), row), end; match != end; ++match) {
    rows.insert((*match)[1].str());
  }
  const std::set<std::string> codes = codes_in_source();
  CHECK(joined(rows) == joined(codes));
}

TEST_CASE("seven faults in three files are reported in one run, each at its place") {
  const service::FleetFiles files{{},
                                  {{"fleet.yaml",
                                    "fleet: Test farm\n"
                                    "stale-after: soon\n"
                                    "sites:\n"
                                    "  yard: {name: Home yard}\n"
                                    "machines:\n"
                                    "  loader:\n"
                                    "    schedule: tractor\n"
                                    "    site: yrad\n"
                                    "    in-service: {on: 2011-02-30, at: 0}\n"
                                    "    colour: red\n"},
                                   {"register.csv",
                                    "machine,name,schedule\n"
                                    "pump,Pumpe Süd,pmp\n"
                                    "loader,Loader,tractor\n"},
                                   {"schedules/tractor.yaml",
                                    "schedule: tractor\n"
                                    "tasks:\n"
                                    "  engine-oil:\n"
                                    "    do: Change engine oil\n"
                                    "    every: {hours: 250h, months: 12}\n"}}};
  std::vector<std::string> found;
  try {
    service::read_fleet(files);
  } catch (const service::Failure& failure) {
    CHECK(static_cast<int>(failure.kind()) == 78);
    for (const service::Diagnostic& one : failure.diagnostics()) {
      REQUIRE(one.place.has_value());
      found.push_back(one.place->file + ':' + std::to_string(one.place->line) + ':' +
                      std::to_string(one.place->column) + ' ' + one.code);
    }
  }
  const std::vector<std::string> planted = {"fleet.yaml:2:14 bad-number-of-days",
                                            "fleet.yaml:8:11 unknown-site",
                                            "fleet.yaml:9:22 bad-day",
                                            "fleet.yaml:10:5 unknown-key",
                                            "register.csv:2:16 unknown-schedule",
                                            "register.csv:3:1 duplicate-machine",
                                            "schedules/tractor.yaml:5:20 bad-number"};
  CHECK(joined(found) == joined(planted));
}

TEST_CASE("places are named with the folder in front, so that an editor can go there") {
  const service::FleetFiles files{"farms/skarvey", {{"fleet.yaml", "fleet: Test farm\n"}}};
  std::string said;
  try {
    service::read_fleet(files);
  } catch (const service::Failure& failure) {
    said = cli::diagnostics_to_text(failure.diagnostics(), "whichever");
  }
  CHECK(said.substr(0, said.find(": error")) == "farms/skarvey/fleet.yaml:1:1");
}
