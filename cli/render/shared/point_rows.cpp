#include "render/shared/point_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <string_view>

#include "render/shared/bars_of.h"
#include "render/shared/headings.h"
#include "render/shared/resources_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"
#include "terminal/bars.h"
#include "terminal/table.h"
#include "terminal/width.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::LimbKind;
using service::LimbStanding;
using service::Point;

constexpr std::string_view separator = " · ";

std::string joined(const std::vector<std::string>& words) { return fmt::format("{}", fmt::join(words, separator)); }

// The day alone, short enough to stand under the standing; `~` where it is expected and not fixed.
std::string short_day(const Point& point, service::Day as_of) {
  if (!point.due_on) return "";
  const bool expected = when(point, as_of).starts_with("about");
  return fmt::format("  {}{}", expected ? '~' : ' ', to_text(*point.due_on));
}

// One line: of a point, or of a machine without record.
struct Line {
  const Point* point = nullptr;
  const service::NoRecord* no_record = nullptr;

  const service::Machine& machine() const { return point != nullptr ? *point->machine : *no_record->machine; }
};

// What one line says, before it is laid out.
struct Said {
  std::string standing;  // mark and word
  std::string machine;
  std::string site;  // empty where all stand at one
  std::string task;
  std::string limbs;  // all of them, the ruling one first
  std::string when;
  std::string remarks;
  // Where it is drawn:
  std::vector<std::string> use;  // by lane
  std::vector<std::string> time;
  std::string short_day;
  PairedBars bars;
};

// Lists are long and what they say is longer, so each line is said when it is written.
class Saying {
 public:
  Saying(const service::DueList& list, const Look& look) : list_(list), look_(look), states_(list) {
    std::set<std::string_view> sites(list.let_go.sites.begin(), list.let_go.sites.end());
    for (const Point& point : list.points) sites.insert(point.machine->site);
    sites_differ_ = sites.size() > 1;
  }

  // By names alone.
  Said names_of(const Line& line) const {
    const service::Standing standing = line.point != nullptr ? line.point->standing : service::Standing::no_record;
    Said said;
    said.standing = fmt::format("{} {}", mark_of(standing), words_of(standing));
    said.machine = service::cleaned(line.machine().key);
    if (line.point != nullptr) said.task = task_of(*line.point);
    if (sites_differ_) said.site = service::cleaned(line.machine().site);
    return said;
  }

  Said of(const Line& line) const {
    Said said = names_of(line);
    if (line.point != nullptr) {
      add(*line.point, said);
    } else {
      said.remarks = no_record_words(*line.no_record, look_.command);
      said.bars.ink = ink_of(service::Standing::no_record);  // nothing is drawn of what nobody knows
    }
    const std::string state = states_.in_row(line.machine(), line.point);
    if (!state.empty()) said.remarks = said.remarks.empty() ? state : joined({state, said.remarks});
    return said;
  }

 private:
  void add(const Point& point, Said& said) const {
    said.limbs = joined(limb_words(point));
    said.when = when(point, list_.as_of);
    said.remarks = joined(list_remarks(point));
    if (!look_.drawn) return;
    for (const LimbStanding& limb : point.limbs) {
      const bool timed = limb.kind == LimbKind::calendar || limb.kind == LimbKind::season;
      std::string words = words_of(limb, point, point.limbs.size() == 1);
      if (!words.empty()) (timed ? said.time : said.use).push_back(std::move(words));
    }
    said.short_day = short_day(point, list_.as_of);
    said.bars = bars_of(point, list_.as_of);
  }

  const service::DueList& list_;
  const Look& look_;
  MachineStates states_;
  bool sites_differ_ = false;
};

// Lines end where their text ends, colours or not.
std::string trimmed(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\n') out.erase(out.find_last_not_of(' ') + 1);
    out += c;
  }
  return out;
}

// The name in a row, what there is to say below it.
std::string in_rows(const std::vector<Line>& lines, const Saying& saying, const Look& look) {
  const std::string indent(6, ' ');
  const auto cells = [](const Said& said) {
    return std::array<const std::string*, 4>{&said.standing, &said.machine, &said.task, &said.site};
  };
  std::array<std::size_t, 4> widths{};
  for (const Line& line : lines) {
    const Said said = saying.names_of(line);
    for (std::size_t i = 0; i < widths.size(); ++i) widths[i] = std::max(widths[i], width(*cells(said)[i]));
  }
  std::string texts;
  for (const Line& line : lines) {
    const Said said = saying.of(line);
    std::string text;
    for (std::size_t i = 0; i < widths.size(); ++i) {
      if (widths[i] > 0) text += padded(*cells(said)[i], widths[i]) + "  ";
    }
    text += '\n';
    std::vector<std::string> below;
    for (const std::string& part : {said.when, said.limbs, said.remarks}) {
      if (!part.empty()) below.push_back(part);
    }
    text += wrapped(indent, joined(below), static_cast<std::size_t>(look.columns), indent.size());
    texts += trimmed(text);
  }
  return texts;
}

