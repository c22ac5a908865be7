#include "render/rounds/plan_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>

#include "service/base.h"

namespace cli {
namespace {

// What only a plan made of another one has something in.
constexpr std::array replan_fields{"done", "changes", "not_in_book"};

using nlohmann::json;
using service::Money;
using service::PartAmount;

// Deeper than any plan; beyond it nothing is kept.
constexpr int deepest = 12;

[[noreturn]] void no_json(const std::string& file, std::size_t at) {
  throw service::Failure(service::FailureKind::bad_data,
                         {"no-json", fmt::format("{} is no JSON: it cannot be read from byte {} on", file, at),
                          "give it a plan as `rounds --format json` writes it"});
}

// A number in plain digits, for the strict readers: no figure of a plan has more digits than a double holds.
std::optional<std::string> number_text(const json& value) {
  if (value.is_number_integer() || value.is_number_unsigned()) return value.dump();
  if (value.is_number_float()) return fmt::format("{:.9f}", value.get<double>());
  return std::nullopt;
}

// For a message: short, and safe to show.
std::string shown(const json& value) {
  constexpr std::size_t most = 40;
  std::string text = service::cleaned(value.dump(-1, ' ', true, json::error_handler_t::replace));
  if (text.size() > most) text = text.substr(0, most) + "...";
  return text;
}

// `07:30`, to the end of the day as `24:00`.
std::optional<int> clock_of(const std::string& text) {
  const auto digit = [&](std::size_t at) { return text[at] >= '0' && text[at] <= '9'; };
  if (text.size() != 5 || text[2] != ':' || !digit(0) || !digit(1) || !digit(3) || !digit(4)) return std::nullopt;
  const int hour = (text[0] - '0') * 10 + (text[1] - '0');
  const int minute = (text[3] - '0') * 10 + (text[4] - '0');
  if (minute > 59 || hour > 24 || (hour == 24 && minute > 0)) return std::nullopt;
  return hour * 60 + minute;
}

class Reader {
 public:
  Reader(const std::string& text, const std::string& file) {
    std::vector<std::set<std::string>> keys;
    const auto look = [&](int depth, json::parse_event_t event, json& parsed) {
      if (event == json::parse_event_t::object_start || event == json::parse_event_t::array_start) {
        if (depth >= deepest) return false;
        if (event == json::parse_event_t::object_start) {
          keys.resize(std::max(keys.size(), static_cast<std::size_t>(depth) + 2));
          keys[static_cast<std::size_t>(depth) + 1].clear();
        }
      }
      if (event == json::parse_event_t::key && static_cast<std::size_t>(depth) < keys.size()) {
        auto& seen = keys[static_cast<std::size_t>(depth)];
        const auto& key = parsed.get_ref<const std::string&>();
        if (!seen.insert(key).second) fault(service::cleaned(key), "this key stands twice in one object");
      }
      return true;
    };
    try {
      whole_ = json::parse(text, look);
    } catch (const json::parse_error& error) {
      no_json(file, error.byte);
    } catch (const json::exception&) {
      no_json(file, 0);
    }
  }

