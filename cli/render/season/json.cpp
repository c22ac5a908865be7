#include <algorithm>

#include "render/season/season.h"
#include "render/shared/figures.h"
#include "render/shared/grounds_words.h"
#include "render/shared/json_answers.h"
#include "render/shared/mend_json.h"
#include "render/shared/not_to_run.h"

namespace cli {
namespace {

using service::SeasonItem;
using service::SeasonPlan;

Json resources_as_json(const service::Resources& resources) {
  Json parts = Json::object();
  for (const auto& [key, pieces] : resources.parts) parts[key] = number(pieces);
  Json fluids = Json::object();
  for (const auto& [key, amount] : resources.fluids)
    fluids[key] = {{"amount", number(amount.amount)}, {"unit", amount.unit}};
  return {{"minutes", resources.time ? Json(resources.time->count()) : Json(nullptr)},
          {"people", resources.people},
          {"parts", std::move(parts)},
          {"fluids", std::move(fluids)}};
}

std::vector<service::WaitsToMend> waiting_of(const SeasonItem& item, const SeasonPlan& plan) {
  std::vector<service::WaitsToMend> all;
  const service::Machine* const machine = item.point.machine;
  const auto use = std::find_if(plan.not_in_use.begin(), plan.not_in_use.end(),
                                [&](const service::MachineUse& each) { return each.machine == machine; });
  const service::UseState* const state = use == plan.not_in_use.end() ? nullptr : &use->state;
  for (const service::SeenSign& seen : item.to_mend) all.push_back(waits_to_mend(*plan.fleet, seen, state));
  return all;
}

Json item_as_json(const SeasonItem& item, const SeasonPlan& plan, Json reason) {
  Json json = place_of(item.point, *plan.fleet);
  json["standing"] = service::to_text(item.point.standing);
  json["by_estimate"] = item.point.by_estimate;
  json["past_grace_by_estimate"] = item.point.past_grace_by_estimate;
  json["do_not_run"] = plan.not_to_run.holds(*item.point.machine);
  mark(json, item.point);
  json["reason"] = std::move(reason);
  json["odds"] = share_of(item.odds);
  json["odds_before"] = share_of(item.odds_before);
  json["odds_done"] = odds_or_null(item.odds_done);
  json["do_by"] = to_text(item.do_by);
  json["due_span"] = span_as_json(item.point.due_span);
  json["gives_up"] = share_or_null(item.gives_up);
  json["again"] = item.again();
  json["round"] = item.round;
  json["between"] = item.between.size();
  json["rounds_between"] = array_of(item.between, [](const service::SeasonBetween& once) {
    return Json{{"round", once.round}, {"do_by", day_or_null(once.due.p10)}, {"due_span", span_as_json(once.due)}};
  });
  json["never_wait"] = item.never_waits();
  json["put_off"] = put_off_or_null(item.point.put_off);
  json["unknown"] = kinds_of(item.point.unknown);
  add_observed(json, item.point);
  json["includes"] = array_of(item.covered, [](const service::SeasonIncluded& included) {
    return Json{{"task", included.name.task},
                {"position", text_or_null(included.name.position)},
                {"standing", service::to_text(included.standing)},
                {"safety", included.name.safety},
                {"competent_person", included.name.competent_person},
                {"own_row", included.own_row}};
  });
  json["included_in"] = nullptr;
  if (item.included_in) {
    json["included_in"] = {{"task", item.included_in->task}, {"position", text_or_null(item.included_in->position)}};
  }
  json["group"] = to_text(item.group());
  json["checks"] = array_of(item.checks, [](const service::FollowUp* check) { return check->name; });
  json["waits_for"] = array_of(item.waits_for, [](const service::SeasonAwaited& awaited) {
    return Json{{"part", awaited.part}, {"from", to_text(awaited.from)}, {"counted", awaited.counted}};
  });
  json["to_mend"] = to_mend_as_json(waiting_of(item, plan), *plan.fleet, plan.not_to_run);
  json["takes"] = resources_as_json(item.resources);
  return json;
}

Json rest_as_json(const service::SeasonRest& rest, const SeasonPlan& plan) {
  Json json = place_of(rest.point, *plan.fleet);
  json["do_not_run"] = plan.not_to_run.holds(*rest.point.machine);
  mark(json, rest.point);
  json["odds"] = odds_or_null(rest.odds);
  add_observed(json, rest.point);
  return json;
}

Json unknown_as_json(const service::Point& point, const SeasonPlan& plan) {
  Json json = place_of(point, *plan.fleet);
  json["do_not_run"] = plan.not_to_run.holds(*point.machine);
  mark(json, point);
  json["standing"] = service::to_text(point.standing);
  json["unknown"] = kinds_of(point.unknown);
  return json;
}

Json odd_as_json(const service::OddUse& odd, const service::Fleet& fleet) {
  Json json = machine_of(*odd.machine, fleet);
  json["meter"] = odd.meter->name;
  json["unit"] = odd.meter->unit;
  json["lately"] = to_text(odd.lately);
  json["per_year"] = usage_of(odd.grounds.per_year);
  json["so_far"] = usage_of(odd.grounds.so_far);
  json["say"] = words_of(odd);
  return json;
}

Json other_as_json(const service::OtherMachine& other, const SeasonPlan& plan) {
  Json json = machine_of(*other.machine, *plan.fleet);
  json["do_not_run"] = plan.not_to_run.holds(*other.machine);
  json["overdue"] = other.overdue;
  json["due"] = other.due;
  json["no_record"] = other.no_record;
  json["unknown"] = other.unknown;
  json["seen"] = other.seen;
  return json;
}

Json sums_as_json(const service::SeasonSums& sums, const service::Fleet& fleet) {
  return {{"points", sums.points},
          {"never_wait", sums.never_wait},
          {"counted_with",
           array_of(sums.counted_with,
                    [&](const service::SeasonCounted& row) {
                      Json json = place_of(row.name, fleet);
                      json["counted_in"] = {{"task", row.in.task}, {"position", text_or_null(row.in.position)}};
                      return json;
                    })},
          {"labour_hours", mean_of(static_cast<double>(sums.labour_minutes) / 60)},
          {"several_people", sums.several_people},
          {"no_time", places_of(sums.no_time, fleet)},
          {"pieces", sums.pieces},
          {"parts", array_of(sums.parts, [](const service::SeasonPart& part) {
             return Json{{"part", part.key},
                         {"fluid", part.fluid},
                         {"unit", text_or_null(part.unit)},
                         {"amount", number(part.amount)}};
           })}};
}

Json absent_as_json(const service::SeasonAbsent& absent, const SeasonPlan& plan) {
  const service::Fleet& fleet = *plan.fleet;
  Json json = machine_as_json({absent.machine, absent.state}, fleet, plan.not_to_run);
  json["items"] = array_of(absent.items, [&](const SeasonItem& item) { return item_as_json(item, plan, nullptr); });
  json["sums"] = sums_as_json(absent.sums, fleet);
  json["find_out"] = absent.find_out;
  json["orders"] = array_of(absent.orders, [&](const service::PartNeed& need) { return need_as_json(need, fleet); });
  return json;
}

}  // namespace

Json season_answer(const SeasonPlan& plan, const std::string& command) {
  const service::Fleet& fleet = *plan.fleet;
  Json json = head_of(fleet, plan.as_of, plan.scope);
  json["season"] = plan.season->key;
  json["from"] = to_text(plan.from);
  json["to"] = to_text(plan.to);
  json["threshold"] = share_of(plan.threshold);
  json["under_way"] = plan.under_way();
  json["say"] = season_in_a_line(plan, command);
  json["cautions"] = base_cautions_as_json();
  json["not_in_use"] = not_in_use_as_json(plan.not_in_use, fleet, plan.not_to_run);
  for (std::size_t i = 0; i < plan.not_in_use.size(); ++i) {
    json["not_in_use"][i]["days_missed"] = days_missed(plan, plan.not_in_use[i].state);
  }
  json["absent"] =
      array_of(plan.absent, [&](const service::SeasonAbsent& absent) { return absent_as_json(absent, plan); });
  json["not_to_run"] = bans_as_json(plan.not_to_run.bans(), fleet);
  json["beforehand"] =
      array_of(plan.beforehand, [&](const SeasonItem& item) { return item_as_json(item, plan, to_text(item.reason)); });
  json["have_ready"] =
      array_of(plan.have_ready, [&](const SeasonItem& item) { return item_as_json(item, plan, nullptr); });
  json["put_off"] = array_of(plan.put_off, [&](const SeasonItem& item) { return item_as_json(item, plan, nullptr); });
  json["not_before_end"] =
      array_of(plan.not_before_end, [&](const service::SeasonRest& rest) { return rest_as_json(rest, plan); });
  json["find_out"] = array_of(plan.find_out, [&](const service::Point& point) { return unknown_as_json(point, plan); });
  std::vector<const service::Point*> points;
  for (const auto* items : {&plan.beforehand, &plan.have_ready, &plan.put_off}) {
    for (const SeasonItem& item : *items) points.push_back(&item.point);
  }
  json["caution_sentences"] = sentences_of(cautions_of(points));
  json["gaps"] = gaps_as_json(plan.gaps, fleet);
  json["seen"] = seen_as_json(plan.seen, fleet, plan.not_to_run);
  json["look_again"] = array_of(plan.look_again, [&](const service::OddUse& odd) { return odd_as_json(odd, fleet); });
  json["at_work"] = plan.at_work;
  json["others"] =
      array_of(plan.others, [&](const service::OtherMachine& other) { return other_as_json(other, plan); });
  json["sums"] = {{"beforehand", sums_as_json(plan.before_sums, fleet)},
                  {"have_ready", sums_as_json(plan.ready_sums, fleet)},
                  {"find_out", {{"points", plan.find_out.size()}, {"never_wait", plan.find_out_never_wait}}}};
  json["currency"] = text_or_null(plan.fleet->currency);
  json["parts"] = array_of(plan.parts, [&](const service::PartNeed& need) { return need_as_json(need, *plan.fleet); });
  json["left_off"] = plan.left_off;
  mark_rows(json, fleet, plan.not_to_run);
  return json;
}

std::string season_as_json(const SeasonPlan& plan, const std::string& command) {
  return dumped(season_answer(plan, command));
}

}  // namespace cli
