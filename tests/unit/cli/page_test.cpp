// Pages of HTML: what is said in them stays text, tags come out whole, and what is written can be read.
#include "render/html/page.h"

#include <doctest/doctest.h>

#include "render/html/style.h"
#include "render/html/use_bars.h"

using cli::Element;
using cli::Page;

namespace {

bool holds(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("a page says what it is, and lets nothing in") {
  const std::string text = Page({"Job sheet", "Fleet"}).text();
  CHECK(text.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"));
  CHECK(holds(text, "<meta charset=\"utf-8\""));
  CHECK(holds(text, "name=\"viewport\" content=\"width=device-width, initial-scale=1\""));
  CHECK(holds(text, "content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\""));
  CHECK(holds(text, "<title>Job sheet</title>"));
  CHECK_FALSE(holds(text, "<script"));
  CHECK_FALSE(holds(text, "http:"));
  CHECK_FALSE(holds(text, "https:"));
}

TEST_CASE("text and attributes stay text") {
  const std::string hostile = "</style><script>alert('1')</script> \"&\" \x1b[31m";
  Page page({hostile, hostile});
  const Element section = page.body().add("section").with("title", hostile).say(hostile);
  page.on_pages_of_its_own(section, hostile);
  const std::string text = page.text();
  CHECK_FALSE(holds(text, "<script"));
  CHECK_FALSE(holds(text, "\x1b"));
  CHECK(text.find("</style>") == text.rfind("</style>"));
  CHECK(holds(text, "&lt;/style&gt;&lt;script&gt;alert('1')&lt;/script&gt; \"&amp;\""));
  CHECK(holds(text, "title=\"&lt;/style>&lt;script>alert('1')&lt;/script> &quot;&amp;&quot; "));
}

TEST_CASE("what holds nothing has an end tag, unless it can have none") {
  Page page({"t", "t"});
  page.body().add("div", "a b");
  page.body().add("br");
  page.body().add("p").say("");
  const std::string text = page.text();
  CHECK(holds(text, "<div class=\"a b\"></div>"));
  CHECK(holds(text, "<p></p>"));
  CHECK(holds(text, "<br />"));
  CHECK(text == page.text());  // writing it changes nothing
}

TEST_CASE("texts and elements in a line stay in a line") {
  Page page({"t", "t"});
  const Element line = page.body().add("p").say("at ");
  line.add("b").say("250 h");
  line.say(", not later");
  CHECK(holds(page.text(), "<p>at <b>250 h</b>, not later</p>"));
}

TEST_CASE("a string of a style sheet ends where it is to end") {
  CHECK(cli::css_string("Big tractor, 2026-06-15") == "\"Big tractor, 2026-06-15\"");
  CHECK(cli::css_string("a\"b\\c") == "\"a\\000022 b\\00005c c\"");
  CHECK(cli::css_string("</style>\n") == "\"\\00003c \\00002f style\\00003e \\00000a \"");
  CHECK(cli::css_string("Süd") == "\"Süd\"");
}

TEST_CASE("the style sheet comes through a page as it is") {
  CHECK(cli::style_sheet().find_first_of("<>&") == std::string::npos);
  CHECK(holds(Page({"t", "t"}).text(), cli::style_sheet()));
}

// Values that the recommendation and its readers give for pairs of colours.
TEST_CASE("contrast") {
  CHECK(cli::contrast({0, 0, 0}, {255, 255, 255}) == doctest::Approx(21));
  CHECK(cli::contrast({255, 255, 255}, {255, 255, 255}) == doctest::Approx(1));
  CHECK(cli::contrast({118, 118, 118}, {255, 255, 255}) == doctest::Approx(4.54).epsilon(0.001));
  CHECK(cli::contrast({255, 0, 0}, {255, 255, 255}) == doctest::Approx(4.00).epsilon(0.001));
}

TEST_CASE("what is written can be read, what is drawn can be seen, by day, by night and on paper") {
  for (const cli::Theme* theme : {&cli::light_theme(), &cli::dark_theme(), &cli::print_theme()}) {
    for (const cli::ColourPair& pair : pairs_of(*theme)) {
      CAPTURE(pair.what);
      CHECK(contrast(pair.front, pair.behind) >= (pair.text ? 4.5 : 3.0));
    }
  }
  CHECK(pairs_of(cli::dark_theme()).size() == 13);
  CHECK((cli::print_theme().page == cli::Colour{255, 255, 255}));
  CHECK((cli::print_theme().ink == cli::Colour{0, 0, 0}));
}

TEST_CASE("paired bars on a page are those of the terminal") {
  Page page({"t", "t"});
  cli::PairedBars bars;
  bars.use = {true, 1.25, true};
  bars.time = {true, 0.5, false};
  bars.ink = cli::Ink::overdue;
  add_use_bars(page.body(), bars, "12.5 h over");
  const std::string text = page.text();
  CHECK(holds(text, "<title>12.5 h over</title>"));
  CHECK(holds(text, "<rect class=\"rules overdue\" x=\"0.5\" y=\"3.5\" width=\"149.0\""));
  CHECK(holds(text, "<rect class=\"used\" x=\"0.5\" y=\"13.5\" width=\"59.0\""));
  CHECK_FALSE(holds(text, "class=\"guess\""));
  // An estimate is outlined behind what is known; an arrow where it goes on beyond the edge.
  bars.use = {true, 0.5, true, 3.77};
  Page guess({"t", "t"});
  add_use_bars(guess.body(), bars, "by estimate");
  CHECK(holds(guess.text(), "<rect class=\"rules overdue\" x=\"0.5\" y=\"3.5\" width=\"59.0\""));
  CHECK(holds(guess.text(), "<rect class=\"guess\" x=\"60.5\" y=\"3.5\" width=\"119.0\""));
  CHECK(holds(guess.text(), "class=\"beyond\""));
  // What neither use nor time rules has no bar that looks as if time were left.
  bars.instead = "measured";
  Page other({"t", "t"});
  add_use_bars(other.body(), bars, "by a measurement");
  CHECK_FALSE(holds(other.text(), "<svg"));
  CHECK(holds(other.text(), "rules: measured"));
  Page empty({"t", "t"});
  add_use_bars(empty.body(), {}, "nothing");
  CHECK_FALSE(holds(empty.text(), "<svg"));
}
