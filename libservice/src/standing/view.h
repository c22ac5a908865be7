// One machine on one day, with everything worked out that its points share.
#pragma once

#include <algorithm>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "service/due_list.h"
#include "service/machine_book.h"
#include "service/snapshot.h"
#include "service/usage.h"

namespace service {

struct MachineView {
  MachineView(const Snapshot& from, const Machine& of, const Forecaster& forecaster);

  // Out of a book of its own. The fleet must outlive it. `its_tasks`: null where they are to be worked out.
  MachineView(const Fleet& from, Day on, const Machine& of, std::shared_ptr<const MachineBook> its,
              const Forecaster& forecaster, std::shared_ptr<const std::vector<MachineTask>> its_tasks = nullptr);

  const Fleet& fleet;
  const Machine& machine;
  const Schedule& schedule;
  Day as_of;
  UseState state;
  std::shared_ptr<const MachineBook> book;
  std::span<const Fact> facts;  // that bear on a standing
  std::shared_ptr<const std::vector<MachineTask>> shared_tasks;
  const std::vector<MachineTask>& tasks;  // of those
  const Histories& histories;             // of the book
  Aheads ahead;

  // Those that still stand; worked out when first asked.
  const std::vector<Doubt>& doubts(const Meter& meter) const { return book->doubts(meter); }

  const MeterHistory* history(const std::string& meter) const;

  // What is expected lies today at the earliest, whatever it is derived from: every day ahead is taken from one of
  // these.
  std::optional<Day> not_past(std::optional<Day> day) const { return day ? std::optional{std::max(*day, as_of)} : day; }
  std::optional<Day> expected_at(const std::string& meter, Amount level, Quantile quantile) const;

  // Usage of a meter today at even odds; nothing where none is expected.
  std::optional<Amount> estimate_today(const std::string& meter) const;

  // False where bounds tell that this estimate is below a level: it costs many times as much as they do.
  bool may_be_estimated_at(const std::string& meter, Amount level) const {
    return ahead.find(meter)->second->may_have_come_to(level, as_of);
  }

  // Usage at in-service of a machine that was new: its first meter's delivery hours, zero on the others.
  std::optional<Amount> usage_when_new(const std::string& meter) const;
};

}  // namespace service
