#include "render/overdue/words.h"
#include "render/shared/json_parts.h"
#include "render/shared/not_to_run.h"
#include "render/written/json_of.h"
#include "render/written/left_open.h"
#include "render/written/to_mind.h"
#include "render/written/written.h"
#include "service/bans_after.h"

namespace cli {
namespace {

// What difference() compares: enough to say "overdue -> later".
Json side_as_json(const service::Point* point) {
  if (point == nullptr) return nullptr;
  return {{"standing", to_text(point->standing)},
          {"by_estimate", point->by_estimate},
          {"due_on", day_or_null(point->due_on)}};
}

Json change_as_json(const service::PointChange& change) {
  const service::Point& point = change.after != nullptr ? *change.after : *change.before;
  Json json = place_of(point);
  mark(json, point);
  json["before"] = side_as_json(change.before);
  json["after"] = side_as_json(change.after);
  return json;
}

// Under which heading of the overdue list a point stands, where its standing stays what it was.
Json move_as_json(const service::HeadingChange& move) {
  const auto heading = [](const std::optional<service::OverdueHeading>& of) {
    return of ? Json(to_text(*of)) : Json(nullptr);
  };
  Json json = place_of(*move.point);
  mark(json, *move.point);
  json["before"] = heading(move.was);
  json["after"] = heading(move.is);
  return json;
}

Json twice_as_json(const service::WrittenTwice& twice) {
  return {{"machine", twice.later.machine},
          {"task", twice.later.task},
          {"position", text_or_null(twice.later.position)},
          {"fact", to_text(twice.later.id)},
          {"on", to_text(twice.later.on)},
          {"earlier_fact", to_text(twice.earlier.id)},
          {"earlier_on", to_text(twice.earlier.on)}};
}

Json ended_as_json(const service::EndedDoubt& ended) {
  return {{"machine", ended.machine},    {"meter", ended.meter},    {"unit", ended.unit},
          {"fact", to_text(ended.fact)}, {"on", to_text(ended.on)}, {"shown", number(ended.shown)}};
}

Json high_first_as_json(const service::HighFirstValue& value) {
  const bool read = !value.most_used.empty();
  return {{"machine", value.machine},
          {"meter", value.meter},
          {"unit", value.unit},
          {"fact", to_text(value.fact)},
          {"on", to_text(value.on)},
          {"shown", number(value.shown)},
          {"most_used", text_or_null(value.most_used)},
          {"most", read ? number(value.most) : Json(nullptr)}};
}

Json untold_as_json(const service::UntoldValue& untold) {
  Json json{{"machine", untold.machine}, {"meter", untold.meter}, {"unit", untold.unit},  {"tasks", untold.tasks},
            {"on", to_text(untold.on)},  {"last_on", nullptr},    {"last_shown", nullptr}};
  if (!untold.last) return json;
  json["last_on"] = to_text(untold.last->day);
  json["last_shown"] = number(untold.last->shown);
  return json;
}

Json check_as_json(const service::Entered& entered, const service::Point* check, const service::NotToRun& stopped) {
  Json json = place_of(*check);
  json["do"] = check->follow_up->doing;
  json["due_on"] = day_or_null(check->due_on);
  mark(json, *check);
  const service::CheckWhen when = check_when(entered, *check, stopped);
  json["once_back"] = when == service::CheckWhen::once_back;
  json["once_mended"] = when == service::CheckWhen::once_mended;
  return json;
}

Json idle_as_json(const service::LookAtNothing& idle) {
  return {{"machine", idle.look->machine},
          {"sign", service::cleaned(idle.look->name)},
          {"on", to_text(idle.look->on)},
          {"open_at", idle.machines},
          {"seen_later", idle.seen_later ? Json(to_text(*idle.seen_later)) : Json(nullptr)}};
}

Json before_work_as_json(const service::BeforeWork& before, const service::Fleet& fleet,
                         const service::NotToRun& stopped) {
  const auto wrong = [&](const service::Point* point) { return wrong_as_json(*point, stopped); };
  return {{"points", array_of(before.points, wrong)},
          {"signs", array_of(before.signs, wrong)},
          {"seen",
           array_of(before.seen, [&](const service::SeenSign* seen) { return seen_as_json(*seen, fleet, stopped); })}};
}

}  // namespace

Json json_of(const Written& written, const std::string& command) {
  const service::Entered& entered = written.entered;
  Json json;
  json["command"] = written.command;
  json["as_of"] = to_text(entered.today);
  json["stored"] = !entered.dry_run && !entered.added.empty();
  json["dry_run"] = entered.dry_run;
  json["already_there"] = entered.already_there;
  json["cautions"] = base_cautions_as_json();
  json["facts"] = array_of(entered.added, fact_as_json);
  json["said"] = entered.said;
  json["understood"] = written.understood;
  json["refused"] = written.left_out;
  json["rejects"] = text_or_null(written.rejects);
  json["changes"] = array_of(entered.changes, change_as_json);
  json["moves"] = array_of(entered.moves, move_as_json);
  const service::NotToRun stopped = entered.after == nullptr ? service::NotToRun() : service::NotToRun(*entered.after);
  const auto seen = [&](const service::SeenSign& sign) { return seen_as_json(sign, entered.was->fleet(), stopped); };
  json["seen"] = array_of(entered.seen, seen);
  json["answered"] = array_of(entered.answered, seen);
  json["stops_not_taken"] = stops_not_taken_as_json(entered);
  json["signs_left"] = signs_left_as_json(entered);
  json["answers_nothing"] = array_of(looks_at_nothing(entered), idle_as_json);
  json["twice"] = array_of(entered.twice, twice_as_json);
  json["gaps"] = gaps_as_json(entered.doubts, entered.was->fleet());
  json["newly_asked"] = newly_asked_as_json(entered);
  json["ended_gaps"] = gaps_as_json(entered.ended_gaps, entered.was->fleet());
  json["ended_doubts"] = array_of(entered.ended_doubts, ended_as_json);
  json["high_first_values"] = array_of(entered.high_first_values, high_first_as_json);
  json["untold"] = array_of(entered.untold, untold_as_json);
  json["checks_owed"] = array_of(checks_owed(entered),
                                 [&](const service::Point* check) { return check_as_json(entered, check, stopped); });
  json["before_work"] =
      written.before_work ? before_work_as_json(*written.before_work, entered.was->fleet(), stopped) : Json(nullptr);
  json["ended"] = written.ended ? machine_as_json(*written.ended, entered.was->fleet(), stopped) : Json(nullptr);
  json["run_not_in_use"] = run_not_in_use_as_json(entered, stopped);
  json["not_put_off"] = not_put_off_as_json(entered, stopped);
  json["unsafe_now"] = unsafe_now_as_json(entered);
  json["not_to_run"] = bans_as_json(bans_after(entered), entered.was->fleet());
  json["values_ended"] = values_ended_as_json(entered, command);
  json["values_healed"] = values_healed_as_json(entered);
  json["lines"] = Json::array();  // of messages alone
  json["undo"] = text_or_null(undo_of(written, command));
  return json;
}

std::string written_as_json(const Written& written, const std::string& command) {
  return dumped(json_of(written, command));
}

}  // namespace cli
