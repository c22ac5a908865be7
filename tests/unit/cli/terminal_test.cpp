// Widths, tables, wrapping, colours and bars.
#include <doctest/doctest.h>

#include <map>

#include "parser.h"
#include "service/base.h"
#include "terminal/bars.h"
#include "terminal/fold.h"
#include "terminal/look.h"
#include "terminal/table.h"
#include "terminal/width.h"
#include "terminal/wrap.h"

namespace {

struct Setting {
  std::map<std::string, std::string> variables = {};
  bool terminal = true;
  int columns = 0;
  std::string color = {};
};

cli::Look look(const Setting& setting) {
  cli::World world;
  world.variable = [&](const std::string& name) -> std::optional<std::string> {
    const auto found = setting.variables.find(name);
    return found == setting.variables.end() ? std::nullopt : std::optional(found->second);
  };
  world.terminal = setting.terminal;
  world.columns = setting.columns;
  cli::Arguments arguments;
  if (!setting.color.empty()) arguments.options["color"] = {setting.color};
  return cli::look_of(world, arguments);
}

std::string without_colour(const std::string& text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\x1b') {
      i = text.find('m', i);
    } else {
      plain += text[i];
    }
  }
  return plain;
}

cli::PairedBars bars(std::optional<double> use, std::optional<double> time) {
  cli::PairedBars made;
  made.use = {true, use, true};
  made.time = {true, time, false};
  made.ink = cli::Ink::overdue;
  return made;
}

}  // namespace

TEST_CASE("width counts what people see") {
  CHECK(cli::width("") == 0);
  CHECK(cli::width("loader") == 6);
  CHECK(cli::width("Ä") == 1);
  CHECK(cli::width("A\xCC\x88") == 1);  // A and a combining diaeresis
  CHECK(cli::width("漢字") == 4);
  CHECK(cli::width("한") == 2);
  CHECK(cli::width("कि") == 1);  // a letter with its vowel sign
  CHECK(cli::width("🚜") == 2);
  CHECK(cli::width("🇳🇴") == 2);  // two letters that make one flag
  CHECK(cli::width("·") == 1);
  CHECK(cli::width("a\xFFz") == 3);  // a byte that is no text
}

TEST_CASE("columns line up in any script") {
  const std::string text = cli::table({{"Ä", "1"}, {"漢字", "2"}, {"A\xCC\x88quator", "3"}, {"plain", "4"}}, "", 0);
  CHECK(text == "Ä        1\n漢字     2\nA\xCC\x88quator  3\nplain    4\n");
  CHECK(cli::table({{"a", "", "b"}, {"c", "", "d"}}, "", 0) == "a  b\nc  d\n");
  CHECK(cli::padded("漢", 4) == "漢  ");
  CHECK(cli::padded_left("7", 3) == "  7");
  CHECK(cli::padded("longer", 3) == "longer");
}

TEST_CASE("text wraps at blanks and keeps long words whole") {
  CHECK(cli::wrapped("> ", "one two three", 30, 2) == "> one two three\n");
  CHECK(cli::wrapped("> ", "one two three four five six seven eight", 25, 2) ==
        "> one two three four five\n  six seven eight\n");
  CHECK(cli::wrapped("", "no limit at all here", 0, 0) == "no limit at all here\n");
  const auto lines = cli::wrapped_lines("a verylongword b", 5);
  REQUIRE(lines.size() == 3);
  CHECK(lines[1] == "verylongword");
  CHECK(cli::wrapped_lines("", 5).empty());
  // A number stays with what it counts.
  CHECK((cli::wrapped_lines("used 22.3 h of 500 h", 9) == std::vector<std::string>{"used", "22.3 h of", "500 h"}));
  CHECK((cli::wrapped_lines("about 7", 9) == std::vector<std::string>{"about 7"}));
}

TEST_CASE("who decides about colours") {
  CHECK(look({}).colour);
  CHECK_FALSE(look({.terminal = false}).colour);
  CHECK_FALSE(look({.variables = {{"NO_COLOR", "1"}}}).colour);
  CHECK(look({.variables = {{"NO_COLOR", ""}}}).colour);  // only a value counts
  CHECK_FALSE(look({.variables = {{"TERM", "dumb"}}}).colour);
  CHECK_FALSE(look({.color = "never"}).colour);
  CHECK(look({.variables = {{"NO_COLOR", "1"}}, .terminal = false, .color = "always"}).colour);
  CHECK(look({.variables = {{"COLORTERM", "truecolor"}}}).exact_colour);
  CHECK_FALSE(look({}).exact_colour);
}