  ReadPlan read() {
    if (!whole_.is_object()) {
      fault("", "needs an object with `rounds` and `put_off`, but it is " + shown(whole_));
      read_.lacks_some = true;
      return std::move(read_);
    }
    service::GivenPlan& plan = read_.plan;
    if (const json* scope = given(whole_, "scope"); scope != nullptr && !scope->is_null()) {
      fault("scope", "this is the part of one site alone, and no whole plan");
      read_.lacks_some = true;
    }
    if (const json* left_off = given(whole_, "left_off"); left_off != nullptr && *left_off != 0) {
      fault("left_off", "rows were left off by --first, so it is no whole plan");
      read_.lacks_some = true;
    }
    text(plan.fleet, whole_, "", "fleet");
    text(plan.currency, whole_, "", "currency", true);
    day(plan.as_of, whole_, "", "as_of");
    if (const json* week = object(whole_, "", "week")) {
      day(plan.from, *week, "week.", "from");
      day(plan.to, *week, "week.", "to");
    }
    if (const json* cost = object(whole_, "", "cost")) {
      money(plan.total, *cost, "cost.", "total");
      money(plan.travel, *cost, "cost.", "travel");
      money(plan.waiting, *cost, "cost.", "waiting");
      money(plan.put_off_cost, *cost, "cost.", "put_off");
    }
    count(plan.safety_put_off, whole_, "", "safety_put_off");
    bound();
    gap();
    flag(plan.proven, whole_, "", "proven");
    sequence();
    not_judged(whole_, "sequence");
    plan.replanned = says_replanned();
    each(whole_, "", "rounds", [&](const json& one, const std::string& path) { round(one, path); });
    each(whole_, "", "put_off", [&](const json& one, const std::string& path) { put_off(one, path); });
    note_unread(whole_, "");
    std::stable_partition(read_.unread.begin(), read_.unread.end(), keeps_away);
    return std::move(read_);
  }

 private:
  void fault(std::string where, std::string says) {
    read_.faults.push_back({service::PlanRule::form, std::move(where), std::move(says)});
  }

  const json* given(const json& in, const char* key) {
    const auto found = in.find(key);
    if (found == in.end()) return nullptr;
    looked_at_.insert(&*found);
    return &*found;
  }

  // Fields that nobody looked at, by where they stand in the form; each once.
  void note_unread(const json& in, const std::string& path) {
    if (in.is_array()) {
      for (const json& one : in) note_unread(one, path + "[]");
      return;
    }
    if (!in.is_object()) return;
    for (const auto& [key, value] : in.items()) {
      const std::string at = path.empty() ? service::cleaned(key) : path + '.' + service::cleaned(key);
      if (looked_at_.contains(&value)) {
        if (!whole_fields().contains(at)) note_unread(value, at);
      } else if (told_.insert(at).second) {
        read_.unread.push_back(at);
      }
    }
  }

  // Of a field by which people keep away from a machine: told first, for people read no further.
  static bool keeps_away(const std::string& field) {
    constexpr std::array fields{"safety", "do_not_run", "keep_out_of_use"};
    return std::any_of(fields.begin(), fields.end(),
                       [&](const char* one) { return field == one || field.ends_with(std::string(".") + one); });
  }

  // Taken as a whole, whatever keys are in them.
  static const std::set<std::string>& whole_fields() {
    static const std::set<std::string> fields{"rounds[].parts", "rounds[].fluids"};
    return fields;
  }

  // It is read where the plan is kept, and no rule goes by it.
  void not_judged(const json& in, const char* key) {
    if (const auto found = in.find(key); found != in.end()) looked_at_.erase(&*found);
  }

  // A plan made of another one says what that did, and what it changed of it.
  bool says_replanned() const {
    return std::any_of(replan_fields.begin(), replan_fields.end(), [&](const char* key) {
      const auto found = whole_.find(key);
      return found != whole_.end() && found->is_array() && !found->empty();
    });
  }

  // Of another shape than it needs.
  void other(const std::string& path, const char* key, std::string_view needs, const json& value) {
    fault(path + key, fmt::format("needs {}, but it is {}", needs, shown(value)));
  }

  const json* object(const json& in, const std::string& path, const char* key) {
    const json* const value = given(in, key);
    if (value == nullptr || value->is_object()) return value;
    other(path, key, "an object", *value);
    return nullptr;
  }

