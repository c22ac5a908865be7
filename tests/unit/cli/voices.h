// A text of several people, and what became of each of its lines.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/field.h"

namespace cli_test {

// A fleet in which a leak was seen, and what became of the lines of a text: their fates, or the codes of why not.
class Voices : public Field {
 public:
  Voices() {
    must(*this, std::string("saw loader leak --on 2026-06-11") + as_of);
    // Read not long ago: the next reading takes nothing off a list.
    for (const char* pump : {"pump-3", "saw", "north", "south", "pump"}) {
      must(*this, std::string("reading ") + pump + " 15 --on 2026-05-01" + as_of);
    }
  }

  std::string fates(const std::string& text, const std::string& more = "") {
    input = text;
    run("import --messages - --dry-run --format json" + more + as_of);
    REQUIRE_MESSAGE(!out.empty(), err);
    answer = json::parse(out);
    std::string all;
    for (const json& line : answer["lines"]) {
      const bool wrong = !line["wrong"].empty();
      const std::string code = wrong ? line["wrong"][0]["code"] : line["fate"];
      const bool told = code == "untaken-beside" || code == "own-words-beside" || code == "seen-after" ||
                        code == "which-came-first" || code == "no-plain-sender" || code == "day-not-certain";
      all += (all.empty() ? "" : " ") + (told ? code : line["fate"].get<std::string>());
    }
    return all;
  }

  std::string hint(std::size_t line) { return answer["lines"][line]["wrong"][0]["hint"]; }
  bool has_command(std::size_t line) { return hint(line).find("whichever ") != std::string::npos; }
};

inline std::string at(const char* time, const std::string& text) {
  return std::string("[15.06.2026, ") + time + "] " + text + '\n';
}

}  // namespace cli_test