TEST_CASE("bars are drawn on terminals, with lines where the text is UTF-8") {
  CHECK(look({.variables = {{"LANG", "nb_NO.UTF-8"}}}).line_drawing);
  CHECK(look({.variables = {{"LANG", "C"}, {"LC_ALL", "C.utf8"}}}).line_drawing);
  CHECK_FALSE(look({.variables = {{"LANG", "C.UTF-8"}, {"LC_ALL", "C"}}}).line_drawing);
  CHECK_FALSE(look({}).line_drawing);
  CHECK(look({.variables = {{"NO_COLOR", "1"}}}).drawn);
  CHECK_FALSE(look({.terminal = false}).drawn);
  CHECK(look({.columns = 132}).columns == 132);
  CHECK(look({.variables = {{"COLUMNS", "200"}}}).columns == 200);
  CHECK(look({.variables = {{"COLUMNS", "wide"}}}).columns == 80);
  CHECK(look({.terminal = false}).columns == 80);
}

TEST_CASE("colours wrap text and never stay on") {
  cli::Look colours;
  colours.colour = true;
  CHECK(cli::painted(colours, cli::Ink::overdue, "overdue") == "\x1b[38;5;166moverdue\x1b[0m");
  colours.exact_colour = true;
  CHECK(cli::painted(colours, cli::Ink::overdue, "overdue") == "\x1b[38;2;213;94;0moverdue\x1b[0m");
  CHECK(cli::painted(colours, cli::Ink::plain, "later") == "later");
  CHECK(cli::painted(cli::Look{}, cli::Ink::overdue, "overdue") == "overdue");
}

TEST_CASE("bars stand on one scale with a stroke where the interval ends") {
  const cli::Look ascii;
  CHECK(cli::use_bar(ascii, bars(0.5, 0.25), 12) == "====----|   ");
  CHECK(cli::time_bar(ascii, bars(0.5, 0.25), 12) == "==------|   ");
  CHECK(cli::use_bar(ascii, bars(0, 0), 12) == "--------|   ");
  CHECK(cli::use_bar(ascii, bars(1.0, 0), 12) == "========|   ");
  CHECK(cli::use_bar(ascii, bars(0.999, 0), 12) == "=======-|   ");  // not there yet is never drawn as there
  CHECK(cli::use_bar(ascii, bars(1.01, 0), 12) == "========|=  ");   // any overrun shows
  CHECK(cli::use_bar(ascii, bars(9.0, 0), 12) == "========|==>");
  CHECK(cli::use_bar(ascii, bars(std::nullopt, 0), 12) == "????????|   ");
  cli::PairedBars only_time = bars(0.5, 0.5);
  only_time.use.there = false;
  CHECK(cli::use_bar(ascii, only_time, 12) == std::string(12, ' '));
}

TEST_CASE("what an estimate adds is drawn apart, and what rules otherwise stands in place of the bars") {
  const cli::Look ascii;
  cli::PairedBars guess = bars(0.5, 0.25);
  guess.use.estimate = 0.75;
  CHECK(cli::use_bar(ascii, guess, 12) == "====~~--|   ");
  guess.use.estimate = 1.25;
  CHECK(cli::use_bar(ascii, guess, 12) == "====~~~~|~~ ");
  guess.use.share = 1.125;
  CHECK(cli::use_bar(ascii, guess, 12) == "========|=~ ");
  guess.use.share = 0;
  guess.use.estimate = 3.77;
  CHECK(cli::use_bar(ascii, guess, 12) == "~~~~~~~~|~~>");
  cli::Look lines;
  lines.line_drawing = true;
  guess.use.share = 0.5;
  CHECK(cli::both_bars(lines, guess, 12) == "██▀▀░░░░┃░░░");
  guess.instead = "measured";
  CHECK(cli::use_bar(ascii, guess, 12) == "measured    ");
  CHECK(cli::time_bar(ascii, guess, 12) == std::string(12, ' '));
  CHECK(cli::both_bars(lines, guess, 12) == "measured    ");
}

