#include <fmt/format.h>

#include "render/rounds/rounds.h"
#include "render/rounds/words.h"
#include "render/shared/json_parts.h"
#include "render/shared/mend_json.h"
#include "render/shared/not_to_run.h"
#include "render/shared/trip_json.h"
#include "render/shared/words.h"
#include "service/broken_promise.h"
#include "service/ring_ups.h"
#include "service/safety_left.h"
#include "service/shared_machines.h"

namespace cli {
namespace {

using service::Point;
using service::Round;
using service::RoundStop;

Json value_as_json(const service::PlanValue& value) {
  return {{"safety_put_off", value.safety_put_off}, {"total", number(value.total)}};
}

Json week_as_json(const service::Week& week) { return {{"from", to_text(week.from)}, {"to", to_text(week.to)}}; }

Json takes_of(const Visit& visit) {
  service::VisitLoad load = load_of(visit);
  service::Resources takes;
  takes.time = std::chrono::minutes{visit.work_minutes};
  takes.people = visit.people;
  takes.parts = std::move(load.parts);
  takes.fluids = std::move(load.fluids);
  return takes_as_json(takes);
}

bool holds(const std::vector<const Point*>& points, const Point* point) {
  return std::find(points.begin(), points.end(), point) != points.end();
}

// `made_on`: none, where it is not made.
Json tasks_as_json(const RoundsList& list, const Visit& visit, std::optional<service::Day> made_on) {
  const bool not_run = forbids_running(*list.week().list, visit);
  return array_of(visit.points, [&](const Point* point) {
    Json json{{"task", point->name}, {"position", text_or_null(point->position)}};
    json["do"] = point->follow_up != nullptr ? point->follow_up->doing : point->task->doing;
    json["standing"] = service::to_text(point->standing);
    json["by_estimate"] = point->by_estimate;
    json["past_grace_by_estimate"] = point->past_grace_by_estimate;
    json["doubtful"] = point->doubtful;
    json["due_on"] = day_or_null(point->due_on);
    mark(json, *point);
    json["do_not_run"] = not_run;
    json["included"] = holds(visit.included, point);
    json["joined"] = holds(visit.joined, point);
    json["keep_out_of_use"] = made_on ? keep_out_of_use(*point, *made_on) : is_safety(*point);
    return json;
  });
}

Json use_as_json(const RoundsList& list, const service::MachineUse* use) {
  return use == nullptr ? Json(nullptr) : machine_as_json(*use, *list.week().fleet, list.not_to_run);
}

// What every visit has, made or not, behind what the plan says of it. `made_on`: none, where it is not made.
void add_visit(Json& json, const RoundsList& list, const Visit& visit, std::optional<service::Day> made_on) {
  const service::DueList& due = *list.week().list;
  json["customer"] = text_or_null(visit.site->customer);
  json["contact"] = text_or_null(visit.site->contact);
  json["access"] = text_or_null(visit.site->access);
  json["do"] = visit.call == nullptr ? Json(nullptr) : Json(visit.call->doing);
  json["needs"] = visit.needs;
  json["takes"] = takes_of(visit);
  json["cautions"] = service::cautions_of(due, visit);
  json["do_not_run"] = forbids_running(due, visit);
  json["not_in_use"] = use_as_json(list, use_at(due, visit, made_on));
  json["seen"] = array_of(seen_at(due, visit), [&](const service::SeenSign* seen) {
    return seen_as_json(*seen, *due.fleet, list.not_to_run);
  });
}

// Crews that work at the same machine that day.
Json also_there(const std::vector<service::SharedMachine>& shared, const Visit& visit) {
  for (const service::SharedMachine& one : shared) {
    if (one.machine == visit.machine) {
      return array_of(one.others, [](const service::Crew* crew) { return Json(crew->key); });
    }
  }
  return Json::array();
}

Json stop_as_json(const RoundsList& list, const Round& round, const RoundStop& stop,
                  const std::vector<service::SharedMachine>& shared) {
  const Visit& visit = list.week().visits[stop.visit];
  const service::Day on = list.week().crew_days[round.crew_day].on;
  const auto left = safety_left(list.plan, round, stop);
  Json json{{"visit", visit.name},
            {"site", visit.site->key},
            {"machine", key_or_null(visit.machine)},
            {"call", key_or_null(visit.call)},
            {"arrives", clock_words(stop.arrives)},
            {"starts", clock_words(stop.starts)},
            {"ends", clock_words(stop.ends)},
            {"drive_min", stop.leg.minutes},
            {"km", km_of(stop.leg.tenths_of_km)},
            {"set_up_min", stop.set_up_minutes},
            {"work_min", stop.work_minutes},
            {"waiting", number(stop.waiting)},
            {"tasks", tasks_as_json(list, visit, on)},
            {"promised", stop.promised},
            {"safety", visit.safety},
            {"also_there", also_there(shared, visit)},
            {"uid", event_uid(list.week(), visit)}};
  add_visit(json, list, visit, on);
  json["was_laid_up"] = use_as_json(list, lay_up_over_at(*list.week().list, visit, on));
  json["short"] = array_of(lacks_of(list, stop), lack_as_json);
  json["keep_out_of_use"] = !keep_out_of_use(visit, on).empty() || keep_out_until_made(visit) || keep_out_of_use(left);
  json["safety_left"] = safety_left_as_json(left, list.week().as_of, not_this_week, list.not_to_run);
  return json;
}

Json round_as_json(const RoundsList& list, const Round& round) {
  const service::CrewDay& day = list.week().crew_days[round.crew_day];
  const auto shared = shared_machines(list.plan, round);
  return {
      {"crew", day.crew->key},
      {"on", to_text(day.on)},
      {"leaves", clock_words(round.leaves)},
      {"back", clock_words(round.back)},
      {"drive_min", round.drive_minutes},
      {"set_up_min", round.set_up_minutes},
      {"work_min", round.work_minutes},
      {"km", km_of(round.tenths_of_km)},
      {"cost", number(round.cost)},
      {"parts", parts_as_json(round.parts)},
      {"fluids", fluids_as_json(round.fluids)},
      {"stops", array_of(round.stops, [&](const RoundStop& stop) { return stop_as_json(list, round, stop, shared); })},
      {"short", array_of(lacks_of(list, round), lack_as_json)},
      {"start", day.crew->start},
      {"end", day.crew->end},
      {"cautions", cautions_of(list, round)},
      {"fills_up", parts_as_json(round.fills_up)},
      {"meal_before_work", round.meal_before_work},
      {"in_two_goes", array_of(round.in_two_goes, [](const service::Machine* machine) { return Json(machine->key); })},
      {"meal", array_of(round.meal, [&](const service::MealPiece& piece) {
         return Json{{"before_visit", list.week().visits[piece.before].name}, {"minutes", piece.minutes}};
       })}};
}

Json where_as_json(const std::optional<std::pair<std::string, service::Day>>& at) {
  return at ? Json{{"crew", at->first}, {"on", to_text(at->second)}} : Json(nullptr);
}

Json next_best_as_json(const RoundsList& list, const std::optional<service::NextBest>& next) {
  if (!next) return nullptr;
  const service::CrewDay& day = list.week().crew_days[next->crew_day];
  return {
      {"crew", day.crew->key},
      {"on", to_text(day.on)},
      {"dearer", number(next->dearer)},
      {"instead_of", array_of(next->instead_of, [&](std::size_t visit) { return list.week().visits[visit].name; })}};
}

Json broken_as_json(const std::optional<service::BrokenPromise>& broken) {
  if (!broken) return nullptr;
  return {{"rule", service::to_text(rule_of(broken->why))},
          {"why", service::to_text(broken->why)},
          {"lacking", broken->lacking}};
}

Json put_off_as_json(const RoundsList& list, const service::NotThisWeek& out) {
  const Visit& visit = list.week().visits[out.visit];
  Json json{{"visit", visit.name},
            {"site", visit.site->key},
            {"machine", key_or_null(visit.machine)},
            {"call", key_or_null(visit.call)},
            {"safety", visit.safety},
            {"reason", service::to_text(out.reason)},
            {"why", why_words(list, out)},
            {"until", to_text(out.until)},
            {"cost", number(out.cost)},
            {"keep_out_of_use", keep_out_of_use(visit)},
            {"lacking", out.lacking},
            {"next_best", next_best_as_json(list, out.next_best)},
            {"promised", where_as_json(out.promised)},
            {"broken_by", broken_as_json(broken_promise(list.plan, out))},
            {"tasks", tasks_as_json(list, visit, std::nullopt)}};
  add_visit(json, list, visit, std::nullopt);
  return json;
}

Json point_as_json(const service::PointName& point, const service::Fleet& fleet) {
  Json json = place_of(point);
  json.update(machine_of(*point.machine, fleet));
  return json;
}

Json not_in_book_as_json(const RoundsList& list, const service::NotInBook& one) {
  const Point& point = *one.point;
  Json json = point_as_json(name_of(point), *list.week().fleet);
  json["visit"] = one.visit;
  json["crew"] = one.crew == nullptr ? Json(nullptr) : Json(one.crew->key);
  json["on"] = to_text(one.on);
  json["due_on"] = day_or_null(point.due_on);
  json["standing"] = service::to_text(point.standing);
  json["keep_out_of_use"] = keep_out_of_use(one, list.week().to);
  json["short"] = array_of(short_then(list, one), [](const service::PartLack& lack) {
    return Json{{"part", lack.key}, {"unit", text_or_null(lack.unit)}, {"short_by", number(lack.short_by)}};
  });
  return json;
}

Json still_listed_as_json(const service::CallStillListed& one) {
  return {{"call", one.call->key},
          {"site", one.site->key},
          {"customer", text_or_null(one.site->customer)},
          {"machine", key_or_null(one.machine)},
          {"crew", one.crew == nullptr ? Json(nullptr) : Json(one.crew->key)},
          {"on", to_text(one.on)},
          {"do", one.call->doing},
          {"safety", one.call->safety},
          {"keep_out_of_use", keep_out_of_use(one)}};
}

Json change_as_json(const service::PlanChange& change) {
  return {{"visit", change.visit},
          {"was", where_as_json(change.was)},
          {"is", where_as_json(change.is)},
          {"contact", change.site == nullptr ? Json(nullptr) : text_or_null(change.site->contact)},
          {"site", change.site == nullptr ? Json(nullptr) : Json(change.site->key)},
          {"customer", change.site == nullptr ? Json(nullptr) : text_or_null(change.site->customer)},
          {"wanted", change.wanted},
          {"not_planned", change.not_planned ? Json(service::to_text(*change.not_planned)) : Json(nullptr)},
          {"not_due", change.not_due},
          {"unlisted", change.unlisted},
          {"promised", change.promised},
          {"unheard_of", change.unheard_of},
          {"was_starts", change.was_starts ? Json(clock_words(*change.was_starts)) : Json(nullptr)},
          {"is_starts", change.is_starts ? Json(clock_words(*change.is_starts)) : Json(nullptr)}};
}

Json ring_up_as_json(const RoundsList& list, const service::RingUp& call) {
  return {{"contact", text_or_null(call.contact)},
          {"sites", array_of(call.sites, [](const service::Site* site) { return Json(site->key); })},
          {"promised", call.promised},
          {"changes",
           array_of(call.changes, [&](std::size_t number) { return change_as_json(list.plan.changes[number]); })}};
}

Json stopped_by(service::StoppedBy stopped) {
  switch (stopped) {
    case service::StoppedBy::nothing:
      return nullptr;
    case service::StoppedBy::time:
      return "time";
    case service::StoppedBy::interrupt:
      return "interrupt";
    case service::StoppedBy::effort:
      return "effort";
  }
  return nullptr;
}

Json sentences_as_json(const RoundsList& list) {
  std::vector<std::string> all;
  const auto add = [&](const std::vector<std::string>& cautions) {
    for (const std::string& caution : cautions) {
      if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(caution);
    }
  };
  for (const Round& round : list.plan.rounds) add(cautions_of(list, round));
  for (const service::NotThisWeek& out : list.plan.not_this_week) {
    add(service::cautions_of(*list.week().list, list.week().visits[out.visit]));
  }
  return sentences_of(all);
}

Json scope_as_json(const RoundsList& list) {
  return list.site == nullptr ? Json(nullptr) : Json{{"site", list.site->key}};
}

}  // namespace

std::string rounds_as_json(const RoundsAnswer& answer) {
  const RoundsList& list = answer.list;
  const service::RoundsPlan& plan = list.plan;
  const service::Week& week = plan.week;
  const service::Fleet& fleet = *week.fleet;
  Json json = head_of(fleet, week.as_of);
  json["week"] = week_as_json(week);
  json["currency"] = text_or_null(fleet.currency);
  json["cost"] = {{"total", number(plan.value.total)},
                  {"travel", number(plan.travel)},
                  {"waiting", number(plan.waiting)},
                  {"put_off", number(plan.put_off)}};
  json["safety_put_off"] = plan.value.safety_put_off;
  json["bound"] = value_as_json(plan.bound);
  json["gap"] = plan.gap_known ? Json(static_cast<double>(plan.gap_millionths) / 1e6) : Json(nullptr);
  json["proven"] = plan.proven;
  json["rounds"] = array_of(plan.rounds, [&](const Round& round) { return round_as_json(list, round); });
  json["put_off"] =
      array_of(plan.not_this_week, [&](const service::NotThisWeek& out) { return put_off_as_json(list, out); });
  const auto points = [&](const std::vector<service::PointName>& names) {
    return array_of(names, [&](const service::PointName& point) { return point_as_json(point, fleet); });
  };
  json["no_record"] = points(week.no_record);
  json["not_planned"] =
      array_of(week.not_planned, [&](const service::NotPlanned& row) { return not_planned_as_json(row, fleet); });
  json["gaps"] = array_of(list.gaps, [&](const service::Gap* gap) { return gap_as_json(*gap, fleet); });
  json["seen"] =
      array_of(list.seen, [&](const service::SeenSign* seen) { return seen_as_json(*seen, fleet, list.not_to_run); });
  json["stopped"] = stopped_by(plan.stopped);
  json["to_mend"] = to_mend_as_json(list.to_mend, fleet, list.not_to_run);
  json["changes"] = array_of(plan.changes, change_as_json);
  json["scope"] = scope_as_json(list);
  json["unknown"] = points(week.unknown);
  json["not_in_use"] = array_of(
      list.not_in_use, [&](const service::MachineUse* use) { return machine_as_json(*use, fleet, list.not_to_run); });
  json["not_to_run"] = bans_as_json(list.not_to_run.bans(), fleet);
  json["done"] = week.done;
  json["no_time"] = points(week.no_time);
  json["no_price"] = week.no_price;
  json["cautions"] = base_cautions_as_json();
  json["caution_sentences"] = sentences_as_json(list);
  json["left_off"] = list.left_off;
  json["promises"] = {{"kept", plan.promises_kept}, {"broken", plan.promises_broken}};
  json["short"] = short_as_json(list.short_parts);
  json["sequence"] = answer.sequence;
  const service::VisitLoad before = taken_before(list);
  json["ring_up"] = array_of(ring_ups(plan), [&](const service::RingUp& call) { return ring_up_as_json(list, call); });
  json["taken_before"] = {{"parts", parts_as_json(before.parts)}, {"fluids", fluids_as_json(before.fluids)}};
  json["not_in_book"] =
      array_of(week.not_in_book, [&](const service::NotInBook& one) { return not_in_book_as_json(list, one); });
  json["calls_still_listed"] = array_of(week.calls_still_listed, still_listed_as_json);
  mark_rows(json, fleet, list.not_to_run);
  return dumped(json);
}

std::string judged_as_json(const JudgedAnswer& answer) {
  Json json{{"ok", answer.judged.ok()}};
  const auto said = [](const service::PlanFault& fault) {
    return Json{{"rule", service::to_text(fault.rule)}, {"where", fault.where}, {"says", fault.says}};
  };
  json["faults"] = array_of(answer.judged.faults, [&](const service::PlanFault& fault) {
    Json one = said(fault);
    one["follow_on"] = array_of(fault.follow_on, said);
    return one;
  });
  json["safety_left_out"] = answer.judged.safety_left_out;
  json["not_judged"] = answer.not_judged;
  json["value"] = answer.judged.value ? value_as_json(*answer.judged.value) : Json(nullptr);
  json.update(head_of(*answer.week->fleet, answer.week->as_of));
  json["week"] = week_as_json(*answer.week);
  return dumped(json);
}

}  // namespace cli
