#include "snapshot/judge_meters.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace service {
namespace {

// A value on the line that a meter draws: `before` is what it showed when the day's step began, `after` what it shows
// from then on (another value where the meter was changed).
struct Step {
  const Fact* fact = nullptr;
  Day day;
  Amount before;
  Amount after;
  std::optional<std::size_t> row;  // of a new one
  bool change = false;             // of the meter itself
};

std::string with_unit(Amount amount, const Meter& meter) { return to_text(amount) + ' ' + meter.unit; }

// A value and its day; what the fleet file gives is the meter's start.
std::string told(const Step& step, Amount shown, const Meter& meter) {
  return fmt::format("{}{} on {}", with_unit(shown, meter), step.fact == nullptr ? " at its start" : "",
                     to_text(step.day));
}

Cure strike(const Fact& fact, std::string which, Amount shown, const Meter& meter) {
  return {CureKind::strike_fact,
          {{"fact", to_text(fact.id)},
           {"which", std::move(which)},
           {"shown", with_unit(shown, meter)},
           {"on", to_text(fact.on)}}};
}

// What one could do about an older value that is in the way of a newer one.
Cure cure_for(const Step& older, const Machine& machine, const Meter& meter) {
  if (older.fact == nullptr) return {CureKind::mend_start, {{"machine", machine.key}}};
  if (older.row) return {CureKind::mend_earlier_row};
  return strike(*older.fact, "earlier", older.after, meter);
}

// What one could do about a newer value that is known, where the older one was just told.
Cure cure_for_known(const Step& newer, const Machine& machine, const Meter& meter) {
  if (newer.fact == nullptr) return {CureKind::mend_start, {{"machine", machine.key}}};
  return strike(*newer.fact, "later", newer.before, meter);
}

Amount most_in(Day from, Day to) { return on_hour_meter(std::chrono::hours{24} * (days_between(from, to) + 1)); }

// No hour meter has run for longer, whatever it is on: a hundred years by day and night. The figure is ours.
constexpr Amount most_ever = on_hour_meter(std::chrono::hours{24} * 36525);

bool beyond_all(Amount shown, const Meter& meter) { return meter.unit == "h" && shown > most_ever; }

Diagnostic never_shown(const Machine& machine, const Meter& meter, Amount shown, const DaySpan& on) {
  return {"reading-beyond",
          fmt::format("meter `{}` of {} shows {} on {}: over 24 h a day for a hundred years", meter.name, machine.key,
                      with_unit(shown, meter), to_text(on)),
          "",
          std::nullopt,
          Severity::error,
          {{CureKind::mend_value, {{"slip", "point"}}}}};
}

class Walk {
 public:
  Walk(const Machine& machine, const Meter& meter) : machine_(machine), meter_(meter) {}

  void take(const Step& step) {
    // Of any other value what the meter showed before tells more.
    const bool first = !last_ && beyond_all(step.before, meter_);
    const bool fresh = step.change && beyond_all(step.after, meter_);
    if (step.row && (first || fresh)) {
      refuse(step, never_shown(machine_, meter_, first ? step.before : step.after, step.fact->on));
      return;
    }
    if (!last_) {
      accept(step, Amount{});
      return;
    }
    const bool is_new = step.row || last_->row;
    if (read_to_whole_unit(step.before, last_->after)) {
      take_whole(step);
      return;
    }
    // Known values that contradict each other came with another copy of the book: the higher one holds.
    if (!is_new && step.before < last_->after && !step.change) {
      reading_day_ = step.day;
      return;
    }
    if (is_new && step.before < last_->after) {
      if (step.row && rolls_over(*last_, step)) {
        accept(step, Amount{});
      } else {
        refuse_lower(step);
      }
      return;
    }
    // Measured from the last reading: a change in between may stand on a later day than it happened (a roll-over is
    // recorded with the reading that shows it).
    const Amount used = carried_ + (step.before - last_->after);
    if (is_new && meter_.unit == "h" && used > most_in(reading_day_.value_or(last_->day), step.day)) {
      refuse_too_much(step);
      return;
    }
    accept(step, used);
  }

