#include "render/shared/trip_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "render/shared/resources_words.h"
#include "render/shared/words.h"
#include "service/waiting_to_mend.h"

namespace cli {

using service::cleaned;
using service::Money;
using service::NotPlannedReason;
using service::Point;

namespace {

// Of what stock does not cover: that it is not there, and when it can be.
std::string stock_words(const std::vector<service::PartLack>& lacks, const std::string& key, service::Day as_of) {
  const auto lack =
      std::find_if(lacks.begin(), lacks.end(), [&](const service::PartLack& one) { return one.key == key; });
  return lack == lacks.end() ? "" : ": " + lack_words(*lack, as_of);
}

std::string part_line(const service::Fleet& fleet, const std::string& amount, const std::string& key) {
  const auto& parts = fleet.parts;
  const auto part = std::find_if(parts.begin(), parts.end(), [&](const service::Part& one) { return one.key == key; });
  const std::string what = part == parts.end() ? "" : cleaned(part->what);
  return what.empty() ? fmt::format("{} {}", amount, cleaned(key))
                      : fmt::format("{} {} ({})", amount, cleaned(key), what);
}

std::string named(const std::vector<std::string>& names) {
  std::vector<std::string> clean;
  for (const std::string& name : names) clean.push_back(cleaned(name));
  return listed(clean, "and");
}

}  // namespace

std::string span_words(int minutes) {
  if (minutes < 60) return fmt::format("{} min", minutes);
  return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60) : fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

std::string km_words(int tenths) { return fmt::format("{}.{} km", tenths / 10, tenths % 10); }

std::string day_words(service::Day day) {
  constexpr std::array names{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};
  return fmt::format("{} {}", names.at(std::chrono::weekday{day}.c_encoding()), to_text(day));
}

std::string crew_words(const service::Crew& crew) { return cleaned(crew.name.empty() ? crew.key : crew.name); }

std::string site_words(const service::Site& site) { return cleaned(site.name.empty() ? site.key : site.name); }

std::string plain(Money money) { return fmt::format("{:.2f}", static_cast<double>(money.hundredths) / 100); }

std::string machine_words(const service::Machine& machine) {
  const std::string key = cleaned(machine.key);
  return machine.name.empty() || machine.name == machine.key ? key : fmt::format("{} ({})", cleaned(machine.name), key);
}

// `lifting`, `two people`.
std::string need_words(const std::vector<std::string>& needs) {
  std::vector<std::string> words;
  for (const std::string& need : needs) words.push_back(need == "two-people" ? "two people" : cleaned(need));
  return listed(words, "and");
}

std::string job_words(const Point& point, service::Day as_of, const std::vector<std::string>& more) {
  const std::string doing = cleaned(point.follow_up != nullptr ? point.follow_up->doing : point.task->doing);
  std::string state = words_of(point.standing);
  if (const std::string day = when(point, as_of); !day.empty()) state += ' ' + day;
  if (const std::string estimate = estimate_words(point); !estimate.empty()) state += ", " + estimate;
  std::vector<std::string> said{state};
  if (point.doubtful) said.emplace_back(rests_on_doubt);
  if (is_safety(point)) said.emplace_back("safety");
  if (by_competent_person(point)) said.emplace_back("by a competent person");
  if (const std::string people = people_words(point); !people.empty()) said.push_back(people);
  said.insert(said.end(), more.begin(), more.end());
  return fmt::format("{}: {} ({})", task_of(point), doing, fmt::join(said, "; "));
}

std::string keep_out_words(const service::DueList& list, const service::Point& point) {
  const std::string_view until = leaves_unmended(list, point) ? "mended" : "done";
  return *point.due_on > list.as_of
             ? fmt::format("safety: from {} on keep it out of use until {}", to_text(*point.due_on), until)
             : fmt::format("safety: keep it out of use until {}", until);
}

std::string shared_words(const std::vector<const service::Crew*>& others) {
  std::vector<std::string> names;
  for (const service::Crew* crew : others) names.push_back(crew_words(*crew));
  return fmt::format("{} {} at it that day too: agree who locks it off, and who gives it free", listed(names, "and"),
                     names.size() == 1 ? "works" : "work");
}

std::string short_words(const service::ShortPart& part) {
  const std::string amount = part.unit.empty() ? to_text(part.short_by) : quantity(part.short_by, part.unit);
  return fmt::format("stock is {} short from {} on; {}", amount, to_text(part.short_on),
                     part.there ? fmt::format("ordered now it can be there on {}", to_text(*part.there))
                                : "nobody knows how long it takes to come");
}

std::vector<std::string> load_lines(const service::Fleet& fleet,
                                    const std::vector<std::pair<std::string, service::PartAmount>>& parts,
                                    const std::vector<std::pair<std::string, service::Quantity>>& fluids,
                                    const std::vector<service::PartLack>& lacks, service::Day as_of) {
  std::vector<std::string> lines;
  for (const auto& [key, pieces] : parts) {
    lines.push_back(part_line(fleet, to_text(pieces), key) + stock_words(lacks, key, as_of));
  }
  for (const auto& [key, amount] : fluids) {
    lines.push_back(part_line(fleet, quantity(amount.amount, amount.unit), key) + stock_words(lacks, key, as_of));
  }
  return lines;
}

std::vector<std::string> piece_words(const std::vector<std::pair<std::string, service::PartAmount>>& parts) {
  std::vector<std::string> words;
  for (const auto& [key, pieces] : parts) words.push_back(fmt::format("{} {}", to_text(pieces), cleaned(key)));
  return words;
}

std::string fills_up_words(const std::vector<std::pair<std::string, service::PartAmount>>& fills_up) {
  return fills_up.empty()
             ? ""
             : fmt::format("Of it, to fill up what is always on board: {}", listed(piece_words(fills_up), "and"));
}

std::vector<std::string> lack_lines(const std::vector<service::PartLack>& lacks, service::Day as_of) {
  std::vector<std::string> lines;
  for (const service::PartLack& lack : lacks) {
    if (lack.is_short()) lines.push_back(fmt::format("{}: {}", cleaned(lack.key), lack_words(lack, as_of)));
  }
  return lines;
}

std::string lacking_words(const std::vector<service::PlannedLoad>& loads) {
  const service::LackingWork work = lacking_work(loads);
  if (work.parts.empty()) return "";
  const auto count = static_cast<std::int64_t>(work.parts.size());
  std::string text = fmt::format("{} {} short", service::counted(count, "part", "parts"), count == 1 ? "is" : "are");
  if (work.visits == 0 && work.fills_up_late) {
    return fmt::format("{}: {}. No visit waits for it: it fills up what is always on board.", text, named(work.parts));
  }
  if (work.visits == 0) return fmt::format("{}: {}. Ordered in time, all can be there.", text, named(work.parts));
  std::vector<std::pair<std::string, std::vector<std::string>>> where;
  for (const service::PlannedLoad* load : work.loads) {
    const std::string at =
        fmt::format("{} on {}", load->machine == nullptr ? "" : cleaned(load->machine->key), to_text(load->on));
    if (where.empty() || where.back().first != at) where.emplace_back(at, std::vector<std::string>{});
    for (const service::PartLack& lack : load->lacks) {
      const bool in_time = lack.there && !lack.comes_late();
      auto& keys = where.back().second;
      if (!lack.is_short() || in_time || std::find(keys.begin(), keys.end(), lack.key) != keys.end()) continue;
      keys.push_back(lack.key);
    }
  }
  std::vector<std::string> names;
  for (const auto& [at, keys] : where) names.push_back(fmt::format("{} ({})", at, named(keys)));
  return fmt::format("{}: {} cannot be finished as planned: {}.", text,
                     service::counted(static_cast<std::int64_t>(work.visits), "visit", "visits"), listed(names, "and"));
}

std::string whose(const service::NotPlanned& row) {
  if (row.call != nullptr) return "call " + cleaned(row.call->key);
  return row.point.machine == nullptr ? "" : cleaned(row.point.machine->key);
}

std::string not_planned_what(const service::NotPlanned& row) {
  std::string what = row.call != nullptr ? cleaned(row.call->doing) : task_of(row.point);
  if (row.point.safety) what += " (safety)";
  if (row.point.competent_person) what += " (by a competent person)";
  return what;
}

std::string lay_up_over_words(const service::LayUp& over) {
  return fmt::format("in use again from {} on: before it runs, put back what the lay-up took off ({})",
                     to_text(*over.until), words_of(over));
}

std::string_view short_reason_words(NotPlannedReason reason) {
  switch (reason) {
    case NotPlannedReason::put_off:
      return "somebody put it off";
    case NotPlannedReason::laid_up:
      return "the machine is laid up";
    case NotPlannedReason::out_of_use:
      return "the machine is out of use: do not run";
    case NotPlannedReason::left:
      return "the machine leaves";
    case NotPlannedReason::no_site:
      return "the fleet says no site for it, so nobody knows where to go";
    case NotPlannedReason::no_way:
      return "nothing tells how far its site is: it needs `at`, or a row of the travel table";
  }
  return "";
}

std::string reason_words(const service::NotPlanned& row, std::string_view beyond) {
  if (row.put_off != nullptr) {
    return fmt::format("put off beyond {}, {}", beyond, words_of(*row.put_off, *row.point.machine));
  }
  if (row.reason == NotPlannedReason::laid_up && row.use != nullptr) {
    return words_of(*row.use) + "; due before it goes back to work";
  }
  return std::string(short_reason_words(row.reason));
}

std::vector<std::string> without_figures(const std::vector<service::PointName>& no_time,
                                         const std::vector<std::string>& no_price) {
  std::vector<std::string> lines;
  if (!no_time.empty()) {
    std::vector<std::string> names;
    for (const service::PointName& point : no_time) {
      names.push_back(fmt::format("{} {}", cleaned(point.machine->key), task_of(point)));
    }
    lines.push_back(fmt::format("Planned with no minutes, for the schedule says no `takes`: {}", listed(names, "and")));
  }
  if (!no_price.empty()) {
    lines.push_back(fmt::format("Without a price, so counted as nothing: {}", named(no_price)));
  }
  return lines;
}

}  // namespace cli