  template <class Take>
  void each(const json& in, const std::string& path, const char* key, const Take& take) {
    const json* const value = given(in, key);
    if (value == nullptr || !value->is_array()) {
      if (value == nullptr) fault(path + key, "is missing: it needs a list, which may be empty");
      if (value != nullptr) other(path, key, "a list", *value);
      read_.lacks_some = true;
      return;
    }
    std::size_t number = 0;
    for (const json& one : *value) {
      const std::string at = fmt::format("{}{}[{}]", path, key, number++);
      if (one.is_object()) {
        take(one, at + '.');
        continue;
      }
      fault(at, fmt::format("needs an object, but it is {}", shown(one)));
      read_.lacks_some = true;
    }
  }

  bool text(std::string& to, const json& in, const std::string& path, const char* key) {
    const json* const value = given(in, key);
    if (value != nullptr && value->is_string() && !value->get_ref<const std::string&>().empty()) {
      to = value->get<std::string>();
      return true;
    }
    if (value == nullptr) fault(path + key, "is missing");
    if (value != nullptr) other(path, key, "a text", *value);
    read_.lacks_some = true;
    return false;
  }

  // `nothing`: what null stands for, where it may be given.
  void text(std::optional<std::string>& to, const json& in, const std::string& path, const char* key,
            bool may_be_null = false) {
    const json* const value = given(in, key);
    if (value == nullptr) return;
    if (value->is_string()) {
      to = value->get<std::string>();
    } else if (may_be_null && value->is_null()) {
      to = "";
    } else {
      other(path, key, may_be_null ? "a text, or null" : "a text", *value);
    }
  }

  template <class Value, class Parse>
  void take(std::optional<Value>& to, const json& in, const std::string& path, const char* key, std::string_view needs,
            const Parse& parse) {
    const json* const value = given(in, key);
    if (value == nullptr) return;
    to = parse(*value);
    if (!to) other(path, key, needs, *value);
  }

  static std::optional<service::Day> day_of(const json& value) {
    return value.is_string() ? service::parse_day(value.get_ref<const std::string&>()).value : std::nullopt;
  }

  void day(std::optional<service::Day>& to, const json& in, const std::string& path, const char* key) {
    take(to, in, path, key, "a day such as 2026-05-04", day_of);
  }

  void clock(std::optional<int>& to, const json& in, const std::string& path, const char* key) {
    take(to, in, path, key, "a time such as 07:30", [](const json& value) {
      return value.is_string() ? clock_of(value.get_ref<const std::string&>()) : std::nullopt;
    });
  }

  void count(std::optional<int>& to, const json& in, const std::string& path, const char* key) {
    take(to, in, path, key, "a whole number", [](const json& value) {
      const auto number = number_text(value);
      return number ? service::parse_count(*number).value : std::nullopt;
    });
  }

  static std::optional<Money> money_of(const json& value) {
    const auto number = number_text(value);
    return number ? service::parse_exact<Money>(*number).value : std::nullopt;
  }

  void money(std::optional<Money>& to, const json& in, const std::string& path, const char* key) {
    take(to, in, path, key, "money with two decimals at most", money_of);
  }

  void kilometres(std::optional<int>& to, const json& in, const std::string& path) {
    take(to, in, path, "km", "km with one decimal at most", [](const json& value) -> std::optional<int> {
      const auto number = number_text(value);
      const auto hundredths = number ? service::parse_hundredths(*number).value : std::nullopt;
      if (!hundredths || *hundredths % 10 != 0 || *hundredths > 10'000'000) return std::nullopt;
      return static_cast<int>(*hundredths / 10);
    });
  }

  void flag(std::optional<bool>& to, const json& in, const std::string& path, const char* key) {
    take(to, in, path, key, "true or false",
         [](const json& value) { return value.is_boolean() ? std::optional(value.get<bool>()) : std::nullopt; });
  }

  void marks(service::GivenMarks& to, const json& in, const std::string& path) {
    flag(to.do_not_run, in, path, "do_not_run");
    flag(to.keep_out_of_use, in, path, "keep_out_of_use");
  }

