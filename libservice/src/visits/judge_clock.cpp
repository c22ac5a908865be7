// The times of a round that are given, each beside its neighbours and the rules of the day.
#include <fmt/format.h>

#include <algorithm>

#include "visits/judge_parts.h"
#include "visits/judge_words.h"

namespace service::visits {
namespace {

constexpr int midnight_after = 24 * 60;

class RoundClock {
 public:
  RoundClock(const Week& week, JudgedRound& round, Faults& faults) : week_(week), round_(round), faults_(faults) {}

  void judge() {
    read();
    judge_stays();
    judge_drives();
    if (!round_.crew_day) return;
    TimedRound asked = timed(week_, *round_.crew_day, round_.way);
    judge_spans(asked);
    judge_hours(asked);
    judge_length(asked);
    // What is impossible between two times that are given is said; how the rest would go around it is nobody's guess.
    // But where the order allows no times at all, other ones would not help.
    if (out_of_step_) {
      for (const std::size_t stop : shut_) asked.stops[stop].spans = nullptr;  // which is said
      judge_gaps(week_, round_, std::move(asked), faults_);
      return;
    }
    if (!has_gaps()) return;
    asked.leaves = leaves_;
    for (std::size_t i = 0; i < stops_.size(); ++i) {
      asked.stops[i].arrives = stops_[i].arrives;
      asked.stops[i].starts = stops_[i].starts;
    }
    judge_gaps(week_, round_, std::move(asked), faults_);
  }

 private:
  struct Times {
    std::optional<int> arrives;
    std::optional<int> starts;  // as given, or as it follows from the end; so the next
    std::optional<int> ends;
    int stay = 0;
    // Where start and end do not agree, the earlier and the later that either allows.
    int earliest_end() const { return std::min(*ends, *starts + stay); }
    int latest_end() const { return std::max(*ends, *starts + stay); }
  };

  std::optional<int> time(const std::optional<int>& given, std::string_view what, const std::string& where) {
    if (!given || (*given >= 0 && *given <= midnight_after)) return given;
    faults_.add(PlanRule::form, where,
                fmt::format("{} at {} minutes after midnight, which is no time of that day", what, *given));
    return std::nullopt;
  }

  void read() {
    const GivenRound& given = *round_.given;
    leaves_ = time(given.leaves, "leaves", round_.where);
    for (std::size_t i = 0; i < given.stops.size(); ++i) {
      const std::string where = round_.where_of(i);
      Times times{time(given.stops[i].arrives, "arrives", where), time(given.stops[i].starts, "starts", where),
                  time(given.stops[i].ends, "ends", where), round_.way.stops[i].stay()};
      stops_.push_back(times);
    }
    back_ = time(given.back, "is back", round_.where);
    Times& last = stops_.back();
    if (back_ && !last.starts && !last.ends) last.ends = *back_ - round_.way.home->minutes;
    for (Times& times : stops_) {
      if (!times.starts && times.ends) times.starts = *times.ends - times.stay;
      if (!times.ends && times.starts) times.ends = *times.starts + times.stay;
    }
    if (!back_ && last.ends) back_ = *last.ends + round_.way.home->minutes;
  }

  bool has_gaps() const {
    return !leaves_ || std::any_of(stops_.begin(), stops_.end(), [](const Times& times) { return !times.starts; });
  }

  Faults::Number fault(const Faults::Cause& cause, PlanRule rule, const std::string& where, std::string says) {
    out_of_step_ = true;
    return faults_.add_figure(cause, rule, where, std::move(says));
  }

  // Why times that hang on the stops before it may be wrong.
  Faults::Cause cause_until(std::size_t stop) {
    const auto cause = round_.cause_until(stop);
    return cause ? cause : put_in(round_, stop, faults_);
  }

  void judge_stays() {
    for (std::size_t i = 0; i < stops_.size(); ++i) {
      const Times& times = stops_[i];
      if (!times.starts) continue;
      if (*times.ends - *times.starts != times.stay) {
        const WayStop& stop = round_.way.stops[i];
        fault(round_.of_day ? round_.of_day : round_.of_stops[i], PlanRule::stay, round_.where_of(i),
              fmt::format("from {} to {} are {} min; set-up {} and work {} min are {}", clock_words(*times.starts),
                          clock_words(*times.ends), *times.ends - *times.starts, stop.set_up_minutes, stop.work_minutes,
                          times.stay));
      } else if (times.arrives && *times.starts < *times.arrives) {
        fault({}, PlanRule::stay, round_.where_of(i),
              fmt::format("starts at {}, before it arrives at {}", clock_words(*times.starts),
                          clock_words(*times.arrives)));
      }
    }
  }

