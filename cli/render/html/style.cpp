#include "render/html/style.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cli {
namespace {

constexpr Theme light{{255, 255, 255}, {243, 243, 240}, {26, 26, 26}, {84, 84, 84}, {118, 118, 118}, {0, 0, 0}};
constexpr Theme dark{{22, 22, 22}, {38, 38, 38}, {236, 236, 236}, {186, 186, 186}, {120, 120, 120}, {0, 0, 0}};
constexpr Theme print{{255, 255, 255}, {255, 255, 255}, {0, 0, 0}, {60, 60, 60}, {100, 100, 100}, {0, 0, 0}};

constexpr std::pair<std::string_view, Ink> standings[] = {
    {"overdue", Ink::overdue}, {"due", Ink::due}, {"coming", Ink::coming}, {"no-record", Ink::no_record}};

std::string hex(const Colour& colour) {
  return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
}

std::string variables(const Theme& theme) {
  return fmt::format("--page: {}; --panel: {}; --ink: {}; --quiet: {}; --line: {}; --standing-ink: {};",
                     hex(theme.page), hex(theme.panel), hex(theme.ink), hex(theme.quiet), hex(theme.line),
                     hex(theme.standing_ink));
}

std::string standing_variables() {
  std::string text;
  for (const auto& [name, ink] : standings) text += fmt::format(" --{}: {};", name, hex(colour_of(ink)->exact));
  return text;
}

double linear(int channel) {
  const double share = channel / 255.0;
  return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
}

double luminance(const Colour& colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

// A page is read in the yard on a telephone and in the workshop on paper: one column, large enough, nothing that only
// a pointer can reach. Where a table is wider than the screen each of its rows becomes a block, its headings beside.
constexpr std::string_view shared_rules = R"css(
* { box-sizing: border-box; }
html { background: var(--page); text-size-adjust: 100%; -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; max-width: 60rem; padding: 1rem; color: var(--ink); background: var(--page);
  font: 1rem/1.45 system-ui, "Liberation Sans", sans-serif; overflow-wrap: anywhere; }
h1, h2, h3, h4 { line-height: 1.2; margin: 1.2em 0 .4em; text-wrap: balance; }
h1 { font-size: 1.6rem; margin-top: 0; }
h2 { font-size: 1.3rem; }
h3 { font-size: 1.1rem; }
h4 { font-size: 1rem; }
p, ul, ol, dl, table { margin: .4em 0; }
ul, ol { padding-left: 1.6em; }
dd { margin: 0; }
a { color: var(--ink); }
.quiet { color: var(--quiet); }
.panel { background: var(--panel); }
.num { text-align: right; font-variant-numeric: tabular-nums; }
table { border-collapse: collapse; width: 100%; }
caption { text-align: left; font-weight: bold; padding: .2rem 0; }
th, td { text-align: left; vertical-align: top; padding: .3rem .6rem .3rem 0; border-bottom: 1px solid var(--line); }
thead th { overflow-wrap: normal; }
th.num, td.num { text-align: right; }
.standing { display: inline-block; white-space: nowrap; font-weight: bold; font-size: .875rem; line-height: 1.3;
  padding: 0 .45em; border: 1.5px solid var(--ink); border-radius: 0 .6em .6em 0; }
.standing.overdue { background: var(--overdue); color: var(--standing-ink); }
.standing.due { background: var(--due); color: var(--standing-ink); }
.standing.coming { background: var(--coming); color: var(--standing-ink); }
.standing.no-record { background: var(--no-record); color: var(--standing-ink); }
.tick { display: inline-block; width: 1em; height: 1em; border: 1.5px solid var(--line); vertical-align: -.12em;
  margin-right: .35em; }
.blank { display: inline-block; min-width: 6em; border-bottom: 1.5px solid var(--line); height: 1.2em;
  vertical-align: baseline; }
svg.use { display: block; max-width: 100%; height: auto; }
.use .lane { fill: none; stroke: var(--line); }
.use .used { fill: var(--line); }
.use .rules { fill: var(--ink); stroke: var(--ink); }
.use .rules.overdue { fill: var(--overdue); }
.use .rules.due { fill: var(--due); }
.use .rules.coming { fill: var(--coming); }
.use .unknown { fill: none; stroke: var(--line); stroke-dasharray: 2 3; }
.use .guess { fill: none; stroke: var(--ink); stroke-dasharray: 3 2; }
.use .beyond { fill: var(--ink); stroke: var(--page); }
.use .notch { fill: var(--ink); }
.instead { font-weight: bold; font-size: .875rem; }
@media (max-width: 38rem) {
  table.stack thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
  table.stack, table.stack caption, table.stack tbody, table.stack tr, table.stack th, table.stack td { display: block; border: 0; }
  table.stack tr { border-bottom: 1px solid var(--line); padding: .4rem 0; }
  table.stack th, table.stack td, table.stack th.num, table.stack td.num { text-align: left; padding: .1rem 0; }
  table.stack td[data-label]::before { content: attr(data-label) ": "; color: var(--quiet); }
}
@page { margin: 17mm 13mm 14mm; font: 9pt system-ui, "Liberation Sans", sans-serif;
  @bottom-right { content: counter(page) " / " counter(pages); } }
@media print {
  html { font-size: 9.5pt; }
  body { max-width: none; padding: 0; line-height: 1.3; }
  .screen { display: none; }
  thead { display: table-header-group; }
  tr, li, .whole { break-inside: avoid; }
  h1, h2, h3, h4, caption { break-after: avoid; }
  .standing.overdue, .standing.due, .standing.coming, .standing.no-record { background: none; color: var(--ink); }
  .use .rules, .use .rules.overdue, .use .rules.due, .use .rules.coming { fill: var(--ink); }
}
)css";

}  // namespace

const Theme& light_theme() { return light; }
const Theme& dark_theme() { return dark; }
const Theme& print_theme() { return print; }

std::vector<ColourPair> pairs_of(const Theme& theme) {
  std::vector<ColourPair> pairs;
  for (const auto& [where, behind] : {std::pair{"page", theme.page}, std::pair{"panel", theme.panel}}) {
    const bool page = std::string_view(where) == "page";
    pairs.push_back({page ? "ink on page" : "ink on panel", theme.ink, behind});
    pairs.push_back({page ? "quiet on page" : "quiet on panel", theme.quiet, behind});
    pairs.push_back({page ? "line on page" : "line on panel", theme.line, behind, false});
    pairs.push_back({page ? "outline on page" : "outline on panel", theme.ink, behind, false});
  }
  pairs.push_back({"ink on line", theme.ink, theme.line, false});  // the middle of a band
  if (theme.page == theme.panel) return pairs;                     // on paper standings have no ground
  for (const auto& [name, ink] : standings) pairs.push_back({name, theme.standing_ink, colour_of(ink)->exact});
  return pairs;
}

double contrast(const Colour& a, const Colour& b) {
  const double one = luminance(a) + 0.05;
  const double other = luminance(b) + 0.05;
  return std::max(one, other) / std::min(one, other);
}

std::string style_sheet() {
  return fmt::format(
             ":root {{ color-scheme: light dark; {}{} }}\n"
             "@media screen and (prefers-color-scheme: dark) {{ :root {{ {} }} }}\n"
             "@media print {{ :root {{ color-scheme: light; {} }} }}",
             variables(light), standing_variables(), variables(dark), variables(print)) +
         std::string(shared_rules);
}

}  // namespace cli
