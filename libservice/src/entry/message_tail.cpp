#include "entry/message_tail.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "entry/message_who.h"
#include "entry/others_figures.h"
#include "service/telling.h"
#include "service/text.h"
#include "service/typed.h"

namespace service::entry::message {
namespace {

bool is_unit_of_time(std::string_view unit) {
  constexpr std::array<std::string_view, 5> hours{"h", "hr", "hrs", "hour", "hours"};
  return std::find(hours.begin(), hours.end(), unit) != hours.end();
}

bool is_unit(const std::string& written, const std::string& unit) {
  const std::string folded = folded_name(written);
  return folded == folded_name(unit) || (unit == "h" && is_unit_of_time(folded));
}

constexpr std::array<std::string_view, 8> clause_names{"at", "on", "meter", "found", "by", "note", "sure", "checked"};

class TailReader {
 public:
  TailReader(const Told& told, const Machine& machine, Verb verb, Words words)
      : told_(told), machine_(machine), verb_(verb), words_(words) {}

  Tail read() {
    while (at_ < words_.size()) clause();
    return std::move(tail_);
  }

 private:
  bool allows(std::string_view name) const {
    if (name == "at" || name == "meter" || name == "sure") return verb_ == Verb::reading || verb_ == Verb::done;
    if (name == "by") return true;
    if (name == "found") return verb_ == Verb::done || verb_ == Verb::looked;
    if (name == "note" || name == "checked") return verb_ == Verb::done;
    return name == "on";
  }

  // The clause that a word begins, with dashes or without.
  std::string clause_of(const Word& word) const {
    const std::string option = option_of(word);
    const std::string name = option.empty() && !word.quoted ? folded_name(word.text) : option;
    const bool known = std::find(clause_names.begin(), clause_names.end(), name) != clause_names.end();
    return known && allows(name) ? name : "";
  }

  const Word& value_of(const std::string& name) {
    if (at_ == words_.size()) wrong("no-value", fmt::format("nothing stands behind `{}`", name), "say what it is");
    return words_[at_++];
  }

  // All up to the next clause with dashes.
  std::string note() {
    const std::size_t from = at_;
    while (at_ < words_.size() && option_of(words_[at_]).empty()) ++at_;
    if (from == at_) value_of("note");
    return joined(words_.subspan(from, at_ - from));
  }

  // All up to what may stand behind a name: a clause, a day, a value. A comma ends it.
  std::string name() {
    std::vector<Word> words;
    while (at_ < words_.size() && clause_of(words_[at_]).empty() && !begins_day_or_value(words_[at_])) {
      words.push_back(words_[at_++]);
      const bool ends = !words.back().quoted && words.back().text.size() > 1 && words.back().text.ends_with(',');
      if (!ends) continue;
      words.back().text.pop_back();
      break;
    }
    if (words.empty() && at_ < words_.size()) return who_told(told_, words_.subspan(at_, 1));
    if (words.empty()) value_of("by");
    return who_told(told_, words);
  }

  static bool begins_day_or_value(const Word& word) {
    return !word.quoted && (is_like_a_day(word.text) || value_in(word.text));
  }

  void clause() {
    const Word& word = words_[at_];
    const std::string name = clause_of(word);
    if (!name.empty()) {
      ++at_;
      named(name);
    } else if (!word.quoted && is_like_a_day(word.text)) {
      ++at_;
      day(word.text);
    } else if (!word.quoted && value_in(word.text) && allows("at")) {
      ++at_;
      value(word.text, false);
    } else if (const auto meter = meter_in(word); meter && allows("meter")) {
      ++at_;
      once(tail_.meter.empty(), "two meters");
      tail_.meter = *meter;
    } else {
      wrong("not-understood", fmt::format("`{}` is not understood there", joined(words_.subspan(at_))), "");
    }
  }

  void named(const std::string& name) {
    if (name == "at") {
      value(value_of(name).text, true);
    } else if (name == "on") {
      day(value_of(name).text);
    } else if (name == "meter") {
      once(tail_.meter.empty(), "two meters");
      tail_.meter = meter_told(machine_, value_of(name).text);
    } else if (name == "found") {
      const std::string written = value_of(name).text;
      once(!tail_.found, "twice how it was found");
      tail_.found = parse_found(folded_name(written));
      if (!tail_.found)
        wrong("bad-found", fmt::format("`found {}` is not understood", written), "say found good, worn or failed");
    } else if (name == "by") {
      once(tail_.by.empty(), "twice who did it");
      tail_.by = this->name();
    } else if (name == "note") {
      once(tail_.note.empty(), "two notes");
      tail_.note = note();
    } else {
      (name == "sure" ? tail_.sure : tail_.checked) = true;
    }
  }

  static void once(bool is_first, std::string_view what) {
    if (!is_first) wrong("said-twice", fmt::format("the line says {}", what), "say one of them, or two lines");
  }

  static bool value_in(const std::string& text) { return is_number(text) || is_number(figure_of(text).number); }

  std::optional<std::string> meter_in(const Word& word) const {
    std::vector<std::string> names;
    for (const Meter& meter : machine_.meters) names.push_back(meter.name);
    std::string_view text = word.text;
    if (text.ends_with(':')) text.remove_suffix(1);
    return word.quoted ? std::nullopt : name_written(text, names);
  }