  MeterJudgement judgement;

 private:
  void accept(const Step& step, Amount used) {
    last_ = step;
    holds_ = step;
    carried_ = step.change ? used : Amount{};
    if (!step.change) reading_day_ = step.day;
  }

  // The tenths were left out: the meter shows what it showed.
  void take_whole(Step step) {
    if (step.row) judgement.whole_units.push_back({*step.row, step.before, last_->after, meter_.unit});
    step.before = last_->after;
    if (!step.change) step.after = last_->after;
    const auto holds = holds_;
    accept(step, carried_);
    if (!step.change) holds_ = holds;
  }

  // A declared roll-over explains a lower value where the use that it implies fits into the days between.
  bool rolls_over(const Step& older, const Step& newer) {
    if (!meter_.rolls_over_at || meter_.unit != "h" || older.after > *meter_.rolls_over_at) return false;
    if (newer.fact->kind == FactKind::meter_change) return false;
    const Amount implied = *meter_.rolls_over_at - older.after + newer.before;
    if (implied > most_in(older.day, newer.day)) return false;
    Fact change;
    change.kind = FactKind::meter_change;
    change.machine = machine_.key;
    change.on = newer.day;
    change.meter = meter_.name;
    change.last = *meter_.rolls_over_at;
    change.first = Amount{};
    judgement.roll_overs.push_back({*newer.row, std::move(change)});
    return true;
  }

  // Refuses the newer of two steps that cannot follow each other, or the older one where the newer one is known.
  // The refused one is out of the line; the walk goes on from the other.
  void refuse(const Step& step, Diagnostic why) {
    const Step& refused = step.row ? step : *last_;
    judgement.refused.push_back({*refused.row, std::move(why)});
    if (!step.row) accept(step, Amount{});
  }

  void refuse_lower(const Step& step) {
    const Step& older = step.row ? *holds_ : *last_;
    std::string message = fmt::format("meter `{}` of {} shows {}, which is lower than {}", meter_.name, machine_.key,
                                      told(step, step.before, meter_), told(older, older.after, meter_));
    Diagnostic why{"reading-falls", std::move(message), ""};
    if (!step.row && step.change) {
      why.hint = "the book has a change of the meter on that day";
      why.cures = {strike(*step.fact, "in-the-way", step.before, meter_)};
    } else if (!step.row) {
      why.cures = {{CureKind::mend_value, {{"slip", "day"}}}, cure_for_known(step, machine_, meter_)};
    } else {
      Cure went_past{CureKind::roll_over,
                     {{"machine", machine_.key}, {"meter", meter_.name}, {"on", to_text(step.day)}}};
      why.cures = {{CureKind::mend_value},
                   meter_replaced(older, Amount{}, step.day),
                   std::move(went_past),
                   cure_for(older, machine_, meter_)};
    }
    refuse(step, std::move(why));
  }

  Cure meter_replaced(const Step& older, Amount first, Day on) const {
    return {CureKind::change_meter,
            {{"machine", machine_.key},
             {"meter", meter_.name},
             {"last", to_text(older.after)},
             {"first", to_text(first)},
             {"on", to_text(on)}}};
  }

  void refuse_too_much(const Step& step) {
    const Step& older = *last_;
    std::string message = fmt::format("meter `{}` of {} shows {}, {} more than {}: over 24 h a day", meter_.name,
                                      machine_.key, told(step, step.before, meter_),
                                      with_unit(step.before - older.after, meter_), told(older, older.after, meter_));
    Diagnostic why{"reading-jumps", std::move(message), ""};
    why.cures = {{CureKind::mend_value, {{"slip", "point"}}},
                 meter_replaced(older, step.before, step.day),
                 step.row ? cure_for(older, machine_, meter_) : cure_for_known(step, machine_, meter_)};
    refuse(step, std::move(why));
  }