TEST_CASE("both bars share the cells of one line") {
  cli::Look lines;
  lines.line_drawing = true;
  CHECK(cli::both_bars(lines, bars(0.5, 0.25), 12) == "██▀▀····┃   ");
  CHECK(cli::both_bars(lines, bars(0.25, 1.5), 12) == "██▄▄▄▄▄▄┃▄▄▄");
  CHECK(cli::both_bars(lines, bars(std::nullopt, 0), 12) == "????????┃   ");
  lines.colour = true;
  CHECK(without_colour(cli::both_bars(lines, bars(0.5, 0.25), 12)) == "▀▀▀▀····┃   ");
  for (const double share : {0.0, 0.1, 0.5, 0.99, 1.0, 1.01, 1.3, 40.0}) {
    CHECK(cli::width(without_colour(cli::both_bars(lines, bars(share, share / 2), 24))) == 24);
    CHECK(cli::width(without_colour(cli::use_bar(lines, bars(share, share / 2), 17))) == 17);
  }
}

TEST_CASE("a table keeps to its columns by folding the widest of them") {
  const std::vector<cli::Row> rows{
      {"machine", "what it says"}, {"combine", "one two three four five"}, {"pump", "short"}};
  CHECK(cli::table(rows, "", 0) == "machine  what it says\ncombine  one two three four five\npump     short\n");
  CHECK(cli::table(rows, "", 32) == cli::table(rows, "", 0));
  CHECK(cli::table(rows, "", 23) ==
        "machine  what it says\ncombine  one two three\n         four five\npump     short\n");
  // A number stays with what it counts, and no word is broken.
  CHECK(cli::table({{"a", "12 months left"}}, " ", 13) == " a  12 months\n    left\n");
}

TEST_CASE("columns that leave no room stand below") {
  const std::vector<cli::Row> rows{{"tractor-big", "engine-oil", "hydraulic-oil", "yard"}};
  CHECK(cli::table(rows, "", 26) == "tractor-big  engine-oil\n    hydraulic-oil · yard\n");
}

TEST_CASE("lines that are wider than the terminal go on below") {
  CHECK(cli::folded("short\n  one two three four\n", 12) == "short\n  one two\n      three\n      four\n");
  CHECK(cli::folded("one two three", 0) == "one two three");
  CHECK(cli::folded("unbreakable-word-that-is-wide\n", 12) == "unbreakable-word-that-is-wide\n");
  CHECK(cli::folded("漢字 漢字 漢字 漢字\n", 10) == "漢字 漢字\n    漢字\n    漢字\n");
}

TEST_CASE("colours take no columns") {
  CHECK(cli::width("\x1b[38;5;166moverdue\x1b[0m") == 7);
  CHECK(cli::width("\x1b[1m") == 0);
  CHECK(cli::width("a\x1b[") > 1);  // no colour: a terminal would show something
}

TEST_CASE("a command that somebody may copy stays in one piece") {
  const auto lines = cli::wrapped_lines("six tasks; to fill in: whichever find-out tractor-yard", 40);
  REQUIRE(lines.size() == 2);
  CHECK(lines[1] == "whichever find-out tractor-yard");
  CHECK(cli::wrapped_lines("one whichever due; two three", 20).back() == "two three");
  // One that is too long for that breaks like any text.
  CHECK(cli::wrapped_lines("whichever done combine engine-oil knife --at 2162.5 --by somebody", 40).size() == 2);
  // But never inside quotes, where a line end would become one of the words.
  CHECK((cli::wrapped_lines("looked: whichever looked pump \"rod loose, keep it parked\" --note \"...\"; then rest",
                            40) == std::vector<std::string>{"looked: whichever looked pump",
                                                            "\"rod loose, keep it parked\" --note",
                                                            "\"...\"; then rest"}));
  CHECK((cli::wrapped_lines("whichever looked pump 'it'\\''s loose and bent' --by WHO. He said \"not yet, or so\"",
                            30) == std::vector<std::string>{"whichever looked pump", "'it'\\''s loose and bent' --by",
                                                            "WHO. He said \"not yet, or so\""}));
}