// Of what is drawn with its limbs. `day_told`: no more than the day stands above, and it may be another one.
std::string said_below(const Said& said, bool day_told) {
  std::vector<std::string> parts;
  if (!said.site.empty()) parts.push_back("at " + said.site);
  if (day_told && (said.when.starts_with("about") || said.when.starts_with("by"))) parts.push_back(said.when);
  if (!said.remarks.empty()) parts.push_back(said.remarks);
  return joined(parts);
}

// One line a point, both bars in one. Nothing where that is wider than the terminal.
std::vector<std::string> in_lines(const std::vector<Said>& all, const Look& look) {
  constexpr std::size_t cells = 24;
  std::vector<Row> rows;
  for (const Said& said : all) rows.push_back({said.standing, said.machine, said.task, said.when, said.limbs});
  const auto widths = column_widths(rows);
  std::size_t whole = cells + 2;
  for (const std::size_t width : widths) whole += width + 2;
  if (look.columns != 0 && whole > static_cast<std::size_t>(look.columns) + 2) return {};
  std::vector<std::string> texts;
  for (const Said& said : all) {
    std::string text = painted(look, said.bars.ink, padded(said.standing, widths[0])) + "  " +
                       painted(look, Ink::strong, padded(said.machine, widths[1])) + "  " +
                       padded(said.task, widths[2]) + "  " + padded(said.when, widths[3]) + "  " +
                       both_bars(look, said.bars, cells) + "  " + said.limbs + '\n';
    if (const std::string below = said_below(said, false); !below.empty()) {
      const std::string indent(widths[0] + 2, ' ');
      text += wrapped(indent, below, static_cast<std::size_t>(look.columns), indent.size());
    }
    texts.push_back(std::move(text));
  }
  return texts;
}

// One lane of a block: its bar, and its words in as many lines as they need.
void add_lane(std::vector<std::string>& lines, const std::string& bar, std::size_t cells,
              const std::vector<std::string>& words, std::size_t columns) {
  std::string before = bar;
  for (const std::string& part : words) {
    for (const std::string& line : wrapped_lines(part, columns)) {
      lines.push_back(before);
      lines.back().append("  ").append(line);
      before = std::string(cells, ' ');
    }
  }
  // The task stands in the second line, so there are two.
  if (words.empty() && lines.size() < 2) lines.push_back(bar);
}

std::size_t widest(const std::vector<std::string>& words) {
  std::size_t found = 0;
  for (const std::string& word : words) found = std::max(found, width(word));
  return found;
}

// Two lines a point: use above, time below. Where names leave no room for that, bars and words go below them.
std::vector<std::string> in_blocks(const std::vector<Said>& all, const Look& look) {
  constexpr std::size_t least_cells = 9;
  constexpr std::size_t least_words = 28;  // `heel-wear 11.5 %, limit 10 %`
  const auto columns = static_cast<std::size_t>(look.columns == 0 ? 80 : look.columns);
  std::size_t left = 0;
  std::size_t names = 0;
  std::size_t words = 0;
  for (const Said& said : all) {
    left = std::max({left, width(said.standing), width(said.short_day)});
    names = std::max({names, width(said.machine), width(said.task)});
    words = std::max({words, widest(said.use), widest(said.time)});
  }
  const std::size_t taken = left + 2 + names + 2;
  const bool beside = columns >= taken + least_cells + 2 + least_words;
  const std::size_t room = columns - (beside ? taken : 3) - 2;  // for a bar and its words
  const std::size_t spare = room - std::min(room, words);
  const std::size_t most_cells =
      beside ? std::max<std::size_t>(spare, std::min<std::size_t>(12, room - least_words)) : 18;
  const std::size_t cells = std::clamp<std::size_t>(most_cells, least_cells, 24);
  std::vector<std::string> texts;
  for (const Said& said : all) {
    std::string text;
    const std::string standing = painted(look, said.bars.ink, padded(said.standing, left));
    std::vector<std::string> lines;
    add_lane(lines, use_bar(look, said.bars, cells), cells, said.use, room - cells);
    add_lane(lines, time_bar(look, said.bars, cells), cells, said.time, room - cells);
    if (!beside) {
      text += standing + "  " + painted(look, Ink::strong, said.machine) + "  " + said.task + "  " + said.when + '\n';
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (!beside) {
        if (lines[i].find_first_not_of(' ') != std::string::npos) text += "   " + lines[i] + '\n';
      } else if (i == 0) {
        text += standing + "  " + painted(look, Ink::strong, padded(said.machine, names)) + "  " + lines[i] + '\n';
      } else {
        text += padded(i == 1 ? said.short_day : "", left) + "  " + padded(i == 1 ? said.task : "", names) + "  " +
                lines[i] + '\n';
      }
    }
    if (const std::string below = said_below(said, beside); !below.empty()) text += wrapped("   ", below, columns, 3);
    texts.push_back(std::move(text));
  }
  return texts;
}

}  // namespace

