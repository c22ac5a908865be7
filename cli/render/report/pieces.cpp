#include "render/report/pieces.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "render/html/use_bars.h"
#include "render/shared/bars_of.h"
#include "render/shared/cautions.h"
#include "render/shared/resources_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"
#include "service/cautions.h"
#include "service/minding.h"

namespace cli {
namespace {

using service::Point;

std::string joined(const std::vector<std::string>& words, const char* between) {
  return fmt::format("{}", fmt::join(words, between));
}

// `by use 103 % of the interval, by time 105 %`: what the bars show.
std::string bars_words(const PairedBars& bars) {
  std::vector<std::string> words;
  const auto say = [&](const Lane& lane, const char* what) {
    if (!lane.there) return;
    const std::string estimate = lane.estimate ? fmt::format(", {:.0f} % by estimate", *lane.estimate * 100) : "";
    words.push_back(lane.share ? fmt::format("{} {:.0f} %{}{}", what, *lane.share * 100, estimate,
                                             lane.rules ? ", which rules" : "")
                               : fmt::format("{} not known", what));
  };
  say(bars.use, "by use");
  say(bars.time, "by time");
  return "Share of the interval used: " + joined(words, "; ");
}

void add_task(const Element& row, const ReportPage& page, std::string_view task, std::string_view doing,
              const service::Machine& machine, const Point* point, bool of_one) {
  const Element what = row.add("th", "what").with("scope", "row");
  say_whole(what.add("span", "task"), task);
  if (!of_one) {
    add_machine(what.say(" ").add("span", "whose"), page, machine.key);
    const std::string state = state_in_row(page.report.due.state_of(machine), ban_of(page.bans, machine), point);
    if (!state.empty()) say_whole(what.say(" ").add("b", "state"), state);
  }
  if (!doing.empty()) what.say(" ").add("span", "doing").say(doing);
  if (!of_one && !machine.site.empty()) what.say(" ").add("span", "where").say("at " + place_of(page, machine));
}

void add_point(const Element& rows, const ReportPage& page, const Point& point, bool of_one) {
  const Element row = rows.add("tr");
  const Element stands = row.add("td", "stands");
  add_standing(stands, point.standing);
  say_whole(stands.say(" ").add("span", "when"), when(point, page.report.as_of));
  add_task(row, page, task_of(point), doing_of(point), *point.machine, &point, of_one);
  const PairedBars bars = bars_of(point, page.report.as_of);
  add_use_bars(row.add("td", bars.instead.empty() ? "bars" : "bars told"), bars, bars_words(bars));
  const Element words = row.add("td", "words");
  std::vector<std::string> remarks = list_remarks(point);
  std::vector<std::string> marks;
  const auto mark = [&](std::string_view remark, std::string_view says) {
    if (std::erase(remarks, remark) > 0) marks.emplace_back(says);
  };
  mark(not_before_mended, not_before_mended);
  for (const service::SeenSign* seen : to_mend(page.report.due.seen, point)) {
    marks.push_back(fmt::format("to be mended: {}", words_of(*seen)));
  }
  for (const std::string& each : marks_of(point)) mark(each, each);
  if (const std::string people = people_words(point); !people.empty()) mark(people, people);
  mark(rests_on_doubt, rests_on_doubt);
  if (!marks.empty()) say_whole(words.add("b"), joined(marks, " · ") + " · ");
  std::vector<std::string> rest = limb_words(point);
  rest.insert(rest.end(), remarks.begin(), remarks.end());
  say_whole(words, joined(rest, " · "));
}

void add_no_record(const Element& rows, const ReportPage& page, const service::NoRecord& line, bool of_one) {
  const Element row = rows.add("tr");
  add_standing(row.add("td", "stands"), service::Standing::no_record);
  const auto count = static_cast<std::int64_t>(line.points.size());
  add_task(row, page, service::counted(count, "task", "tasks"), "", *line.machine, nullptr, of_one);
  row.add("td", "bars");
  say_whole(row.add("td", "words"), no_record_words(line, page.look.command));
}

bool is_ahead(const Point* point) {
  return point->standing == service::Standing::coming || point->standing == service::Standing::later;
}

}  // namespace

void add_what(const Element& row, const ReportPage& page, std::string_view task, const Point& point) {
  add_task(row, page, task, doing_of(point), *point.machine, &point, false);
}

std::string place_of(const ReportPage& page, const service::Machine& machine) {
  const service::Site* site = page.report.fleet->site(machine.site);
  return site == nullptr || site->name.empty() ? machine.site : site->name;
}

void add_bars_key(const Element& parent) {
  add_paragraph(parent,
                "The bars: use above, time below, from where the part was fitted or the work was done. The stroke is "
                "where the interval ends; what reaches past it ran over, and an arrow goes on beyond the edge. The "
                "filled bar rules: it came to its end first, or will. A dashed end is by estimate: nobody read it. "
                "Where a measurement, a sign or the season rules, that is named in place of the bars.",
                "quiet bars-key");
}

void add_to_contents(const Element& part) {
  part.add("p", "screen up").add("a").with("href", "#contents").say("To the contents");
}

Element say_whole(const Element& element, std::string_view text) {
  // Longer ones than a telephone is wide are broken all the same.
  constexpr std::size_t longest = 26;
  const auto in_word = [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return std::isalnum(byte) != 0 || c == '-' || c == '@' || c == '_' || byte >= 0x80;
  };
  std::size_t said = 0;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = static_cast<std::size_t>(
        std::find_if_not(text.begin() + static_cast<std::ptrdiff_t>(at), text.end(), in_word) - text.begin());
    const std::string_view word = text.substr(at, end - at);
    if (word.find('-') != std::string_view::npos && word.size() > 1 && word.size() <= longest) {
      element.say(text.substr(said, at - said));
      element.add("span", "on").say(word);
      said = end;
    }
    at = std::max(end, at + 1);
  }
  return element.say(text.substr(said));
}

