// The meters to read on a walk round, as a page of HTML: a row a meter, high enough to write in.
#include <fmt/format.h>

#include "render/shared/headings.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "render/sheet/paper.h"
#include "render/sheet/sheet.h"
#include "render/sheet/words.h"
#include "service/cautions.h"

namespace cli {
namespace {

void add_rows(const Element& rows, const service::RoundMachine& machine, const std::string& command) {
  for (const service::SheetMeter& meter : machine.meters) {
    const Element row = rows.add("tr");
    const Element name = row.add("th").with("scope", "row").say(name_of(*machine.machine));
    for (const std::string& line : stands_words(machine)) name.add("div", "quiet").say(line);
    row.add("td").with("data-label", "Meter").say(meter.meter->name);
    const Element last = row.add("td").with("data-label", "Showed last").say(last_words(meter));
    add_doubts(last, meter, command);
    add_blank(row.add("td").with("data-label", "Shows today"), meter.meter->unit, "value");
  }
}

void add_site(const Element& parent, const service::RoundSite& site, const std::string& command) {
  const Element section =
      add_section(parent, site.site == nullptr ? std::string("Without a site") : site_of(*site.site));
  if (site.site != nullptr) {
    add_line(section, "Access:", site.site->access);
    add_line(section, "Contact:", site.site->contact);
  }
  const Element table = section.add("table", "stack read");
  const Element head = table.add("thead").add("tr");
  for (const char* heading : {"Machine", "Meter", "Showed last", "Shows today"}) {
    head.add("th").with("scope", "col").say(heading);
  }
  const Element rows = table.add("tbody");
  for (const service::RoundMachine& machine : site.machines) add_rows(rows, machine, command);
}

void add_stopped(const Element& parent, std::string_view title, const SaidLines& lines) {
  for (const auto& [machine, words] : lines)
    parent.add("p", "stop").say(fmt::format("{}: {}: {}", title, machine, words));
}

}  // namespace

std::string readings_as_html(const service::ReadingRound& round, const std::string& command) {
  const service::DueList& list = *round.list;
  const std::string title =
      fmt::format("{}: meters to read, {}", whose_list(*list.fleet, list.scope), to_text(list.as_of));
  Page page({title, title});
  page.add_style(paper_rules());
  const Element body = page.body().add("main", "sheet");
  body.add("h1").say(title);
  const StoppedLines stopped = stopped_lines(run_bans(list));
  add_stopped(body, out_of_use_title, stopped.out_of_use);
  add_stopped(body, not_before_mended_title, stopped.to_be_mended);
  if (round.meters() == 0) body.add("p").say("No machine here has a meter.");
  for (const service::RoundSite& site : round.sites) add_site(body, site, command);
  if (!list.gaps.empty()) {
    const Element gaps = add_section(body, "Not known").add("ul");
    for (const service::GapLine& line : gap_lines(list.gaps)) gaps.add("li").say(whose(line) + ": " + line.gap->say);
  }
  std::vector<std::string> keys;
  for (const service::Machine* machine : round.without_meters) keys.push_back(machine->key);
  add_line(body, "Without meters:", listed(keys, "and"));
  if (round.meters() == 0) return page.text();
  const Element read = body.add("div", "fill sign");
  add_blank(read.add("span").say("Read by "), {}, "name");
  add_blank(read.add("span").say("on "), {}, "when");
  body.add("p", "quiet").say(fmt::format("To type one in: {} reading MACHINE VALUE", command));
  body.add("p").add("b").say(service::base_cautions().in_a_line);
  return page.text();
}

}  // namespace cli
