// YAML that says less than it seems to, or never ends: each ends in a mistake with a place, never in fewer machines.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "service/fleet.h"
#include "unit/fleet/texts.h"

namespace {

using fleet_texts::codes_of;
using fleet_texts::one_task;

// line:column of the first mistake in fleet.yaml.
std::string first_place(std::string_view fleet) {
  try {
    service::read_fleet(fleet_texts::files_of(fleet, one_task));
  } catch (const service::Failure& failure) {
    const auto& place = failure.diagnostics().at(0).place;
    if (!place || place->file != "fleet.yaml") return "elsewhere";
    return std::to_string(place->line) + ':' + std::to_string(place->column);
  }
  return "none";
}

std::string repeated(std::string_view text, int times) {
  std::string all;
  for (; times > 0; --times) all += text;
  return all;
}

}  // namespace

TEST_CASE("odd YAML is refused, with its place") {
  struct Row {
    std::string_view fleet;
    std::string_view codes;
    std::string_view place;
  };
  const Row rows[] = {
      {"", "empty-file", "1:1"},
      {"# only\n# comments\n", "empty-file", "1:1"},
      {"---\n", "empty-file", "1:1"},
      {"~\n", "empty-file", "1:1"},
      {"\xEF\xBB\xBF", "empty-file", "1:1"},
      {",fleet:", "second-document", "1:1"},
      {",", "second-document", "1:1"},
      {"- id: a\n\"x\"\n- id: b\n", "second-document", "2:1"},
      {"- a\nfleet: b\n", "second-document", "2:1"},
      {"fleet: a\n---\nfleet: b\n", "second-document", "2:1"},
      {"fleet: a\n...\nfleet: b\n", "second-document", "3:1"},
      {"fleet: a\nmachines: {p: {schedule: pump}}\nfleet: b\n", "duplicate-key", "3:1"},
      {"fleet: a\nmachines: {p: {schedule: pump}, p: {schedule: pump}}\n", "duplicate-key", "2:33"},
      {"fleet: \"a\nmachines: {p: {schedule: pump}}\n", "unclosed-quote", "1:8"},
      {"fleet: 'a\nmachines: {p: {schedule: pump}}\n", "unclosed-quote", "1:8"},
      {"fleet: 'a''\nmachines: {p: {schedule: pump}}\n", "unclosed-quote", "1:8"},
      {"fleet: \"a\\\"\nmachines: {p: {schedule: pump}}\n", "unclosed-quote", "1:8"},
      {"fleet: \"a\nmachines: {p: {schedule: pump}}\ntime-zone: \"b\"\n", "unclosed-quote", "1:8"},
      {"{fleet: \"it's\", machines: {p: {schedule: pump, notes: 'x}}}\n", "unclosed-quote", "1:55"},
      {"fleet: a\nmachines: &m {p: {schedule: pump}}\n", "anchor-or-alias", "2:11"},
      {"fleet: a\nmachines: &m {p: *m}\n", "anchor-or-alias anchor-or-alias", "2:11"},
      {"&a [*a]\n", "anchor-or-alias not-a-map anchor-or-alias", "1:1"},
      {"fleet: *gone\n", "anchor-or-alias", "1:8"},
      {"fleet: !!str a\nmachines: {p: {schedule: pump}}\n", "explicit-tag", "1:8"},
      {"fleet: ! a\nmachines: {p: {schedule: pump}}\n", "explicit-tag", "1:8"},
      {"fleet: !!binary aGk=\nmachines: !!map {p: {schedule: pump}}\n", "explicit-tag explicit-tag", "1:8"},
      {"%YAML 3.0\n---\nfleet: a\n", "bad-yaml", "1:1"},
      {"fleet: a\nmachines:\n\tp: {schedule: pump}\n", "bad-yaml", "3:1"},
      {"fleet: a\nmachines: {p: {schedule: pump}\n", "bad-yaml", "3:1"},
      {"fleet: a\nmachines: {p: {schedule: pump}}}\n", "bad-yaml", "2:32"},
      {"fleet: @home\n", "bad-yaml", "1:8"},
      {"fleet: a\nmachines:\n  p: {schedule: pump}\n q: {schedule: pump}\n", "bad-yaml", "4:2"},
      {"fleet: a\nmachines: {p: {<<: {schedule: pump}}}\n", "missing-key unknown-key", "2:12"},
      {"fleet: a\n? [x]\n: y\nmachines: {p: {schedule: pump}}\n", "key-not-text", "2:3"},
      {"fleet: a\n: y\nmachines: {p: {schedule: pump}}\n", "key-not-text", "2:1"},
      {"fleet: a\nmachines: {p: {schedule: pump}, ~: {schedule: pump}}\n", "key-not-text", "2:33"},
      {"fleet: a\x01\n", "control-character", "1:9"},
      {"fleet: a\rmachines: {p: {schedule: pump}}\n", "control-character", "1:9"},
      {"fleet: a\x7F\n", "control-character", "1:9"},
      {"fleet: a\xC2\x85\n", "control-character", "1:9"},
      {"fleet: \"a\\x07b\"\nmachines: {p: {schedule: pump}}\n", "control-character", "1:8"},
      {"fleet: \"a\\0b\"\nmachines: {p: {schedule: pump}}\n", "control-character", "1:8"},
      {"fleet: \"a\\ud800b\"\nmachines: {p: {schedule: pump}}\n", "bad-yaml", "1:16"},
      {"fleet: \"a\\qb\"\nmachines: {p: {schedule: pump}}\n", "bad-yaml", "1:12"},
      {"fleet: S\xC3\xBC\xFF\n", "not-utf8", "1:10"},
      {"fleet: \xED\xA0\x80\n", "not-utf8", "1:8"},
      {"fleet:\nmachines: {p: {schedule: pump}}\n", "empty-value", "1:1"},
      {"fleet: null\nmachines: {p: {schedule: pump}}\n", "empty-value", "1:1"},
      {"fleet: a\nmachines:\n  p:\n  q: {schedule: pump}\n", "empty-value", "3:3"},
      {"- fleet\n", "not-a-map", "1:1"},
      {"fleet\n", "not-a-map", "1:1"},
  };
  for (const Row& row : rows) {
    const std::string fleet(row.fleet);
    CAPTURE(fleet);
    CHECK(codes_of(fleet, one_task) == std::string(row.codes));
    CHECK(first_place(fleet) == std::string(row.place));
  }
}

