// What tests ask a place about, beside its lists.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

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

// What it answers as rows of CSV, by the names of their columns.
inline std::vector<std::map<std::string, std::string>> rows_of(Place& place, const std::string& line) {
  must(place, line + " --format csv");
  std::vector<std::vector<std::string>> lines{{""}};
  bool quoted = false;
  for (const char c : place.out) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      lines.back().emplace_back();
    } else if (c == '\n' && !quoted) {
      lines.push_back({""});
    } else if (c != '\r') {
      lines.back().back() += c;
    }
  }
  std::vector<std::map<std::string, std::string>> rows;
  for (std::size_t i = 1; i < lines.size(); ++i) {
    if (lines[i].size() != lines[0].size()) continue;
    auto& row = rows.emplace_back();
    for (std::size_t k = 0; k < lines[i].size(); ++k) row[lines[0][k]] = lines[i][k];
  }
  return rows;
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
