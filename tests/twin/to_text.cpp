#include "to_text.h"

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>

namespace twin {

namespace {

// Milliseconds from 1970-01-01 to 2026-01-01: all facts were entered then, one a second, later than any as-of day.
constexpr std::int64_t entering_began = 20454LL * 86400 * 1000;

std::string two(int n) { return (n < 10 ? "0" : "") + std::to_string(n); }

std::string list_of(const std::vector<std::string>& names) {
  std::string text = "[";
  for (std::size_t i = 0; i < names.size(); ++i) text += (i == 0 ? "" : ", ") + names[i];
  return text + "]";
}

const char* unit_word(Unit unit) {
  switch (unit) {
    case Unit::days:
      return "days";
    case Unit::weeks:
      return "weeks";
    case Unit::months:
      return "months";
    case Unit::years:
      return "years";
  }
  return "?";
}

std::string key_of(const Limb& limb) {
  switch (limb.kind) {
    case Kind::usage:
      return limb.meter.empty() ? "hours" : "usage";
    case Kind::calendar:
      return unit_word(limb.unit);
    case Kind::changes:
      return "changes";
    case Kind::measured:
      return "measured";
    case Kind::sign:
      return "signs";
    case Kind::season:
      return "season";
  }
  throw std::logic_error("no such kind");
}

// `hours`, the calendar units and `signs` hold one value; the other keys hold a map, one entry a limb.
std::string limbs_text(const std::vector<Limb>& limbs) {
  std::string text = "{";
  std::vector<std::string> closed;
  for (std::size_t i = 0; i < limbs.size();) {
    const std::string key = key_of(limbs[i]);
    if (std::find(closed.begin(), closed.end(), key) != closed.end())
      throw std::logic_error("limbs of one key are not side by side: " + key);
    closed.push_back(key);
    if (i > 0) text += ", ";
    text += key + ": ";
    const Limb& limb = limbs[i];
    if (limb.kind == Kind::calendar) {
      text += std::to_string(limb.count);
      ++i;
    } else if (key == "hours") {
      text += decimal(limb.amount);
      ++i;
    } else if (limb.kind == Kind::sign) {
      text += list_of(limb.signs);
      ++i;
    } else {
      text += "{";
      bool first = true;
      for (; i < limbs.size() && key_of(limbs[i]) == key; ++i) {
        const Limb& l = limbs[i];
        if (!first) text += ", ";
        first = false;
        if (l.kind == Kind::usage) text += l.meter + ": " + decimal(l.amount);
        if (l.kind == Kind::changes) text += l.name + ": " + std::to_string(l.count);
        if (l.kind == Kind::season) text += l.name + ": " + std::to_string(l.count) + " days before";
        if (l.kind == Kind::measured)
          text += l.name + ": {" + (l.above ? "above: " : "below: ") + decimal(l.amount) + ", unit: " + l.measure_unit +
                  "}";
      }
      text += "}";
    }
  }
  return text + "}";
}

std::string grace_text(const Grace& grace) {
  if (grace.percent) return std::to_string(*grace.percent) + "%";
  std::string text;
  const auto add = [&text](const std::string& part) { text += (text.empty() ? "" : ", ") + part; };
  if (grace.hours) add("hours: " + decimal(*grace.hours));
  if (!grace.usage.empty()) {
    std::string of;
    for (const auto& [meter, amount] : grace.usage) of += (of.empty() ? "" : ", ") + meter + ": " + decimal(amount);
    add("usage: {" + of + "}");
  }
  if (grace.days) add("days: " + std::to_string(*grace.days));
  if (grace.changes) add("changes: " + std::to_string(*grace.changes));
  return "{" + text + "}";
}

std::string meters_text(const std::vector<Meter>& meters) {
  std::string text;
  for (const Meter& m : meters) {
    text += (text.empty() ? "" : ", ") + m.name + ": {unit: " + m.unit;
    if (m.rolls_over_at) text += ", rolls-over-at: " + decimal(*m.rolls_over_at);
    text += "}";
  }
  return "{" + text + "}";
}

std::string start_text(const Start& start) { return "{on: " + iso(start.on) + ", at: " + decimal(start.at) + "}"; }

std::string task_text(const Task& t) {
  std::string text = "  " + t.name + ":\n";
  const auto line = [&text](const std::string& key, const std::string& value) {
    text += "    " + key + ": " + value + "\n";
  };
  line("do", "Do the " + t.name);
  line("every", limbs_text(t.every));
  if (!t.first.empty()) line("first", limbs_text(t.first));
  if (!t.in.empty()) {
    std::string in;
    for (const auto& [condition, limbs] : t.in) in += (in.empty() ? "" : ", ") + condition + ": " + limbs_text(limbs);
    line("in", "{" + in + "}");
  }
  if (t.grace) line("grace", grace_text(*t.grace));
  if (t.safety) line("safety", "true");
  if (t.counts_from == CountsFrom::due) line("counts-from", "due");
  if (t.counts_from == CountsFrom::earlier) line("counts-from", "earlier");
  if (t.until_month_end) line("until", "month-end");
  if (!t.covers.empty()) line("covers", list_of(t.covers));
  if (!t.positions.empty()) line("positions", list_of(t.positions));
  if (!t.follow_ups.empty()) {
    std::string ups;
    for (const FollowUp& f : t.follow_ups)
      ups += (ups.empty() ? "" : ", ") + f.name + ": {do: Check it, within: " + limbs_text(f.within) + "}";
    line("follow-up", "{" + ups + "}");
  }
  if (t.competent_person) line("by-whom", "competent-person");
  if (t.parts) line("parts", "{seal: 1}");
  return text;
}

std::string date_text(const Span& span) {
  if (span.whole()) return iso(span.first);
  const Civil a = civil_of(span.first);
  const Civil b = civil_of(span.last);
  const std::string full = iso(span.first);
  if (a.year == b.year && a.month == 1 && a.day == 1 && b.month == 12 && b.day == 31) return full.substr(0, 4);
  if (a.year == b.year && a.month == b.month && a.day == 1 && b.day == month_length(b.year, b.month))
    return full.substr(0, 7);
  throw std::logic_error("a span that is neither a month nor a year");
}

const char* kind_word(FactKind kind) {
  switch (kind) {
    case FactKind::reading:
      return "reading";
    case FactKind::service:
      return "service";
    case FactKind::sign:
      return "sign";
    case FactKind::looked_at:
      return "looked-at";
    case FactKind::measurement:
      return "measurement";
    case FactKind::meter_change:
      return "meter-change";
    case FactKind::put_off:
      return "put-off";
    case FactKind::laid_up:
      return "laid-up";
    case FactKind::out_of_use:
      return "out-of-use";
    case FactKind::back:
      return "back";
    case FactKind::strike:
      return "strike";
  }
  return "?";
}

constexpr std::array<const char*, 23> columns{"kind",     "machine",    "on",     "meter", "at",      "task",
                                              "position", "name",       "value",  "unit",  "last",    "first",
                                              "until",    "found",      "by",     "note",  "history", "id",
                                              "entered",  "entered-by", "origin", "batch", "strikes"};
constexpr std::size_t plain_columns = 17;

std::vector<const Fact*> in_order_of_entry(const World& world) {
  std::vector<const Fact*> list;
  for (const Fact& f : world.facts) list.push_back(&f);
  std::sort(list.begin(), list.end(), [](const Fact* a, const Fact* b) { return a->entry < b->entry; });
  return list;
}

}  // namespace

FleetFiles fleet_files(const World& world) {
  FleetFiles files;
  std::string& text = files.fleet;
  text += "fleet: " + world.fleet + "\n";
  text += "time-zone: Europe/Oslo\n";
  if (world.grace) text += "grace: " + grace_text(*world.grace) + "\n";
  text += "sites:\n  yard: {name: Home yard}\n";
  if (!world.seasons.empty()) {
    text += "seasons:\n";
    for (const Season& s : world.seasons)
      text += "  " + s.name + ": {from: " + two(s.from_month) + "-" + two(s.from_day) + ", to: " + two(s.to_month) +
              "-" + two(s.to_day) + "}\n";
  }
  text += "machines:\n";
  for (const Machine& m : world.machines) {
    text += "  " + m.name + ":\n";
    const auto line = [&text](const std::string& key, const std::string& value) {
      text.append("    ").append(key).append(": ").append(value).append("\n");
    };
    line("name", "The " + m.name);
    line("schedule", m.schedule);
    line("site", "yard");
    if (m.in_service) line("in-service", start_text(*m.in_service));
    if (m.bought) line("bought", start_text(*m.bought));
    if (m.left) line("left", iso(*m.left));
    if (!m.meters.empty()) line("meters", meters_text(m.meters));
    if (!m.conditions.empty()) line("conditions", list_of(m.conditions));
    if (!m.changes.empty()) {
      std::string all;
      for (const Change& c : m.changes) {
        std::string one;
        if (!c.every.empty()) one += "every: " + limbs_text(c.every);
        if (!c.first.empty()) one += (one.empty() ? "first: " : ", first: ") + limbs_text(c.first);
        all += (all.empty() ? "" : ", ") + c.task + ": {" + one + "}";
      }
      line("change", "{" + all + "}");
    }
  }
  for (const Schedule& s : world.schedules) {
    std::string schedule = "schedule: " + s.name + "\n";
    if (!s.meters.empty()) schedule += "meters: " + meters_text(s.meters) + "\n";
    schedule += "tasks:\n";
    for (const Task& t : s.tasks) schedule += task_text(t);
    files.schedules.emplace_back("schedules/" + s.name + ".yaml", schedule);
  }
  return files;
}

bool needs_ids(const World& world) {
  return std::any_of(world.facts.begin(), world.facts.end(), [](const Fact& f) { return f.kind == FactKind::strike; });
}

bool has_found_roll_overs(const World& world) {
  return std::any_of(world.facts.begin(), world.facts.end(), [](const Fact& f) { return f.implied; });
}

std::string batch_id(int entry) {
  // Sixteen bytes: six of the time in milliseconds, then the entry number in the last four.
  std::array<unsigned, 16> bytes{};
  std::int64_t ms = entering_began + std::int64_t{entry} * 1000;
  for (std::size_t i = 6; i > 0; --i) {
    bytes[i - 1] = static_cast<unsigned>(ms & 0xff);
    ms >>= 8;
  }
  unsigned n = static_cast<unsigned>(entry);
  for (std::size_t i = 16; i > 12; --i) {
    bytes[i - 1] = n & 0xffu;
    n >>= 8;
  }
  // As a number of 128 bits, written with 26 digits of 5 bits each: the first digit gets the three bits that are
  // left over, so it is 0 to 7. Divided by 32 again and again, byte by byte, as on paper.
  static const std::string digits = "0123456789abcdefghjkmnpqrstvwxyz";
  std::string text(26, '0');
  for (std::size_t place = 26; place > 0; --place) {
    unsigned rest = 0;
    for (unsigned& byte : bytes) {
      const unsigned here = rest * 256 + byte;
      byte = here / 32;
      rest = here % 32;
    }
    text[place - 1] = digits[rest];
  }
  return text;
}

std::string fact_id(int entry) { return batch_id(entry) + "-1"; }

std::string entered_at(int entry) {
  const int second = entry % 60;
  const int minute = entry / 60 % 60;
  const int hour = entry / 3600 % 24;
  return iso(20454 + entry / 86400) + "T" + two(hour) + ":" + two(minute) + ":" + two(second) + ".000Z";
}

std::string facts_csv(const World& world, Rows rows, RollOvers roll_overs) {
  if (rows == Rows::plain && needs_ids(world)) throw std::logic_error("strikes need ids");
  if (rows == Rows::exported && roll_overs == RollOvers::left_out)
    throw std::logic_error("a whole record has its roll-overs");

  const std::size_t used = rows == Rows::plain ? plain_columns : columns.size();
  std::string text;
  for (std::size_t i = 0; i < used; ++i) text += (i == 0 ? "" : ",") + std::string(columns[i]);
  text += "\r\n";
  for (const Fact* f : in_order_of_entry(world)) {
    if (f->implied && roll_overs == RollOvers::left_out) continue;
    std::map<std::string, std::string> cell;
    cell["kind"] = kind_word(f->kind);
    cell["machine"] = f->machine;
    if (f->kind != FactKind::strike) cell["on"] = date_text(f->on);
    cell["meter"] = f->meter;
    if (f->at) cell["at"] = decimal(*f->at);
    cell["task"] = f->task;
    cell["position"] = f->position;
    cell["name"] = f->name;
    if (f->value) cell["value"] = decimal(*f->value);
    cell["unit"] = f->unit;
    if (f->last) cell["last"] = decimal(*f->last);
    if (f->first) cell["first"] = decimal(*f->first);
    if (f->until) cell["until"] = iso(*f->until);
    if (f->kind == FactKind::looked_at) cell["found"] = f->found_good ? "good" : "worn";
    if (f->kind == FactKind::service && f->found_failed) cell["found"] = "failed";
    if (f->kind == FactKind::service && f->found_worn) cell["found"] = "worn";
    cell["by"] = f->by;
    cell["note"] = f->note;
    if (f->history) cell["history"] = "yes";
    cell["id"] = fact_id(f->entry);
    cell["entered"] = entered_at(f->entry);
    cell["entered-by"] = "twin";
    cell["origin"] = "twin";
    cell["batch"] = batch_id(f->entry);
    if (f->strikes) cell["strikes"] = fact_id(*f->strikes);
    for (std::size_t i = 0; i < used; ++i) {
      const std::string& value = cell[columns[i]];
      // None of the words a world is made of needs quotes; say so rather than write a broken row.
      if (value.find_first_of(",\"\r\n") != std::string::npos) throw std::logic_error("needs quotes: " + value);
      text += (i == 0 ? "" : ",") + value;
    }
    text += "\r\n";
  }
  return text;
}

}  // namespace twin