  void judge_drives() {
    std::optional<int> since = leaves_;  // the last time that is known
    int takes = 0;                       // from then on
    const auto judge = [&](std::size_t i, std::string_view does, int at) {
      if (!since || *since + takes <= at) return;
      fault(cause_until(i), PlanRule::drive, round_.where_of(i),
            fmt::format("{} at {}; from {} on it takes {}, so {} at the earliest", does, clock_words(at),
                        clock_words(*since), duration_words(takes), clock_words(*since + takes)));
    };
    for (std::size_t i = 0; i < stops_.size(); ++i) {
      const Times& times = stops_[i];
      takes += round_.way.stops[i].leg->minutes;
      if (times.arrives) {
        judge(i, "arrives", *times.arrives);
        since = times.arrives;
        takes = 0;
      } else if (times.starts) {
        judge(i, "starts", *times.starts);
      }
      if (times.starts) {
        since = times.earliest_end();
        takes = 0;
      } else {
        takes += times.stay;
      }
    }
    judge_back();
  }

  void judge_back() {
    const Times& last = stops_.back();
    if (!back_ || !last.ends) return;
    const int home = round_.way.home->minutes;
    if (*back_ == last.earliest_end() + home || *back_ == last.latest_end() + home) return;
    round_.of_end = fault(
        cause_until(stops_.size() - 1), PlanRule::drive, round_.where,
        fmt::format("is back at {}; its last stop ends at {} and the way home takes {}, so {}", clock_words(*back_),
                    clock_words(*last.ends), duration_words(home), clock_words(*last.ends + home)));
  }

  // Rules that are found broken are not asked for again where the rest of the times is looked for.
  void judge_spans(TimedRound& asked) {
    for (std::size_t i = 0; i < stops_.size(); ++i) {
      TimedStop& stop = asked.stops[i];
      const Times& times = stops_[i];
      const bool shut = stop.spans->empty();  // which is said of the whole day
      if (!shut && times.starts && std::none_of(stop.spans->begin(), stop.spans->end(), [&](const ClockSpan& span) {
            return span.from <= *times.starts && *times.ends <= span.to;
          })) {
        faults_.add(PlanRule::closed, round_.where_of(i),
                    fmt::format("is there from {} to {}; {}", clock_words(*times.starts), clock_words(*times.ends),
                                open_words(week_, *round_.way.stops[i].visit, *round_.crew_day)));
        shut_.push_back(i);
      }
      if (shut) stop.spans = nullptr;
    }
  }

  void judge_hours(TimedRound& asked) {
    if (leaves_ && *leaves_ < asked.from) {
      faults_.add(PlanRule::hours, round_.where,
                  fmt::format("leaves at {}, its hours begin at {}", clock_words(*leaves_), clock_words(asked.from)));
    }
    if (back_ && *back_ > *asked.to) {
      faults_.add(PlanRule::hours, round_.where,
                  fmt::format("back at {}, its hours end at {}", clock_words(*back_), clock_words(*asked.to)));
      asked.to.reset();
    }
  }

  void judge_length(TimedRound& asked) {
    if (!leaves_ || !back_) return;
    const int away = *back_ - *leaves_;
    if (asked.duty && away > *asked.duty) {
      faults_.add(PlanRule::duty, round_.where,
                  fmt::format("away for {}, from {} to {}; its duty is {}", duration_words(away), clock_words(*leaves_),
                              clock_words(*back_), duration_words(*asked.duty)));
      asked.duty.reset();
    }
    // With no time even for the work, a drive or a stay is too short, which is said.
    if (away >= asked.busy() && away < asked.busy() + asked.meal) {
      faults_.add(PlanRule::meal, round_.where,
                  fmt::format("away for {} min; driving {}, set-up {}, work {} and a meal of {} min are {}", away,
                              round_.way.drive_minutes(), round_.way.set_up_minutes(), round_.way.work_minutes(),
                              asked.meal, asked.busy() + asked.meal));
      asked.meal = 0;
    }
  }

  const Week& week_;
  JudgedRound& round_;
  Faults& faults_;
  std::optional<int> leaves_;
  std::optional<int> back_;
  std::vector<Times> stops_;
  std::vector<std::size_t> shut_;  // stops of which it is said that they are not open then
  bool out_of_step_ = false;
};

}  // namespace

void judge_clock(const Week& week, JudgedRound& round, Faults& faults) {
  if (!round.given->stops.empty()) RoundClock(week, round, faults).judge();
}

}  // namespace service::visits