  void bound() {
    const json* const value = object(whole_, "", "bound");
    if (value == nullptr) return;
    std::optional<int> safety;
    std::optional<Money> total;
    count(safety, *value, "bound.", "safety_put_off");
    money(total, *value, "bound.", "total");
    if (safety && total) {
      read_.plan.bound = {*safety, *total};
    } else if (!value->contains("safety_put_off") || !value->contains("total")) {
      fault("bound", "needs both `safety_put_off` and `total`");
    }
  }

  void sequence() {
    take(read_.plan.sequence, whole_, "", "sequence", "the number of its calendar", [](const json& value) {
      constexpr std::int64_t highest = 2'147'483'647;  // RFC 5545, 3.3.8
      const auto number = value.is_number_integer() ? std::optional(value.get<std::int64_t>()) : std::nullopt;
      return number && *number >= 0 && *number <= highest ? number : std::nullopt;
    });
  }

  void gap() {
    const json* const value = given(whole_, "gap");
    if (value == nullptr || value->is_null()) return;
    const auto number = number_text(*value);
    const auto share = number ? service::parse_measure(*number).value : std::nullopt;
    if (share && share->millionths >= 0 && share->millionths <= 1'000'000) {
      read_.plan.gap_millionths = share->millionths;
    } else {
      other("", "gap", "a share from 0 to 1 with six decimals at most", *value);
    }
  }

  using Amounts = std::vector<std::pair<std::string, PartAmount>>;
  using Poured = std::vector<std::pair<std::string, service::Quantity>>;

  void parts(std::optional<Amounts>& to, const json& in, const std::string& path) {
    const json* const value = object(in, path, "parts");
    if (value == nullptr) return;
    to.emplace();
    for (const auto& [key, pieces] : value->items()) {
      const auto number = number_text(pieces);
      const auto amount = number ? service::parse_exact<PartAmount>(*number).value : std::nullopt;
      if (amount) {
        to->emplace_back(key, *amount);
      } else {
        fault(fmt::format("{}parts.{}", path, service::cleaned(key)),
              fmt::format("needs a number of pieces, but it is {}", shown(pieces)));
      }
    }
  }

  // `11.5 L`; of a fluid in two units both, with a plus between them.
  void fluids(std::optional<Poured>& to, const json& in, const std::string& path) {
    const json* const value = object(in, path, "fluids");
    if (value == nullptr) return;
    to.emplace();
    for (const auto& [key, written] : value->items()) {
      if (written.is_string() && add_amounts(*to, key, written.get_ref<const std::string&>())) continue;
      fault(fmt::format("{}fluids.{}", path, service::cleaned(key)),
            fmt::format("needs an amount such as \"11.5 L\", but it is {}", shown(written)));
    }
  }

  static bool add_amounts(Poured& to, const std::string& key, const std::string& written) {
    constexpr std::string_view plus = " + ";
    std::string_view rest = written;
    while (true) {
      const std::size_t end = rest.find(plus);
      const std::string_view one = rest.substr(0, end);
      const std::size_t blank = std::min(one.find(' '), one.size());
      const auto amount = service::parse_exact<PartAmount>(one.substr(0, blank));
      if (!amount) return false;
      to.emplace_back(key, service::Quantity{*amount, std::string(one.substr(std::min(blank + 1, one.size())))});
      if (end == std::string_view::npos) return true;
      rest.remove_prefix(end + plus.size());
    }
  }

  void tasks(std::optional<std::vector<service::GivenTask>>& to, const json& in, const std::string& path) {
    const json* const value = given(in, "tasks");
    if (value == nullptr) return;
    if (!value->is_array()) return other(path, "tasks", "a list", *value);
    to.emplace();
    std::size_t number = 0;
    for (const json& one : *value) {
      const std::string at = fmt::format("{}tasks[{}]", path, number++);
      std::optional<std::string> name;
      std::optional<std::string> position;
      if (one.is_object()) {
        text(name, one, at + '.', "task");
        text(position, one, at + '.', "position", true);
      }
      if (name && !name->empty()) {
        service::GivenTask& task = to->emplace_back();
        task.task = *name;
        task.position = position.value_or("");
        flag(task.marks.safety, one, at + '.', "safety");
        marks(task.marks, one, at + '.');
      } else if (!one.is_object() || !one.contains("task")) {
        fault(at, fmt::format("needs an object with a `task`, but it is {}", shown(one)));
      }
    }
  }

