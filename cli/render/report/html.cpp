// The report as a page of HTML: one file for a screen, a telephone and paper.
#include <fmt/format.h>

#include <algorithm>

#include "render/report/parts_of_page.h"
#include "render/report/report.h"
#include "render/report/words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

void add_head(const Element& body, const service::Report& report) {
  const Element head = body.add("header", "head");
  head.add("h1").say(whose_list(*report.fleet, report.scope));
  const Element day = head.add("p", "day").say("Service report, ");
  day.add("time").with("datetime", to_text(report.as_of)).say(to_text(report.as_of));
  add_paragraph(head, known_words(report));
}

void add_entry(const Element& list, const std::string& target, std::string_view what, std::string_view holds) {
  const Element link = list.add("li").add("a").with("href", target);
  link.add("b").say(what);
  link.say(" ");
  link.add("span").say(holds);
}

// Where to find what, and how much of it there is.
void add_contents(const Element& body, const ReportPage& page) {
  const Element nav = body.add("nav", "contents").with("id", "contents").with("aria-label", "Contents");
  const Element list = nav.add("ul");
  const service::Report& report = page.report;
  add_entry(list, "#overdue", overdue_title, first_counts(report));
  add_entry(list, "#due", "Due", due_counts(report));
  add_entry(list, "#season", "Season", season_counts(report));
  add_entry(list, "#workload", "Work ahead", workload_counts(report));
  add_entry(list, "#parts", "Parts", parts_counts(report));
  if (page.pages.empty()) return;
  const Element keys = add_numbers(nav, fmt::format("Machines: {}", machines_counts(report))).add("ul", "keys");
  for (const service::MachinePage& machine : page.pages) {
    const Element link = keys.add("li").add("a").with("href", '#' + anchor_of(*machine.machine));
    link.say(machine.machine->name.empty() ? machine.machine->key : machine.machine->name);
  }
}

}  // namespace

std::string report_as_html(const service::Report& report, const std::string& command) {
  const std::string day = to_text(report.as_of);
  Page html({fmt::format("{}, report, {}", report.fleet->name, day), fmt::format("{} · {}", report.fleet->name, day)});
  html.add_style(report_rules());
  Look look;
  look.command = command;
  const ReportPage page{report, pages_of(report), look, run_bans(report.due), find_out(report.due)};
  const Element body = html.body();
  body.add("a", "skip screen").with("href", "#overdue").say("To what is overdue");
  add_head(body, report);
  add_contents(body, page);
  const Element main = body.add("main");
  add_overdue_list(main, page);
  add_due_list(main, page);
  add_season(main, page);
  add_workload(main, page);
  add_parts_list(main, page);
  for (const service::MachinePage& machine : page.pages) add_machine_page(html, main, page, machine);
  return html.text();
}

}  // namespace cli