Element add_part(const Element& parent, std::string_view id, std::string_view heading) {
  const Element part =
      parent.add("section", "part").with("id", id).with("aria-labelledby", fmt::format("{}-heading", id));
  part.add("h2").with("id", fmt::format("{}-heading", id)).say(heading);
  return part;
}

std::string anchor_of(const service::Machine& machine) { return "machine-" + machine.key; }

void add_machine(const Element& parent, const ReportPage& page, std::string_view key) {
  const bool has_page = std::any_of(page.pages.begin(), page.pages.end(),
                                    [&](const service::MachinePage& each) { return each.machine->key == key; });
  if (!has_page) {
    say_whole(parent, key);
  } else {
    say_whole(parent.add("a").with("href", fmt::format("#machine-{}", key)), key);
  }
}

void add_said(const Element& parent, const ReportPage& page, const SaidLines& lines) {
  if (lines.empty()) return;
  const Element list = parent.add("dl", "said");
  for (const auto& [who, what] : lines) {
    add_machine(list.add("dt"), page, who);
    say_whole(list.add("dd"), what);
  }
}

void add_not_to_run(const Element& parent, const ReportPage& page) {
  if (page.bans.empty()) return;
  const Element block = parent.add("section", "stop");
  block.add("h3").say(not_to_run_title);
  SaidLines lines;
  for (const service::RunBan& ban : page.bans) lines.emplace_back(ban.machine->key, ban_words(ban));
  add_said(block, page, lines);
}

void add_paragraph(const Element& parent, std::string_view text, std::string_view kinds) {
  if (!text.empty()) say_whole(parent.add("p", kinds), text);
}

Element add_captioned(const Element& parent, std::string_view kinds, std::string_view caption, bool told) {
  const Element table = parent.add("table", kinds);
  table.add("caption", told ? "told" : "").say(caption);
  return table;
}

void add_table(const Element& parent, std::string_view caption, const std::vector<Row>& rows,
               const std::vector<std::size_t>& numbers, std::string_view kinds, bool told) {
  const auto kinds_of = [&](std::size_t column) {
    return std::find(numbers.begin(), numbers.end(), column) == numbers.end() ? "" : "num";
  };
  const Element table = add_captioned(parent, kinds.empty() ? "rows" : fmt::format("rows {}", kinds), caption, told);
  const Element head = table.add("thead").add("tr");
  const Row& headings = rows.front();
  for (std::size_t i = 0; i < headings.size(); ++i) head.add("th", kinds_of(i)).with("scope", "col").say(headings[i]);
  const Element body = table.add("tbody");
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const Element row = body.add("tr");
    for (std::size_t k = 0; k < rows[i].size(); ++k) {
      const Element cell = k == 0 ? row.add("th", kinds_of(k)).with("scope", "row") : row.add("td", kinds_of(k));
      if (k > 0 && !headings[k].empty()) cell.with("data-label", headings[k]);
      say_whole(cell, rows[i][k]);
    }
  }
}

Element add_numbers(const Element& parent, std::string_view summary, std::string_view kinds) {
  const Element numbers = parent.add("div", kinds.empty() ? "numbers" : fmt::format("numbers {}", kinds));
  const Element label = numbers.add("label");
  label.add("input").with("type", "checkbox");
  label.say(" ").say(summary);
  return numbers.add("div").with("hidden", "until-found");
}

void add_points(const Element& parent, const ReportPage& page, std::string_view caption,
                const std::vector<const Point*>& points, const std::vector<service::NoRecord>& no_record, bool of_one) {
  if (points.empty() && no_record.empty()) return;
  const Element table = add_captioned(parent, "points", caption, true);
  const Element head = table.add("thead").add("tr");
  head.add("th", "stands").with("scope", "col").say("standing");
  head.add("th", "what").with("scope", "col").say(of_one ? "task" : "task and machine");
  const Element scale = head.add("th", "bars").with("scope", "col");
  scale.add("span").say("use above, time below");
  scale.add("span", "end").say("ends");
  head.add("th", "words").with("scope", "col").say("what is used and left");
  const Element rows = table.add("tbody");
  const auto ahead = std::find_if(points.begin(), points.end(), is_ahead);
  for (auto at = points.begin(); at != ahead; ++at) add_point(rows, page, **at, of_one);
  for (const service::NoRecord& line : no_record) add_no_record(rows, page, line, of_one);
  for (auto at = ahead; at != points.end(); ++at) add_point(rows, page, **at, of_one);
}

void add_standing(const Element& parent, service::Standing standing) {
  const std::string mark(mark_of(standing));
  const Element shown = parent.add("span", fmt::format("standing {}", to_text(standing)));
  if (mark.find_first_not_of(' ') != std::string::npos) {
    shown.add("b").with("aria-hidden", "true").say(mark.substr(0, mark.find_last_not_of(' ') + 1));
    shown.say(" ");
  }
  shown.say(words_of(standing));
}

void add_before_you_touch(const Element& parent) { parent.add("p", "mind").say(service::base_cautions().in_a_line); }

}  // namespace cli