  void stop(service::GivenRound& round, const json& in, const std::string& path) {
    service::GivenStop stop;
    if (!text(stop.visit, in, path, "visit")) return;
    text(stop.site, in, path, "site");
    text(stop.machine, in, path, "machine", true);
    text(stop.call, in, path, "call", true);
    clock(stop.arrives, in, path, "arrives");
    clock(stop.starts, in, path, "starts");
    clock(stop.ends, in, path, "ends");
    count(stop.drive_min, in, path, "drive_min");
    count(stop.set_up_min, in, path, "set_up_min");
    count(stop.work_min, in, path, "work_min");
    kilometres(stop.tenths_of_km, in, path);
    money(stop.waiting, in, path, "waiting");
    tasks(stop.tasks, in, path);
    text(stop.uid, in, path, "uid");
    std::optional<bool> promised;
    flag(promised, in, path, "promised");
    flag(stop.marks.safety, in, path, "safety");
    marks(stop.marks, in, path);
    stop.promised = promised.value_or(false);
    stop.says_not_promised = promised == false;
    not_judged(in, "uid");
    round.stops.push_back(std::move(stop));
  }

  void round(const json& in, const std::string& path) {
    service::GivenRound round;
    const std::size_t before = read_.faults.size();
    const bool has_crew = text(round.crew, in, path, "crew");
    std::optional<service::Day> on;
    day(on, in, path, "on");
    if (!in.contains("on")) fault(path + "on", "is missing");
    const std::size_t behind = read_.faults.size();
    clock(round.leaves, in, path, "leaves");
    clock(round.back, in, path, "back");
    count(round.drive_min, in, path, "drive_min");
    count(round.set_up_min, in, path, "set_up_min");
    count(round.work_min, in, path, "work_min");
    kilometres(round.tenths_of_km, in, path);
    money(round.cost, in, path, "cost");
    parts(round.parts, in, path);
    fluids(round.fluids, in, path);
    each(in, path, "stops", [&](const json& one, const std::string& at) { stop(round, one, at); });
    if (!has_crew || !on) {
      read_.lacks_some = true;
      unread(round, before, behind);
      return;
    }
    round.on = *on;
    read_.plan.rounds.push_back(std::move(round));
  }

  // What is wrong with its crew or day is said with what that leaves unmade.
  void unread(const service::GivenRound& round, std::size_t from, std::size_t to) {
    const auto first = read_.faults.begin() + static_cast<std::ptrdiff_t>(from);
    service::UnreadRound& one = read_.plan.unread.emplace_back();
    one.where = first->where;
    one.says = first->says;
    for (const service::GivenStop& stop : round.stops) one.visits.push_back(stop.visit);
    if (to > from) read_.faults.erase(first);
  }

  void put_off(const json& in, const std::string& path) {
    service::GivenPutOff out;
    if (!text(out.visit, in, path, "visit")) return;
    flag(out.safety, in, path, "safety");
    marks(out.marks, in, path);
    text(out.reason, in, path, "reason");
    day(out.until, in, path, "until");
    money(out.cost, in, path, "cost");
    read_.plan.put_off.push_back(std::move(out));
  }

  json whole_;
  std::set<const json*> looked_at_;
  std::set<std::string> told_;
  ReadPlan read_;
};

}  // namespace

ReadPlan read_plan(const std::string& text, const std::string& file) { return Reader(text, file).read(); }

}  // namespace cli
