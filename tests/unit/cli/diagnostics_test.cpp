// How mistakes look to people.
#include "render/shared/diagnostics.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

namespace {

using service::Diagnostic;
using service::Place;
using service::Severity;

std::string shown(const Diagnostic& diagnostic) {
  return cli::diagnostics_to_text(std::vector<Diagnostic>{diagnostic}, "whichever");
}

Diagnostic at(Place place) { return {"bad-day", "no day", "", std::move(place)}; }

}  // namespace

TEST_CASE("a mistake is shown with its place, its line, a mark and a hint") {
  CHECK(shown({"bad-day", "\"May 1\" is no day", "write 2024-05-01", Place{"fleet.yaml", 14, 9, 5, "    on: May 1"}}) ==
        "fleet.yaml:14:9: error: \"May 1\" is no day\n"
        " 14 |     on: May 1\n"
        "    |         ^^^^^\n"
        "hint: write 2024-05-01\n");
}

TEST_CASE("without a place or a hint less is shown") {
  CHECK(shown({"no-fleet-file", "there is no fleet.yaml", ""}) == "error: there is no fleet.yaml\n");
  CHECK(shown({"wrong-suffix", "wrong", "rename it", Place{"schedules/a.yml", 0, 0, 0, ""}}) ==
        "schedules/a.yml: error: wrong\nhint: rename it\n");
  CHECK(shown({"x", "empty line", "", Place{"a.yaml", 3, 1, 1, ""}}) == "a.yaml:3:1: error: empty line\n");
}

TEST_CASE("a remark is called one") {
  CHECK(shown({"part-not-used", "not used", "", std::nullopt, Severity::remark}) == "remark: not used\n");
}

TEST_CASE("a blank line stands between two mistakes") {
  const std::vector<Diagnostic> two = {{"a", "one", ""}, {"b", "two", "do it"}};
  CHECK(cli::diagnostics_to_text(two, "whichever") == "error: one\n\nerror: two\nhint: do it\n");
  CHECK(cli::diagnostics_to_text({}, "whichever") == "");
}

TEST_CASE("the mark stands under its text whatever the width of the characters") {
  // A tab is one blank; the two ideographs are two columns each; the accent is a character without a width.
  CHECK(shown(at({"f", 1, 6, 1, "\t\xE8\xBE\xB2\xE5\xA0\xB4: x"})) ==
        "f:1:6: error: no day\n 1 |  \xE8\xBE\xB2\xE5\xA0\xB4: x\n   |        ^\n");
  CHECK(shown(at({"f", 1, 2, 2, "a\xE8\xBE\xB2\xE5\xA0\xB4"})) ==
        "f:1:2: error: no day\n 1 | a\xE8\xBE\xB2\xE5\xA0\xB4\n   |  ^^^^\n");
  CHECK(shown(at({"f", 1, 4, 1, "e\xCC\x81: x"})) == "f:1:4: error: no day\n 1 | e\xCC\x81: x\n   |   ^\n");
}

TEST_CASE("control characters and turned text from files do not reach the terminal") {
  const std::string text =
      shown({"c", "a \x1B[31m word", "h\x07", Place{"f\x1B.yaml", 1, 1, 1, "\x1B]0;t\x07 \xE2\x80\xAE x"}});
  CHECK(text.find('\x1B') == std::string::npos);
  CHECK(text.find('\x07') == std::string::npos);
  CHECK(text.find("\xE2\x80\xAE") == std::string::npos);
}

TEST_CASE("a mark beyond the end of the line stands at its end") {
  CHECK(shown(at({"f", 1, 40, 9, "short"})) == "f:1:40: error: no day\n 1 | short\n   |      ^\n");
}

TEST_CASE("of a long line only what is around the place is shown") {
  const std::string before(200, 'a');
  const std::string after(200, 'b');
  const std::string text = shown(at({"f", 1, 201, 4, before + "WORD" + after}));
  const std::string expected = "f:1:201: error: no day\n 1 | ..." + before.substr(0, 40) + "WORD" +
                               after.substr(0, 56) + "...\n   | " + std::string(43, ' ') + "^^^^\n";
  CHECK(text == expected);
  const std::string early = shown(at({"f", 1, 1, 1, before}));
  CHECK(early == "f:1:1: error: no day\n 1 | " + before.substr(0, 100) + "...\n   | ^\n");
  const std::string late = shown(at({"f", 1, 200, 1, before}));
  CHECK(late == "f:1:200: error: no day\n 1 | ..." + before.substr(0, 41) + "\n   | " + std::string(43, ' ') + "^\n");
  const std::string wide_mark = shown(at({"f", 1, 1, 300, before + after}));
  CHECK(wide_mark ==
        "f:1:1: error: no day\n 1 | " + before.substr(0, 100) + "...\n   | " + std::string(100, '^') + '\n');
}
