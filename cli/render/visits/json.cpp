#include "render/shared/mend_json.h"
#include "render/shared/not_to_run.h"
#include "render/shared/trip_json.h"
#include "render/visits/visits.h"
#include "render/visits/words.h"

namespace cli {
namespace {

using service::Point;
using service::VisitsPlan;

Json next_best_as_json(const std::optional<service::OtherTrip>& next) {
  if (!next) return nullptr;
  return {{"crew", next->crew->key}, {"on", to_text(next->on)}, {"made", next->made}, {"cost", number(next->cost)}};
}

Json shared_as_json(const service::SharedMachine& shared) {
  return {{"machine", shared.machine->key},
          {"crews", array_of(shared.others, [](const service::Crew* crew) { return Json(crew->key); })}};
}

Json task_as_json(const VisitsList& list, const SiteVisit& visit, const TripTask& task,
                  const service::NotToRun& stopped) {
  const Point& point = *task.point;
  Json json{{"machine", point.machine->key},
            {"task", point.name},
            {"position", text_or_null(point.position)},
            {"due_on", day_or_null(point.due_on)},
            {"early_days", task.early_days},
            {"late_days", task.late_days},
            {"early", number(task.early)},
            {"late", number(task.late)},
            {"why", why_words(list, visit, task)},
            {"reason", service::to_text(task.why)},
            {"own_day", to_text(task.own_day)},
            {"own_cost", number(task.own_cost)},
            {"full_day", day_or_null(task.full_day)},
            {"full_by", task.full_by ? Json(service::to_text(*task.full_by)) : Json(nullptr)},
            {"next_best", next_best_as_json(task.next_best)},
            {"included_in", nullptr},
            {"due_span", span_as_json(point.due_span)}};
  if (task.with != nullptr) {
    json["included_in"] = {{"task", task.with->name}, {"position", text_or_null(task.with->position)}};
  }
  json["do"] = point.follow_up != nullptr ? point.follow_up->doing : point.task->doing;
  json["standing"] = service::to_text(point.standing);
  json["by_estimate"] = point.by_estimate;
  json["past_grace_by_estimate"] = point.past_grace_by_estimate;
  json["doubtful"] = point.doubtful;
  json["takes"] = takes_as_json(takes_of(task));
  json["short"] = array_of(lacks_of(list, task), lack_as_json);
  mark(json, point);
  json["do_not_run"] = stopped.holds(*point.machine);
  json["keep_out_of_use"] = keep_out_of_use(task);
  return json;
}

Json visit_as_json(const VisitsList& list, const SiteVisit& visit, const service::NotToRun& stopped) {
  const service::Fleet& fleet = list.fleet();
  return {
      {"site", visit.site->key},
      {"on", to_text(visit.on)},
      {"crew", visit.crew->key},
      {"trip_cost", number(visit.trip_cost)},
      {"work_min", visit.work_minutes},
      {"tasks", array_of(visit.tasks, [&](const TripTask& task) { return task_as_json(list, visit, task, stopped); })},
      {"early", number(visit.early)},
      {"late", number(visit.late)},
      {"drive_min", visit.drive_minutes},
      {"km", km_of(visit.tenths_of_km)},
      {"set_up_min", visit.set_up_minutes},
      {"parts", parts_as_json(visit.parts)},
      {"fluids", fluids_as_json(visit.fluids)},
      {"short", array_of(lacks_of(list, visit), lack_as_json)},
      {"safety", visit.safety},
      {"also_there", array_of(visit.shared, shared_as_json)},
      {"customer", text_or_null(visit.site->customer)},
      {"contact", text_or_null(visit.site->contact)},
      {"access", text_or_null(visit.site->access)},
      {"seen",
       array_of(visit.seen, [&](const service::SeenSign* seen) { return seen_as_json(*seen, fleet, stopped); })},
      {"cautions", visit.cautions},
      {"fills_up", parts_as_json(visit.fills_up)},
      {"safety_left", safety_left_as_json(visit.safety_left, list.plan.as_of, not_in_these_weeks, stopped)}};
}

Json not_possible_as_json(const VisitsList& list, const service::NotPossible& out, const service::NotToRun& stopped) {
  const Point& point = *out.point;
  Json json = place_of(point);
  json["reason"] = service::to_text(out.reason);
  json["why"] = why_words(list, out);
  json["lacking"] = out.lacking;
  const bool too_short = out.reason == service::PutOffReason::unreachable && !out.days_full;
  json["limit"] = too_short ? Json(service::to_text(out.limit)) : Json(nullptr);
  json["longest_stay_min"] = too_short ? Json(std::max(0, out.longest_stay)) : Json(nullptr);
  json["due_on"] = day_or_null(point.due_on);
  json["standing"] = service::to_text(point.standing);
  json.update(machine_of(*point.machine, list.fleet()));
  mark(json, point);
  json["do_not_run"] = stopped.holds(*point.machine);
  json["keep_out_of_use"] = keep_out_of_use(out);
  return json;
}

Json call_as_json(const VisitsList& list, const service::Call& call) {
  const service::Machine* const machine = list.fleet().machine(call.machine);
  const service::Site* const site = list.fleet().site(machine == nullptr ? call.site : machine->site);
  return {{"call", call.key},
          {"site", site == nullptr ? Json(nullptr) : Json(site->key)},
          {"customer", site == nullptr ? Json(nullptr) : text_or_null(site->customer)},
          {"machine", key_or_null(machine)},
          {"do", call.doing},
          {"from", day_or_null(call.from)},
          {"by", day_or_null(call.by)},
          {"safety", call.safety},
          {"keep_out_of_use", call.safety}};
}

Json planned_as_json(const VisitsList& list) {
  return {{"visits", list.visits},
          {"tasks", list.tasks},
          {"sites", list.sites.empty() ? Json(nullptr) : array_of(list.sites, [](const service::Site* site) {
             return Json(site->key);
           })}};
}

Json crowded_as_json(const service::CrowdedDay& day) {
  return {{"crew", day.crew->key},
          {"on", to_text(day.on)},
          {"sites", array_of(day.sites, [](const service::Site* site) { return Json(site->key); })},
          {"trips", day.trips},
          {"minutes", day.minutes},
          {"has_minutes", day.has_minutes}};
}

}  // namespace

std::string visits_as_json(const VisitsList& list) {
  const VisitsPlan& plan = list.plan;
  const service::Fleet& fleet = list.fleet();
  const service::NotToRun stopped(*plan.list);
  Json json = head_of(fleet, plan.as_of, list.asked->scope);
  json["span"] = {{"from", to_text(plan.from)}, {"to", to_text(plan.to)}};
  json["currency"] = text_or_null(fleet.currency);
  json["cost"] = {{"total", number(plan.total)},
                  {"trips", number(plan.trips)},
                  {"late", number(plan.late)},
                  {"early", number(plan.early)}};
  json["bound"] = number(plan.bound);
  json["exact"] = plan.exact;
  json["crews_tried"] =
      plan.crews_tried ? Json{{"at_home", plan.crews_tried->at_home}, {"of", plan.crews_tried->of}} : Json(nullptr);
  json["on_own_days"] = {{"total", number(plan.on_own_days.total)},
                         {"trips", number(plan.on_own_days.trips)},
                         {"visits", plan.on_own_days.visits},
                         {"behind", plan.on_own_days.behind}};
  json["planned"] = planned_as_json(list);
  json["visits"] = array_of(plan.visits, [&](const SiteVisit& visit) { return visit_as_json(list, visit, stopped); });
  json["no_record"] = places_of(plan.no_record, fleet);
  json["not_planned"] =
      array_of(plan.not_planned, [&](const service::NotPlanned& row) { return not_planned_as_json(row, fleet); });
  json["not_possible"] = array_of(
      plan.not_possible, [&](const service::NotPossible& out) { return not_possible_as_json(list, out, stopped); });
  json["unknown"] = places_of(plan.unknown, fleet);
  json["gaps"] = gaps_as_json(list.asked->gaps, fleet);
  json["seen"] =
      array_of(list.seen, [&](const service::SeenSign* seen) { return seen_as_json(*seen, fleet, stopped); });
  json["to_mend"] = to_mend_as_json(list.to_mend, fleet, stopped);
  json["not_in_use"] =
      array_of(list.not_in_use, [&](const service::MachineUse* use) { return machine_as_json(*use, fleet, stopped); });
  json["not_to_run"] = bans_as_json(list.not_to_run.bans(), fleet);
  json["crowded"] = array_of(list.crowded, crowded_as_json);
  json["again"] = places_of(list.again, fleet);
  json["no_time"] = places_of(plan.no_time, fleet);
  json["no_price"] = plan.no_price;
  json["cautions"] = base_cautions_as_json();
  json["caution_sentences"] = sentences_of(cautions_of(list));
  json["left_off"] = list.left_off;
  json["short"] = short_as_json(list.short_parts);
  json["without"] = plan.without;
  json["calls"] = array_of(list.calls, [&](const service::Call* call) { return call_as_json(list, *call); });
  mark_rows(json, fleet, stopped);
  return dumped(json);
}

}  // namespace cli