  const Machine& machine_;
  const Meter& meter_;
  std::optional<Step> last_;
  std::optional<Step> holds_;       // whose value that is: an earlier one where the last was read without its tenths
  std::optional<Day> reading_day_;  // of the last step that was a reading
  Amount carried_;                  // use since then, through changes of the meter
};

// A service known by year or month only gives the usage at fitting. It must lie between what the meter showed before
// and after its span, as far as no change of the meter lies between.
std::optional<Diagnostic> judge_partial(const Machine& machine, const Meter& meter, const Fact& fact,
                                        const std::vector<MeterEvent>& events,
                                        const std::vector<RollOver>& roll_overs) {
  const MeterEvent* before = nullptr;
  const MeterEvent* after = nullptr;
  for (const MeterEvent& event : events) {
    if (event.day < fact.on.first) before = &event;
    if (event.day > fact.on.last && after == nullptr) after = &event;
  }
  const auto between = [&](Day day) {
    return (before == nullptr || day >= before->day) && (after == nullptr || day <= after->day);
  };
  for (const MeterEvent& event : events) {
    if (event.fresh && &event != before && between(event.day)) return std::nullopt;
  }
  for (const RollOver& roll_over : roll_overs) {
    if (between(roll_over.change.on.first)) return std::nullopt;
  }
  const auto wrong = [&](std::string_view than, Amount shown, Day day) {
    return Diagnostic{
        "value-off-the-line",
        fmt::format("meter `{}` of {} cannot have shown {} in {}: {} {} on {}", meter.name, machine.key,
                    with_unit(*fact.at, meter), to_text(fact.on), than, with_unit(shown, meter), to_text(day)),
        "mend the value or the date, or leave the value out"};
  };
  if (before != nullptr) {
    const Amount shown = before->fresh.value_or(before->shown);
    if (*fact.at < shown && !read_to_whole_unit(*fact.at, shown)) return wrong("it already showed", shown, before->day);
  }
  const bool is_above = after != nullptr && *fact.at > after->shown && !read_to_whole_unit(after->shown, *fact.at);
  if (is_above) return wrong("it still showed", after->shown, after->day);
  return std::nullopt;
}

}  // namespace

MeterJudgement judge_meter_values(const Machine& machine, const Meter& meter, const FactPointers& known,
                                  const std::vector<NewValue>& values) {
  FactPointers facts = known;
  for (const NewValue& value : values) facts.push_back(value.fact);
  std::stable_sort(facts.begin(), facts.end(), [](const Fact* a, const Fact* b) { return before(*a, *b); });

  const auto row_of = [&](const Fact* fact) -> std::optional<std::size_t> {
    if (fact == nullptr) return std::nullopt;
    const auto found =
        std::lower_bound(values.begin(), values.end(), *fact,
                         [](const NewValue& value, const Fact& other) { return before(*value.fact, other); });
    if (found == values.end() || found->fact->id != fact->id) return std::nullopt;
    return found->row;
  };

  Walk walk(machine, meter);
  const auto events = meter_events(machine, meter, facts);
  for (const MeterEvent& event : events) {
    walk.take({event.fact, event.day, event.shown, event.fresh.value_or(event.shown), row_of(event.fact),
               event.fresh.has_value()});
  }
  for (const NewValue& value : values) {
    const Fact& fact = *value.fact;
    if (fact.kind != FactKind::service || fact.on.whole_day() || !fact.at) continue;
    if (beyond_all(*fact.at, meter)) {
      walk.judgement.refused.push_back({value.row, never_shown(machine, meter, *fact.at, fact.on)});
      continue;
    }
    if (auto wrong = judge_partial(machine, meter, fact, events, walk.judgement.roll_overs)) {
      walk.judgement.refused.push_back({value.row, std::move(*wrong)});
    }
  }
  return std::move(walk.judgement);
}

}  // namespace service