TEST_CASE("a forgotten quote does not swallow the machines up to the next quote") {
  const auto fleet_with = [](const std::string& quote) {
    return "fleet: a\nmachines:\n  p:\n    schedule: pump\n    notes: " + quote +
           "near the gate\n  q:\n    schedule: pump\n    notes: " + quote + "\n";
  };
  for (const std::string quote : {"\"", "'"}) {
    CAPTURE(quote);
    CHECK(codes_of(fleet_with(quote), one_task) == "unclosed-quote");
    CHECK(first_place(fleet_with(quote)) == "5:12");
  }
}

TEST_CASE("text that would never end, or fill the memory, is refused at once") {
  std::string bomb = "a: &a [x, x, x, x, x, x, x, x, x]\n";
  for (char c = 'b'; c <= 'm'; ++c) {
    const std::string before = std::string("*") + static_cast<char>(c - 1) + ", ";
    bomb += std::string(1, c) + ": &" + c + " [" + repeated(before, 8) + '*' + static_cast<char>(c - 1) + "]\n";
  }
  CHECK(codes_of(bomb, one_task).find("anchor-or-alias anchor-or-alias") != std::string::npos);
  CHECK(codes_of(repeated("[", 100'000), one_task) == "too-deep");
  CHECK(codes_of(repeated("[", 1'000'000), one_task) == "line-too-long");
  CHECK(codes_of(repeated("[\n", 100'000), one_task) == "too-deep");
  CHECK(codes_of(repeated("{a: ", 50'000), one_task) == "too-deep");
  CHECK(codes_of(repeated("- ", 50'000) + "a\n", one_task) == "too-deep");
  std::string stairs;
  for (std::size_t i = 0; i < 600; ++i) stairs += std::string(i, ' ') + "a:\n";
  CHECK(codes_of(stairs, one_task) == "too-deep");
}

TEST_CASE("depth of 32 is read and depth of 33 is not") {
  const auto nested = [](int depth) {
    return "fleet: a\nmachines: {p: {schedule: pump}}\nsites: " + repeated("[", depth - 1) + repeated("]", depth - 1) +
           '\n';
  };
  CHECK(codes_of(nested(32), one_task) == "not-a-map");
  CHECK(codes_of(nested(33), one_task) == "too-deep");
}

TEST_CASE("numbers are decimal and dates are text") {
  const auto fleet = fleet_texts::fleet_of(
      "fleet: 010\nmachines: {010: {schedule: pump, serial: 0x10, name: yes, in-service: {on: 2011-03-01, at: 010}}}\n",
      one_task);
  CHECK(fleet.name == "010");
  CHECK(fleet.machines.at(0).key == "010");
  CHECK(fleet.machines.at(0).serial == "0x10");
  CHECK(fleet.machines.at(0).name == "yes");
  CHECK(fleet.machines.at(0).start.at.value_or(service::Amount{}).hundredths == 1000);
}

TEST_CASE("a byte order mark, CR LF, a document marker and a directive do no harm") {
  CHECK(codes_of("\xEF\xBB\xBF"
                 "fleet: a\r\nmachines:\r\n  p: {schedule: pump}\r\n",
                 one_task) == "");
  CHECK(codes_of("---\nfleet: a\nmachines: {p: {schedule: pump}}\n...\n", one_task) == "");
  CHECK(codes_of("%YAML 1.2\n---\nfleet: a\nmachines: {p: {schedule: pump}}\n", one_task) == "");
  CHECK(codes_of("fleet: a\nmachines: {p: {schedule: pump}}", one_task) == "");
  CHECK(first_place("\xEF\xBB\xBF"
                    "fleet: a\nmachines: {p: {schedule: pmp}}\n") == "2:26");
  CHECK(first_place("\xEF\xBB\xBF"
                    "flet: a\r\nmachines: {p: {schedule: pump}}\n") == "1:1");
}

TEST_CASE("a block of text in a file with CR LF has plain line ends") {
  const auto fleet = fleet_texts::fleet_of(
      "fleet: a\r\nmachines:\r\n  p:\r\n    schedule: pump\r\n    notes: |\r\n      One.\r\n      Two.\r\n", one_task);
  CHECK(fleet.machines.at(0).notes == "One.\nTwo.\n");
}

TEST_CASE("quoted text may hold what plain text may not") {
  const auto fleet = fleet_texts::fleet_of(
      R"(fleet: "A: \"farm\" # 1"
machines:
  p: {schedule: pump, name: 'It''s a "pump"', notes: "tab\there"}
  q: {schedule: pump, name: it's plain, notes: a "quote" inside}
)",
      one_task);
  CHECK(fleet.name == "A: \"farm\" # 1");
  CHECK(fleet.machines.at(0).name == "It's a \"pump\"");
  CHECK(fleet.machines.at(0).notes == "tab\there");
  CHECK(fleet.machines.at(1).name == "it's plain");
  CHECK(fleet.machines.at(1).notes == "a \"quote\" inside");
}

TEST_CASE("columns count characters, and a mark is as wide as the value") {
  try {
    service::read_fleet(
        fleet_texts::files_of("fleet: a\nmachines: {p: {name: 'H\xC3\xBC"
                              "bsch', schedule: pmp }}\n",
                              one_task));
    FAIL("there is a mistake");
  } catch (const service::Failure& failure) {
    const service::Place& place = *failure.diagnostics().at(0).place;
    CHECK(place.line == 2);
    CHECK(place.column == 42);
    CHECK(place.width == 3);
    CHECK(place.text ==
          "machines: {p: {name: 'H\xC3\xBC"
          "bsch', schedule: pmp }}");
  }
}
