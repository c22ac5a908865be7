// What tests ask a place about, beside its lists.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/place.h"

namespace cli_test {

// Commands that only prepare the ground.
inline void must(Place& place, const std::string& line) {
  const bool ran = place.run(line) == 0;
  REQUIRE_MESSAGE(ran, (line + "\n" + place.err));
}

// What a question answers as data.
inline nlohmann::json json_of(Place& place, const std::string& line) {
  must(place, line + " --format json");
  return nlohmann::json::parse(place.out);
}

// The whole record, as export writes it.
inline std::string book(Place& place) {
  must(place, "export");
  return place.out;
}

// The record as it stands, under another name; and that one in its place again.
inline void put_aside(const Place& place, const std::string& name) {
  std::filesystem::copy_file(place.folder / "record.db", place.folder / name);
}

inline void take_out(const Place& place, const std::string& name) {
  std::filesystem::copy_file(place.folder / name, place.folder / "record.db",
                             std::filesystem::copy_options::overwrite_existing);
}

// ASCII as UTF-16 with a byte order mark.
inline std::string utf16(const std::string& text, bool little) {
  std::string out = little ? "\xff\xfe" : "\xfe\xff";
  for (const char c : text) {
    if (!little) out += '\0';
    out += c;
    if (little) out += '\0';
  }
  return out;
}

// What `line`, a form of check, finds.
inline nlohmann::json findings(Place& place, const std::string& line, int status) {
  CHECK(place.run(line + " --format json") == status);
  return nlohmann::json::parse(place.out)["findings"];
}

inline bool has(const nlohmann::json& findings, const std::string& code) {
  return std::any_of(findings.begin(), findings.end(), [&](const auto& finding) { return finding["code"] == code; });
}

}  // namespace cli_test
