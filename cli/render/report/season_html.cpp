// The season at hand on the page of a report.
#include <fmt/format.h>

#include <optional>

#include "render/overdue/words.h"
#include "render/report/parts_of_page.h"
#include "render/report/words.h"
#include "render/season/cautions.h"
#include "render/season/lines.h"
#include "render/season/rows.h"
#include "render/season/season.h"
#include "render/shared/cautions.h"
#include "render/shared/words.h"
#include "render/sheet/paper.h"
#include "service/cautions.h"

namespace cli {
namespace {

using service::SeasonItem;
using service::SeasonPlan;

void add_item(const Element& rows, const ReportPage& page, const SeasonRow& row, const char* day) {
  const SeasonItem& item = *row.item;
  const Element line = rows.add("tr");
  line.add("td", "day").with("data-label", day).say(row.day);
  add_what(line, page, row.task, item.point);
  const Element odds = line.add("td", "odds").with("data-label", "odds");
  const auto standing = item.point.standing;
  if (standing == service::Standing::overdue || standing == service::Standing::due) {
    add_standing(odds, standing);
    if (const std::string estimate = estimate_words(item.point); !estimate.empty()) {
      odds.say((item.point.past_grace_by_estimate ? ", " : " ") + estimate);
    }
  } else {
    odds.say(row.odds);
  }
  line.add("td", "num").with("data-label", "lost").say(row.lost);
  line.add("td", "num").with("data-label", "takes").say(row.takes);
  const Element remarks = line.add("td", "remarks");
  std::vector<std::string> marks;
  if (item.safety) marks.emplace_back("safety");
  if (item.competent_person) marks.emplace_back("by a competent person");
  if (item.point.doubtful) marks.emplace_back(rests_on_doubt);
  if (!marks.empty()) remarks.add("b").say(fmt::format("{}", fmt::join(marks, ", ")));
  std::string rest = row.remarks;
  if (item.point.doubtful) rest.erase(0, rests_on_doubt.size() + 2);  // said among the marks
  if (!rest.empty()) say_whole(remarks, (marks.empty() ? "" : "; ") + rest);
}

void add_items(const Element& part, const ReportPage& page, const std::vector<SeasonItem>& items,
               const std::string& heading, const char* day, bool grouped = false) {
  if (items.empty()) return;
  part.add("h3").say(heading);
  const Element table = add_captioned(part, "rows season", heading, true);
  const Element head = table.add("thead").add("tr");
  for (const char* name : {day, "task and machine", "odds", "lost", "takes", "remarks"}) {
    const bool figures = std::string_view(name) == "lost" || std::string_view(name) == "takes";
    head.add("th", figures ? "num" : "").with("scope", "col").say(name);
  }
  const auto rows = rows_in_words(items, page.report.season->not_to_run);
  std::optional<Element> body;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const service::SeasonGroup group = rows[i].item->group();
    if (!body || (grouped && group != rows[i - 1].item->group())) {
      body = table.add("tbody");
      constexpr const char* columns = "6";
      if (grouped) {
        const Element line = body->add("tr", "group");
        line.add("th").with("scope", "rowgroup").with("colspan", columns).say(group_words(group));
      }
    }
    add_item(*body, page, rows[i], day);
  }
}

// Said where some machines are asked about, and what is not known of others.
void add_orders(const Element& part, const ReportPage& page, const SeasonPlan& plan) {
  const auto orders = season_orders(plan);
  if (orders.empty()) return;
  part.add("h3").say("Order by");
  add_paragraph(part, fleet_figures(page.report));
  const Element list = part.add("dl", "said orders");
  for (const auto& [day, what] : orders) {
    list.add("dt").say(day);
    say_whole(list.add("dd"), what);
  }
}

void add_cautions(const Element& part, const SeasonPlan& plan) {
  part.add("h3").say("Before you touch a machine");
  add_steps_before(part);
  add_paragraph(part, fmt::format("Afterwards: {}.", service::base_cautions().afterwards));
  const auto cautions = cautions_in_words(plan);
  if (cautions.empty()) return;
  part.add("h3").say("What to mind, and at which tasks");
  const Element list = part.add("ul", "cautions");
  for (const SeasonCaution& caution : cautions) {
    const Element item = list.add("li").say(caution_in_full(caution.caution));
    item.add("span", "quiet").say(" At " + caution.where);
  }
}

void add_blocks(const Element& part, const ReportPage& page, const SeasonPlan& plan) {
  const std::string season = service::cleaned(plan.season->key);
  add_items(part, page, plan.beforehand,
            plan.under_way() ? "Do now, or by the day in front" : fmt::format("Do before {}", season), "do by", true);
  add_items(part, page, plan.have_ready, fmt::format("Have ready: comes due in {} all the same", season), "have by");
  add_items(part, page, plan.put_off, fmt::format("Put off beyond {}: in no sums and orders", season), "until");
  if (!plan.beforehand.empty() || !plan.have_ready.empty() || !plan.put_off.empty()) {
    add_paragraph(part, columns_legend(plan, page.look.command), "quiet");
  }
}

}  // namespace

void add_season(const Element& parent, const ReportPage& page) {
  if (!page.report.season) {
    const Element part = add_part(parent, "season", "Season");
    add_paragraph(part, "The fleet file lists no seasons, so there is none to prepare for.");
    return;
  }
  const SeasonPlan& plan = *page.report.season;
  const std::string season = service::cleaned(plan.season->key);
  const Element part = add_part(
      parent, "season",
      fmt::format("{} {}, {} to {}", plan.under_way() ? "In" : "Before", season, to_text(plan.from), to_text(plan.to)));
  add_not_to_run(part, page);
  const Element sums = part.add("ul");
  for (const std::string& sentence : season_in_sentences(plan, page.look.command)) {
    say_whole(sums.add("li"), sentence);
  }
  add_orders(part, page, plan);
  add_before_you_touch(part);
  if (const auto lines = laid_up_lines(plan); !lines.empty()) {
    part.add("h3").say("Laid up");
    add_said(part, page, lines);
  }
  if (!plan.seen.empty()) {
    part.add("h3").say(title_of(service::OverdueHeading::seen));
    SaidLines lines;
    for (const service::SeenSign& seen : plan.seen) lines.push_back(line_of(seen));
    add_said(part, page, lines);
  }
  add_blocks(part, page, plan);
  if (const auto lines = look_again_lines(plan); !lines.empty()) {
    part.add("h3").say("Look again");
    add_said(part, page, lines);
  }
  if (const auto lines = find_out_lines(plan, page.look); !lines.empty()) {
    part.add("h3").say("Not known until somebody reads the meter or finds out");
    add_said(part, page, lines);
  }
  if (const auto lines = rest_lines(plan); !lines.empty()) {
    part.add("h3").say(
        fmt::format("Less than {:.0f} % odds of coming due before {} ends", plan.threshold.value * 100, season));
    for (const RestLines& block : lines) {
      if (!block.heading.empty()) part.add("h4").say(block.heading);
      add_said(part, page, block.lines);
    }
    for (const std::string& line : rest_remarks(plan)) add_paragraph(part, line);
  }
  if (!plan.others.empty()) {
    part.add("h3").say(fmt::format("Not at work in {}", season));
    const Element list = part.add("ul");
    for (const service::OtherMachine& other : plan.others) say_whole(list.add("li"), other_words(other));
  }
  add_cautions(part, plan);
  add_to_contents(part);
}

}  // namespace cli