std::string point_rows(const std::vector<const Point*>& points, const std::vector<service::NoRecord>& no_record,
                       const service::DueList& list, const Look& look) {
  const auto ahead = std::find_if(points.begin(), points.end(), [](const Point* point) {
    return point->standing == service::Standing::coming || point->standing == service::Standing::later;
  });
  std::vector<Line> lines;
  lines.reserve(points.size() + no_record.size());
  const auto add = [&](auto from, auto to) {
    for (; from != to; ++from) lines.push_back({*from, nullptr});
  };
  add(points.begin(), ahead);
  for (const service::NoRecord& line : no_record) lines.push_back({nullptr, &line});
  add(ahead, points.end());
  const Saying saying(list, look);
  if (!look.drawn) return in_rows(lines, saying, look);
  std::vector<Said> all;
  for (const Line& line : lines) all.push_back(saying.of(line));
  std::vector<std::string> texts;
  if (look.line_drawing) texts = in_lines(all, look);
  if (texts.empty()) texts = in_blocks(all, look);
  return trimmed(fmt::format("{}", fmt::join(texts, "")));
}

std::string no_record_words(const service::NoRecord& line, const std::string& command) {
  const auto count = static_cast<std::int64_t>(line.points.size());
  std::string text = service::counted(count, "task", "tasks");
  if (line.nothing_recorded) text = "nothing is recorded of it: " + text;
  std::vector<std::string> safety;
  bool competent = false;
  for (const Point* point : line.safety()) {
    safety.push_back(task_of(*point));
    competent = competent || by_competent_person(*point);
  }
  if (!safety.empty()) text += fmt::format(", {}: {}", never_wait_words(competent), fmt::join(safety, ", "));
  return text + "; to fill in: " + command + " find-out " + service::cleaned(line.machine->key);
}

std::string customers_line(const service::DueList& list, const Look& look) {
  std::vector<std::pair<std::string, std::vector<std::string>>> customers;
  for (const service::Site& site : list.fleet->sites) {
    const bool there = list.let_go.sites.contains(site.key) ||
                       std::any_of(list.points.begin(), list.points.end(),
                                   [&](const Point& point) { return point.machine->site == site.key; });
    if (!there || site.customer.empty()) continue;
    auto of =
        std::find_if(customers.begin(), customers.end(), [&](const auto& one) { return one.first == site.customer; });
    if (of == customers.end()) of = customers.insert(of, {site.customer, {}});
    of->second.push_back(service::cleaned(site.key));
  }
  if (customers.size() < 2) return "";
  std::vector<std::string> parts;
  for (const auto& [customer, sites] : customers) {
    parts.push_back(fmt::format("{} for {}", listed(sites, "and"), service::cleaned(customer)));
  }
  return wrapped("Sites: ", fmt::format("{}.", fmt::join(parts, "; ")), static_cast<std::size_t>(look.columns), 7);
}

std::string said_rows(const SaidLines& rows, const Look& look) {
  std::size_t names = 0;
  for (const auto& [who, what] : rows) names = std::max(names, width(service::cleaned(who)));
  std::string text;
  for (const auto& [who, what] : rows) {
    text += wrapped("   " + padded(service::cleaned(who), names) + "  ", service::cleaned(what),
                    static_cast<std::size_t>(look.columns), names + 5);
  }
  return text;
}

SaidLines machines_that(const std::vector<service::MachineUse>& not_in_use, service::UseKind kind) {
  SaidLines lines;
  for (const service::MachineUse& use : not_in_use) {
    if (use.state.kind == kind) lines.emplace_back(use.machine->key, words_of(use.state));
  }
  return lines;
}

std::string not_known(const std::vector<const service::Gap*>& gaps, const Look& look) {
  SaidLines lines;
  for (const service::GapLine& line : gap_lines(gaps)) lines.push_back(line_of(line, look));
  return lines.empty() ? "" : '\n' + heading(look, "Not known") + said_rows(lines, look);
}

std::vector<const service::Gap*> gaps_untold(const std::vector<service::Gap>& gaps,
                                             const std::vector<service::PointName>& told) {
  std::vector<const service::Gap*> beside;
  for (const service::Gap& gap : gaps) {
    const bool with_points =
        gap.kind == service::GapKind::nothing_recorded &&
        std::any_of(told.begin(), told.end(), [&](const auto& point) { return point.machine->key == gap.machine; });
    if (!with_points) beside.push_back(&gap);
  }
  return beside;
}

std::string not_known(const std::vector<service::Gap>& gaps, const std::vector<service::PointName>& told,
                      const Look& look) {
  return not_known(gaps_untold(gaps, told), look);
}

SaidLines::value_type line_of(const service::GapLine& line, const Look& look) {
  const service::Gap& gap = *line.gap;
  if (gap.kind == service::GapKind::nothing_recorded) {
    return {whose(line), fmt::format("{}; for a list to fill in: {} find-out {}", gap.say, look.command, gap.machine)};
  }
  if (gap.kind == service::GapKind::ran_while_not_in_use) {
    return {whose(line), fmt::format("{} Where it is back: {} back {}; where it stands, say so again.", gap.say,
                                     look.command, gap.machine)};
  }
  return {whose(line), gap.say};
}

SaidLines::value_type line_of(const service::SeenSign& seen) { return {seen.machine->key, words_of(seen)}; }

}  // namespace cli
