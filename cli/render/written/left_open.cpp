#include "render/written/left_open.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/sign_words.h"
#include "render/shared/words.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

constexpr std::size_t columns = 80;
constexpr std::size_t most = 12;  // after a long file of facts

std::string and_more(std::size_t all) { return all > most ? fmt::format("And {} more of these.\n", all - most) : ""; }

// A sign by its name, anything else by what is noted of it.
std::string label_of(const service::Fact& fact) {
  return service::cleaned(fact.name.empty() ? '`' + fact.note + '`' : fact.name);
}

// Who lays it up may think that this keeps it from being run.
std::string end_of_lay_up(const service::Fact& fact, service::Day today) {
  if (fact.kind != service::FactKind::laid_up) return "";
  if (!fact.until) return " A lay-up does not forbid to run it.";
  return fmt::format(" A lay-up ends by itself, this one {}on {}.", *fact.until <= today ? "did " : "",
                     to_text(*fact.until));
}

// As `looked` names it.
std::string sign_of(const service::SignLeft& left) { return left.seen != nullptr ? left.seen->sign : left.sign->name; }

std::string words_of(const service::SignLeft& left) {
  if (left.seen != nullptr) return seen_words(*left.seen);
  return fmt::format("{}, {}", task_of(*left.point), noticed_words(*left.sign));
}

service::SeenSign as_seen(const service::SignLeft& left) {
  service::SeenSign seen;
  seen.machine = &left.machine();
  seen.sign = sign_of(left);
  seen.safety = left.seen != nullptr ? left.seen->safety : never_waits(*left.point);
  return seen;
}

}  // namespace

std::string stops_not_taken_lines(const service::Entered& entered, const std::string& command) {
  const auto stops = stops_not_taken(entered);
  std::string text;
  for (std::size_t i = 0; i < std::min(most, stops.size()); ++i) {
    const service::Fact& fact = *stops[i].fact;
    const bool said = stops[i].says == service::MustNotRun::said;
    text += wrapped("",
                    fmt::format("{}: {}: it {} that the machine must not run, and that is not written down.{} To keep "
                                "it from being run: {} out-of-use {} --note WHY",
                                service::cleaned(fact.machine), label_of(fact), said ? "says" : "may say",
                                end_of_lay_up(fact, entered.today), command, service::cleaned(fact.machine)),
                    columns, 2);
  }
  return text + and_more(stops.size());
}

std::string newly_asked_lines(const service::Entered& entered) {
  const auto gaps = newly_asked(entered);
  std::string text;
  for (std::size_t i = 0; i < std::min(most, gaps.size()); ++i) {
    text += wrapped(
        "", fmt::format("Asked about now: {}: {}", service::cleaned(gaps[i]->machine), service::cleaned(gaps[i]->say)),
        columns, 2);
  }
  return text + and_more(gaps.size());
}

std::string signs_left_lines(const service::Entered& entered, const std::string& command) {
  const auto left = signs_left(entered);
  std::string text;
  for (std::size_t i = 0; i < std::min(most, left.size()); ++i) {
    text += wrapped("",
                    fmt::format("Still open, this does not answer it: {}. When somebody has looked: {}",
                                words_of(left[i]), command_to_look(as_seen(left[i]), *entered.after->fleet, command)),
                    columns, 2);
  }
  return text + and_more(left.size());
}

Json stops_not_taken_as_json(const service::Entered& entered) {
  return array_of(stops_not_taken(entered), [&](const service::StopNotTaken& stop) {
    Json json = machine_of(*entered.after->fleet->machine(stop.fact->machine), *entered.after->fleet);
    json["kind"] = to_text(stop.fact->kind);
    json["sign"] = text_or_null(stop.fact->name);
    json["note"] = text_or_null(stop.fact->note);
    json["on"] = to_text(stop.fact->on.first);
    json["fact"] = to_text(stop.fact->id);
    json["certain"] = stop.says == service::MustNotRun::said;
    return json;
  });
}

Json newly_asked_as_json(const service::Entered& entered) {
  std::vector<service::Gap> gaps;
  for (const service::Gap* gap : newly_asked(entered)) gaps.push_back(*gap);
  return gaps_as_json(gaps, *entered.after->fleet);
}

Json signs_left_as_json(const service::Entered& entered) {
  return array_of(signs_left(entered), [&](const service::SignLeft& left) {
    Json json = machine_of(left.machine(), *entered.after->fleet);
    json["task"] = left.point == nullptr ? Json(nullptr) : Json(left.point->name);
    json["position"] = left.point == nullptr ? Json(nullptr) : text_or_null(left.point->position);
    json["sign"] = sign_of(left);
    json["on"] = to_text(left.seen != nullptr ? left.seen->on.first : left.sign->first().on.first);
    return json;
  });
}

}  // namespace cli
