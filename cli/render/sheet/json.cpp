#include <algorithm>

#include "render/shared/json_parts.h"
#include "render/shared/mend_json.h"
#include "render/shared/not_to_run.h"
#include "render/shared/trip_json.h"
#include "render/sheet/sheet.h"

namespace cli {
namespace {

using service::MachineSheet;
using service::SheetTask;

Json meters_as_json(const std::vector<service::SheetMeter>& meters) {
  return array_of(meters, [](const service::SheetMeter& meter) {
    return Json{{"meter", meter.meter->name},
                {"unit", meter.meter->unit},
                {"shown", number_or_null(meter.shown)},
                {"on", day_or_null(meter.on)},
                {"doubts", array_of(meter.gaps, [](const service::Gap* gap) { return Json(gap->say); })}};
  });
}

Json state_or_null(const service::Machine& machine, const service::UseState* state, const service::Fleet& fleet,
                   const service::NotToRun& stopped) {
  return state == nullptr ? Json(nullptr) : machine_as_json({&machine, *state}, fleet, stopped);
}

Json minutes_or_null(const std::optional<std::chrono::minutes>& minutes) {
  return minutes ? Json(minutes->count()) : Json(nullptr);
}

Json parts_as_json(const service::Resources& resources) {
  Json json = Json::array();
  for (const auto& [key, amount] : resources.parts) {
    json.push_back({{"part", key}, {"fluid", false}, {"unit", nullptr}, {"amount", number(amount)}});
  }
  for (const auto& [key, fluid] : resources.fluids) {
    json.push_back(
        {{"part", key}, {"fluid", true}, {"unit", text_or_null(fluid.unit)}, {"amount", number(fluid.amount)}});
  }
  return json;
}

Json included_as_json(const service::SheetIncluded& included) {
  return {{"task", included.task->name},
          {"do", included.task->doing},
          {"steps", included.steps},
          {"notes", text_or_null(included.notes)},
          {"points", array_of(included.points, [](const service::Point* point) {
             Json json = place_of(*point);
             json["standing"] = to_text(point->standing);
             return json;
           })}};
}

Json check_as_json(const service::SheetCheck& check) {
  return {{"task", check.task->name + '/' + check.check->name},
          {"do", check.check->doing},
          {"minutes", minutes_or_null(check.check->takes)},
          {"safety", check.task->safety}};
}

Json again_or_null(const std::optional<service::ElementDueAgain>& again) {
  if (!again) return nullptr;
  const service::ElementUse* first = again->uses.empty() ? nullptr : &again->uses.front();
  Json json{{"more", first == nullptr ? Json(nullptr) : Json(number(first->more))},
            {"unit", first == nullptr ? Json(nullptr) : text_or_null(first->unit)},
            {"on", day_or_null(again->on)}};
  json["uses"] = array_of(again->uses, [](const service::ElementUse& use) {
    return Json{{"meter", text_or_null(use.meter)}, {"more", number(use.more)}, {"unit", text_or_null(use.unit)}};
  });
  json["changes"] = array_of(again->changes, [](const service::ElementChanges& changes) {
    return Json{{"task", changes.task}, {"count", changes.count}};
  });
  json["seasons"] = array_of(again->seasons, [](const service::ElementSeason& season) {
    return Json{{"season", season.season}, {"days_before", season.lead_days}};
  });
  return json;
}

// The end of a wait: a day, expected where a use ends it.
void add_wait(Json& json, const std::optional<service::SheetWait>& wait) {
  json["from"] = wait ? Json(to_text(wait->from)) : Json(nullptr);
  const bool by_use = wait && wait->by_use;
  const service::PutOff* put_off = by_use ? &*wait->point->put_off : nullptr;
  json["from_shown"] = by_use ? number(put_off->shown.value_or(*put_off->at)) : Json(nullptr);
  json["from_meter"] = by_use ? Json(put_off->meter) : Json(nullptr);
}

Json measure_as_json(const service::SheetMeasure& measure) {
  Json json = place_of(*measure.point);
  json["name"] = measure.limb->name;
  json["unit"] = text_or_null(measure.limb->unit);
  json["limit"] = number(measure.limb->limit);
  json["above"] = measure.limb->above;
  return json;
}

Json entry_as_json(const service::SheetEntry& entry) {
  Json json{{"points", array_of(entry.points, [](const service::Point* point) { return place_of(*point); })},
            {"meter", entry.meter == nullptr ? Json(nullptr) : Json(entry.meter->name)},
            {"competent_person", entry.competent_person},
            {"new_element", entry.puts_in_new},
            {"mends", entry.mends}};
  add_wait(json, entry.wait);
  json["past_limit"] = entry.past_limit;
  json["sign_seen"] = entry.sign_seen;
  json["lifts_ban"] = entry.lifts_ban;
  json["measures"] = array_of(entry.measures, measure_as_json);
  return json;
}

Json task_as_json(const SheetTask& task, const service::Fleet& fleet, const service::NotToRun& stopped) {
  const auto point = [&](const service::Point* each) { return point_as_json(*each, fleet, stopped); };
  Json json{{"task", task.name},
            {"do", task.check != nullptr ? task.check->doing : task.task->doing},
            {"safety", task.safety},
            {"competent_person", task.competent_person},
            {"cautions", task.task->all_cautions},
            {"stage", to_text(task.stage)},
            {"runs", task.runs},
            {"says_running", task.says_running},
            {"run_rule", to_text(task.run_rule)},
            {"cold_again", task.cold_again},
            {"sign_seen", task.sign_seen},
            {"unsafe", task.unsafe},
            {"people", task.resources.people},
            {"needs", task.needs},
            {"minutes", minutes_or_null(task.resources.time)},
            {"parts", parts_as_json(task.resources)},
            {"tools", task.tools},
            {"steps", array_of(task.steps, [](const service::SheetStep& step) { return Json(step.text); })},
            {"steps_of", array_of(task.steps,
                                  [](const service::SheetStep& step) {
                                    return step.of == nullptr ? Json(nullptr) : Json(step.of->name);
                                  })},
            {"notes", text_or_null(task.notes)}};
  json["points"] = array_of(task.points, point);
  json["waits"] = array_of(task.waits, [](const service::SheetWait& wait) {
    Json place = place_of(*wait.point);
    add_wait(place, wait);
    return place;
  });
  json["done_on"] = to_text(task.done_on);
  json["short"] = array_of(task.lacks, lack_as_json);
  json["found_bad"] = array_of(task.found_bad, [](const service::SeenSign* seen) { return Json(seen->sign); });
  json["includes"] = array_of(task.included, included_as_json);
  json["checks"] = array_of(task.checks, check_as_json);
  json["renewed_checks"] = array_of(task.renewed_checks, [](const service::Point* each) { return Json(each->name); });
  json["measures"] = array_of(task.measures, measure_as_json);
  json["overdue_safety"] = array_of(task.overdue_safety, [](const service::Point* each) { return place_of(*each); });
  json["new_element"] = task.label.has_value();
  json["due_again"] = again_or_null(task.again);
  return json;
}

Json labour_as_json(const service::SheetLabour& labour) {
  return {{"tasks", labour.tasks},   {"minutes", labour.minutes}, {"labour_minutes", labour.labour_minutes},
          {"people", labour.people}, {"no_time", labour.no_time}, {"tools", labour.tools}};
}

Json look_as_json(const service::SheetLook& look) {
  return {{"task", look.name},
          {"minutes", minutes_or_null(look.time)},
          {"people", look.people},
          {"needs", look.needs},
          {"tools", look.tools},
          {"cautions", look.task->all_cautions},
          {"run_rule", to_text(look.run_rule)},
          {"points", array_of(look.points, [](const service::Point* point) { return place_of(*point); })}};
}

// All points of these, one after the other; their values likewise.
Json points_of(const std::vector<service::SheetLook>& looks, const service::Fleet& fleet,
               const service::NotToRun& stopped) {
  Json json = Json::array();
  for (const service::SheetLook& look : looks) {
    for (const service::Point* point : look.points) json.push_back(point_as_json(*point, fleet, stopped));
  }
  return json;
}

Json measures_of(const std::vector<service::SheetLook>& looks) {
  Json json = Json::array();
  for (const service::SheetLook& look : looks) {
    for (const service::SheetMeasure& measure : look.measures) json.push_back(measure_as_json(measure));
  }
  return json;
}

Json after_as_json(const service::SheetAfter& after) {
  Json json{{"kind", to_text(after.kind)}};
  const bool check = after.kind == service::AfterKind::check;
  json["task"] = check ? Json(after.check.task->name + '/' + after.check.check->name) : Json(nullptr);
  json["once_back"] = after.once_back;
  json["once_mended"] = after.once_mended;
  return json;
}

Json later_as_json(const service::SheetLater& later) {
  Json json{{"tasks", later.tasks}};
  add_wait(json, later.wait);
  json["locked_off"] = later.locked_off;
  json["power_off"] = later.power_off;
  json["afterwards"] = array_of(later.afterwards, after_as_json);
  return json;
}

Json part_as_json(const service::SheetPart& part) {
  Json json{{"part", part.key},
            {"listed", part.part != nullptr},
            {"what", part.part == nullptr ? Json(nullptr) : text_or_null(part.part->what)},
            {"number", part.part == nullptr ? Json(nullptr) : text_or_null(part.part->number)},
            {"fluid", part.fluid},
            {"unit", text_or_null(part.unit)},
            {"amount", number(part.amount)},
            {"short", part.lack ? lack_as_json(*part.lack) : Json(nullptr)}};
  add_wait(json, part.wait);
  return json;
}

Json sheet_as_json(const MachineSheet& sheet, const service::Fleet& fleet, const service::NotToRun& stopped) {
  const auto point = [&](const service::Point* each) { return point_as_json(*each, fleet, stopped); };
  Json json = machine_of(*sheet.machine, fleet);
  json["name"] = text_or_null(sheet.machine->name);
  json["serial"] = text_or_null(sheet.machine->serial);
  json["notes"] = text_or_null(sheet.machine->notes);
  json["access"] = sheet.site == nullptr ? Json(nullptr) : text_or_null(sheet.site->access);
  json["contact"] = sheet.site == nullptr ? Json(nullptr) : text_or_null(sheet.site->contact);
  json["state"] = state_or_null(*sheet.machine, sheet.state, fleet, stopped);
  json["meters"] = meters_as_json(sheet.meters);
  json["cautions"] = array_of(sheet.cautions, [](const service::SheetCaution& caution) {
    return Json{{"caution", caution.written}, {"tasks", caution.tasks}, {"at_seen", caution.at_seen}};
  });
  json["seen"] =
      array_of(sheet.seen, [&](const service::SeenSign* seen) { return seen_as_json(*seen, fleet, stopped); });
  json["run_last"] = sheet.not_to_run;
  json["do_not_run"] = sheet.not_to_run;
  json["forbidden_by"] = array_of(sheet.forbidden_by, [](const service::Point* each) { return place_of(*each); });
  json["forbidden_by_seen"] =
      array_of(sheet.forbidden_by_seen, [](const service::SeenSign* each) { return Json(each->sign); });
  json["to_mend"] = to_mend_as_json(sheet.to_mend, fleet, stopped);
  json["overdue_safety"] = array_of(sheet.overdue_safety, [](const service::Point* each) { return place_of(*each); });
  json["tasks"] = array_of(sheet.tasks, [&](const SheetTask& task) { return task_as_json(task, fleet, stopped); });
  json["minutes"] = sheet.labour.minutes;
  json["labour_minutes"] = sheet.labour.labour_minutes;
  json["check_minutes"] = sheet.check_minutes;
  json["people"] = sheet.labour.people;
  json["no_time"] = sheet.labour.no_time;
  json["later"] = labour_as_json(sheet.later);
  json["look_first"] = array_of(sheet.look_first(), [](const service::Point* each) { return place_of(*each); });
  json["competent_person"] = labour_as_json(sheet.competent);
  json["parts"] = array_of(sheet.parts, part_as_json);
  json["tools"] = sheet.labour.tools;
  json["locked_off"] = sheet.locked_off;
  json["power_off"] = sheet.power_off;
  json["stays_locked"] = sheet.stays_locked() && (sheet.locked_off || sheet.power_off);
  json["afterwards"] = array_of(sheet.afterwards, after_as_json);
  json["later_work"] = array_of(sheet.later_work, later_as_json);
  json["checks_owed"] = points_of(sheet.checks_owed, fleet, stopped);
  json["measure_again"] = points_of(sheet.measure_again, fleet, stopped);
  json["near_limit"] = measures_of(sheet.measure_again);
  json["looks"] = Json::array();
  for (const auto* looks : {&sheet.checks_owed, &sheet.measure_again}) {
    for (const service::SheetLook& look : *looks) json["looks"].push_back(look_as_json(look));
  }
  json["entries"] = array_of(sheet.entries, entry_as_json);
  json["alone"] = array_of(sheet.alone, entry_as_json);
  json["nothing_known"] = sheet.nothing_known;
  json["put_off"] = array_of(sheet.put_off, point);
  json["find_out"] = array_of(sheet.find_out, point);
  json["gaps"] = array_of(sheet.gaps, [&](const service::Gap* gap) { return gap_as_json(*gap, fleet); });
  return json;
}

}  // namespace

std::string sheet_as_json(const service::JobSheet& sheet) {
  const service::DueList& list = *sheet.list;
  Json json = head_of(*list.fleet, list.as_of, list.scope);
  json["within"] = to_text(list.within);
  json["cautions"] = base_cautions_as_json();
  std::vector<std::string> cautions;
  for (const auto* pages : {&sheet.pages, &sheet.others}) {
    for (const MachineSheet& page : *pages) {
      for (const service::SheetCaution& caution : page.cautions) {
        if (std::find(cautions.begin(), cautions.end(), caution.written) == cautions.end()) {
          cautions.push_back(caution.written);
        }
      }
    }
  }
  json["caution_sentences"] = sentences_of(cautions);
  const service::NotToRun stopped(list);
  const auto page = [&](const MachineSheet& each) { return sheet_as_json(each, *list.fleet, stopped); };
  json["sheets"] = array_of(sheet.pages, page);
  json["others"] = array_of(sheet.others, page);
  json["not_in_use"] = not_in_use_as_json(list.not_in_use, *list.fleet, stopped);
  json["not_to_run"] = bans_as_json(stopped.bans(), *list.fleet);
  json["gaps"] = gaps_as_json(list.gaps, *list.fleet);
  mark_rows(json, *list.fleet, stopped);
  return dumped(json);
}

std::string readings_as_json(const service::ReadingRound& round) {
  const service::DueList& list = *round.list;
  const service::NotToRun stopped(list);
  Json json = head_of(*list.fleet, list.as_of, list.scope);
  json["cautions"] = base_cautions_as_json();
  json["machines"] = Json::array();
  for (const service::RoundSite& site : round.sites) {
    for (const service::RoundMachine& machine : site.machines) {
      Json each = machine_of(*machine.machine, *list.fleet);
      each["name"] = text_or_null(machine.machine->name);
      each["access"] = site.site == nullptr ? Json(nullptr) : text_or_null(site.site->access);
      each["contact"] = site.site == nullptr ? Json(nullptr) : text_or_null(site.site->contact);
      each["state"] = state_or_null(*machine.machine, machine.state, *list.fleet, stopped);
      each["meters"] = meters_as_json(machine.meters);
      each["do_not_run"] = machine.ban.has_value();
      each["seen"] = array_of(machine.seen,
                              [&](const service::SeenSign* seen) { return seen_as_json(*seen, *list.fleet, stopped); });
      each["not_to_run"] = machine.ban ? ban_as_json(*machine.ban, *list.fleet) : Json(nullptr);
      json["machines"].push_back(std::move(each));
    }
  }
  json["without_meters"] = array_of(round.without_meters,
                                    [&](const service::Machine* machine) { return machine_of(*machine, *list.fleet); });
  json["not_in_use"] = not_in_use_as_json(list.not_in_use, *list.fleet, stopped);
  json["not_to_run"] = bans_as_json(stopped.bans(), *list.fleet);
  json["gaps"] = gaps_as_json(list.gaps, *list.fleet);
  mark_rows(json, *list.fleet, stopped);
  return dumped(json);
}

}  // namespace cli
