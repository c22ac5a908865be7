#include "render/sheet/paper.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/label_words.h"
#include "render/sheet/words.h"
#include "service/cautions.h"

namespace cli {

// A machine's page begins with its plate, as the machine itself does: a double frame with what is stamped into it. What
// is done goes down one ruled margin on the left, with a box to tick for each step and the number of the task in the
// margin, so that a thumb finds its place again.
std::string_view paper_rules() {
  return R"css(
.plate { border: 3px double var(--ink); padding: .6rem .8rem; margin: 0 0 .8rem; }
.plate h1 { margin: 0; display: flex; flex-wrap: wrap; gap: 0 1rem; justify-content: space-between;
  align-items: baseline; }
.plate h1 .day { font-size: 1.1rem; font-variant-numeric: tabular-nums; }
.cells { display: flex; flex-wrap: wrap; gap: .3rem 1.6rem; margin: .4rem 0 0; padding: 0; list-style: none; }
.cells .quiet { font-size: .875rem; }
.stop { border: 4px solid var(--ink); font-weight: bold; font-size: 1.15rem; padding: .4rem .6rem; margin: .5rem 0; }
.sheet { margin-bottom: 3rem; }
.sheet h2 { border-top: 2px solid var(--ink); padding-top: .35rem; }
.steps { columns: 2; column-gap: 2.2rem; }
.steps li { break-inside: avoid; }
.cautions { list-style: none; padding: 0; }
.cautions li { margin: .35rem 0; padding-left: .7rem; border-left: 4px solid var(--ink); }
.task { display: grid; grid-template-columns: 2.4rem minmax(0, 1fr); border-left: 1.5px solid var(--ink);
  margin: .9rem 0; }
.task .no { font-size: 1.5rem; font-weight: bold; line-height: 1.1; text-align: center; }
.task h3 { margin: 0 0 .2rem; }
.task .why { display: flex; flex-wrap: wrap; align-items: center; gap: .3rem .8rem; margin: .25rem 0; }
.task .why p { margin: 0; flex: 1 1 14rem; }
.todo { list-style: none; padding: 0; margin: .35rem 0; }
.todo li { display: grid; grid-template-columns: 1.6em minmax(0, 1fr); margin: .25rem 0; }
.todo .tick { margin-top: .2em; }
.task h4 { margin: .5rem 0 .1rem; }
.marks { font-weight: bold; }
.gate { font-weight: bold; border: 2px solid var(--ink); padding: .2rem .5rem; margin: .35rem 0; }
.doubt { font-size: .875rem; font-weight: bold; }
.fill { display: flex; flex-wrap: wrap; gap: .5rem 1.4rem; margin: .5rem 0; }
.finish { display: flex; flex-wrap: wrap; gap: 0 1.6rem; justify-content: space-between; align-items: flex-end; }
.label { border: 1.5px dashed var(--line); padding: .4rem .6rem; margin: .5rem 0; max-width: 30rem; }
.label p { margin: .15rem 0; font-variant-numeric: tabular-nums; }
.sign { margin-top: 1.4rem; }
.command { font-family: ui-monospace, "Liberation Mono", monospace; font-size: .875rem; }
th .quiet { font-weight: normal; }
.read { table-layout: fixed; }
.read th:nth-child(1) { width: 32%; }
.read th:nth-child(2) { width: 15%; }
.read .blank { min-width: 5.5em; }
.read td { height: 2.6rem; }
.read td, .read tbody th { vertical-align: bottom; }
@media (max-width: 38rem) {
  .steps { columns: 1; }
  .read td { height: auto; }
  .read th:nth-child(1), .read th:nth-child(2) { width: auto; }
}
@media print {
  .sheet { margin-bottom: 0; }
  .blank.name { min-width: 45mm; }
  .blank.value { min-width: 30mm; }
  .blank.when { min-width: 25mm; }
  .read td { height: 10mm; }
  .sheet h2 { margin-top: .6em; font-size: 1.15rem; }
  .cautions { columns: 2; column-gap: 6mm; font-size: .875rem; line-height: 1.3; }
  .cautions li { margin: 0 0 .35rem; }
  .task { margin: .6rem 0; }
  .task p, .fill { margin: .2rem 0; }
  .task .head, .finish { break-inside: avoid; }
  .task .head, .order { break-after: avoid; }
}
)css";
}

void add_steps_before(const Element& parent) {
  const Element steps = parent.add("ol", "steps");
  for (const std::string_view step : service::base_cautions().steps) steps.add("li").say(step);
}

// What is drawn by rules alone holds a blank: what is empty may be left out by whoever reads the page.
constexpr std::string_view no_break_space = "\u00a0";

void add_tick(const Element& parent) { parent.add("span", "tick").say(no_break_space); }

void add_blank(const Element& parent, std::string_view unit, std::string_view kind) {
  parent.add("span", kind.empty() ? "blank" : fmt::format("blank {}", kind)).say(no_break_space);
  if (!unit.empty()) parent.say(fmt::format(" {}", unit));
}

void add_doubts(const Element& parent, const service::SheetMeter& meter, const std::string& command) {
  for (const MeterDoubt& doubt : doubts_of(meter, command)) {
    parent.add("div", "doubt").say(doubt.say);
    if (!doubt.if_less.empty()) parent.add("div", "quiet").say(doubt.if_less);
  }
}

void say_with_blanks(const Element& parent, std::string_view text) {
  while (!text.empty()) {
    const std::size_t day = text.find(blank_day);
    const std::size_t at = std::min(day, text.find(blank_value));
    parent.say(text.substr(0, at));
    if (at == std::string_view::npos) return;
    add_blank(parent, {}, at == day ? "when" : "value");
    text.remove_prefix(at + (at == day ? blank_day : blank_value).size());
  }
}

Element add_section(const Element& parent, std::string_view heading, std::string_view kinds) {
  Element section = parent.add("section", kinds);
  section.add("h2").say(heading);
  return section;
}

void add_line(const Element& parent, std::string_view name, std::string_view text) {
  if (text.empty()) return;
  const Element line = parent.add("p");
  line.add("b").say(name);
  line.say(" ").say(text);
}

}  // namespace cli
