// A list that is read out of a record machine after machine, held against the list of all facts.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "render/due/due.h"
#include "render/find_out/find_out.h"
#include "render/overdue/overdue.h"
#include "service/due_list.h"
#include "service/kept_books.h"
#include "service/not_to_run.h"
#include "service/run_ban.h"
#include "standing/list_of_record.h"
#include "support/temporary_folder.h"

namespace test {

// All that is told of a list that keeps so much.
inline std::string told(const service::DueList& list, service::Keep keep) {
  cli::Look look;
  look.command = "whichever";
  if (keep == service::Keep::overdue) {
    return cli::overdue_as_text(list, look) + cli::overdue_as_json(list) + cli::overdue_as_csv(list) +
           cli::overdue_as_markdown(list, look.command);
  }
  if (keep == service::Keep::to_find_out) {
    cli::FindOutAnswer answer{list, service::find_out(list)};
    answer.beside = service::told_beside(list, answer.machines);
    return cli::find_out_as_text(answer, look) + cli::find_out_as_csv(answer) + cli::find_out_as_json(answer);
  }
  cli::DueAnswer due;
  due.list = list;
  due.all = keep == service::Keep::all;
  due.newest_fact = list.newest_fact;
  const std::string text = cli::due_as_text(due, look) + cli::due_as_markdown(due, look.command);
  return due.all ? text + cli::due_as_json(due) + cli::due_as_csv(due) : text;
}

// Which machines nobody may run, and why.
inline std::string told_bans(const service::DueList& list) {
  std::string told;
  for (const service::RunBan& ban : service::run_bans(list)) {
    told += ban.machine->key + (ban.state != nullptr ? " stands" : "");
    for (const service::Point* point : ban.points) {
      told += ' ' + point->name + '@' + point->position + (point->doubtful ? " doubtful" : "");
      for (const service::LimbStanding& limb : point->limbs) told += limb.estimated_used ? " estimated" : " known";
    }
    for (const service::SeenSign* seen : ban.seen) told += ' ' + seen->sign;
    told += '\n';
  }
  return told;
}

// The same is told of points that are written as they are made, though the list holds none of them, as of a list that
// holds them all; and of the first few alone.
inline void hold_long_formats(const service::DueList& whole,
                              const std::function<service::DueList(const service::DueAsk&)>& list_of) {
  const TemporaryFolder folder;
  for (const std::optional<std::size_t> first : {std::optional<std::size_t>{}, std::optional<std::size_t>{2}}) {
    cli::DueAnswer due;
    due.list = whole;
    due.first = first;
    for (const cli::LongFormat& format : cli::long_due_formats) {
      cli::PointTexts points(format.write, first, folder.path(), 1000);
      service::DueAsk ask{whole.within};
      ask.keep = service::Keep::forbidding;
      ask.each = [&](const service::DueList& of_machine) {
        REQUIRE(std::all_of(of_machine.points.begin(), of_machine.points.end(), [&](const service::Point& point) {
          return point.machine == of_machine.points.front().machine;
        }));
        points.add(of_machine);
      };
      cli::DueAnswer rest;
      rest.list = list_of(ask);
      REQUIRE(std::all_of(rest.list.points.begin(), rest.list.points.end(),
                          [](const service::Point& point) { return forbids_running(point); }));
      points.put_in_order();
      std::string text;
      format.put(rest, points, [&](std::string_view piece) { text += piece; });
      REQUIRE((text == (format.name == "csv" ? cli::due_as_csv(due) : cli::due_as_json(due))));
      REQUIRE(points.left_off() == due.every().left_off);
      REQUIRE(needs_doing(rest.list) == needs_doing(whole));
    }
  }
}

// Points that are kept, and those that were let go.
inline std::size_t counted(const service::DueList& list) {
  std::size_t points = list.points.size();
  for (const auto& [standing, count] : list.let_go.counts) points += static_cast<std::size_t>(count);
  return points;
}

// The same is told of the list, whatever it keeps, as of one that holds all points; how many points it let go.
inline std::size_t hold_one_by_one(const std::shared_ptr<const service::Fleet>& fleet, const service::Record& record,
                                   service::Day as_of, const service::Scope& scope = {}) {
  const auto snapshot = service::take_snapshot(fleet, record, as_of, true, scope);
  service::DueAsk ask{as_of + std::chrono::days{60}, {}};
  const auto whole = due_list(snapshot, ask);
  hold_long_formats(whole,
                    [&](const service::DueAsk& each) { return due_list_of(record, fleet, as_of, true, scope, each); });
  std::size_t let_go = 0;
  for (const auto keep :
       {service::Keep::all, service::Keep::overdue, service::Keep::not_later, service::Keep::to_find_out}) {
    ask.keep = keep;
    const auto list = due_list_of(record, fleet, as_of, true, scope, ask);
    REQUIRE((told(list, keep) == told(whole, keep)));
    service::ReadHow little;  // as of a large kind
    little.most_at_hand = 5;
    little.machines_in_a_view = 1;
    const auto by_little = service::list_of_record(record, fleet, as_of, true, scope, ask, little);
    REQUIRE((told(by_little, keep) == told(whole, keep)));
    REQUIRE(counted(list) == whole.points.size());
    if (keep == service::Keep::all) REQUIRE(list.points.size() == whole.points.size());
    REQUIRE(needs_doing(list) == needs_doing(whole));
    let_go += whole.points.size() - list.points.size();
  }
  ask.keep = service::Keep::forbidding;
  ask.gaps_of_machines = false;
  REQUIRE(told_bans(due_list(snapshot, ask)) == told_bans(whole));
  return let_go;
}

}  // namespace test