  void value(const std::string& text, bool is_named) {
    if (tail_.at) {
      wrong("said-twice", fmt::format("the line says two values, {} and {}", tail_.at_text, text),
            "say the right value alone");
    }
    Figure figure{text, ""};
    if (!is_number(text)) figure = figure_of(text);
    if (leaves_a_doubt(figure)) {
      wrong("in-doubt", fmt::format("somebody was not sure of `{}`", text), "say the value alone, once it is sure");
    }
    tail_.at = amount_told(figure.number, "the value");
    tail_.at_text = text;
    tail_.at_is_named = is_named;
    std::string& unit = tail_.unit;
    unit = figure.unit;
    const bool has_next = unit.empty() && at_ < words_.size() && !words_[at_].quoted;
    if (has_next && is_some_unit(words_[at_].text)) unit = words_[at_++].text;
    if (unit.empty()) return;
    tail_.at_is_named = true;
    const bool fits = std::any_of(machine_.meters.begin(), machine_.meters.end(),
                                  [&](const Meter& meter) { return is_unit(unit, meter.unit); });
    if (!fits) {
      wrong("other-unit", fmt::format("no meter of {} counts in `{}`", machine_.key, unit),
            fmt::format("{}: give the value as it shows it", units_counted(machine_)));
    }
  }

  bool is_some_unit(const std::string& text) const {
    if (is_unit_of_time(folded_name(text))) return true;
    return std::any_of(told_.fleet.machines.begin(), told_.fleet.machines.end(), [&](const Machine& machine) {
      return std::any_of(machine.meters.begin(), machine.meters.end(),
                         [&](const Meter& meter) { return is_unit(text, meter.unit); });
    });
  }

  void day(const std::string& text) {
    once(!tail_.on, "two days");
    if (!told_.counts_from_today && counts_from_today(text)) {
      wrong("bad-day", fmt::format("from which day `{}` counts is not known", text),
            "write the day itself, as 2026-03-01 or 15.06.2026");
    }
    const auto span = typed_day_span(text, told_.today);
    if (!span) wrong("bad-day", fmt::format("`{}` {}", text, span.problem), std::string(forms_of_days));
    if (verb_ != Verb::done && !span.value->whole_day()) {
      wrong("bad-day", fmt::format("`{}` is not a whole day", text), std::string(forms_of_days));
    }
    tail_.on = *span;
    tail_.day_counts = counts_from_today(text);
  }

  const Told& told_;
  const Machine& machine_;
  Verb verb_;
  Words words_;
  std::size_t at_ = 0;
  Tail tail_;
};

}  // namespace

Tail tail_in(const Told& told, const Machine& machine, Verb verb, Words words) {
  return TailReader(told, machine, verb, words).read();
}

std::string units_counted(const Machine& machine) {
  std::vector<std::string> meters;
  for (const Meter& meter : machine.meters) meters.push_back(fmt::format("meter {} counts {}", meter.name, meter.unit));
  if (meters.empty()) return "it has no meter";
  const std::string& unit = machine.meters.front().unit;
  if (meters.size() == 1) return "its meter counts " + unit;
  if (std::all_of(machine.meters.begin(), machine.meters.end(),
                  [&](const Meter& meter) { return meter.unit == unit; })) {
    return "its meters count " + unit;
  }
  return fmt::format("its {}", fmt::join(meters, ", "));
}

void insist_on_unit(const Machine& machine, const Tail& tail) {
  const std::string& unit = tail.unit;
  const Meter* meter = tail.meter.empty() ? machine.first_meter() : machine.meter(tail.meter);
  if (unit.empty() || meter == nullptr || is_unit(unit, meter->unit)) return;
  std::vector<std::string> names;
  for (const Meter& other : machine.meters) {
    if (is_unit(unit, other.unit)) names.push_back(other.name);
  }
  wrong("other-unit",
        fmt::format("meter `{}` of {} counts in {}, and this is in {}", meter->name, machine.key, meter->unit, unit),
        fmt::format("say which meter: meter {}", fmt::join(names, " or ")));
}

void insist_on_plain_value(const Tail& tail) {
  if (!tail.at || tail.at_is_named) return;
  const std::string& text = tail.at_text;
  constexpr std::size_t year = 4;
  const bool is_year = text.size() == year && text.find_first_not_of("0123456789") == std::string::npos &&
                       text >= "1900" && text <= "2199";
  if (is_year && !tail.on) {
    wrong("value-or-day", fmt::format("`{}` may be what the meter showed, or a year", text),
          fmt::format("say at {0}, or on {0}", text));
  }
  const auto point = text.find('.');
  const bool is_day_of_year = point < 3 && text.size() - point == 3 && !tail.on;
  if (is_day_of_year && parse_day_span(fmt::format("2000-{}-{:0>2}", text.substr(point + 1), text.substr(0, point)))) {
    wrong("value-or-day", fmt::format("`{}` may be what the meter showed, or a day without its year", text),
          fmt::format("say at {}, or the whole day", text));
  }
}

bool is_like_a_day(const std::string& text) {
  if (counts_from_today(text)) return true;
  if (typed_amount(text) || text.empty() || text.find_first_not_of("0123456789./-") != std::string::npos) return false;
  return text.find_first_of("./-", 1) != std::string::npos && text.front() >= '0' && text.front() <= '9';
}

}  // namespace service::entry::message
