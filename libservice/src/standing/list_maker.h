// A due list, put together machine after machine in any order.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "service/due_list.h"
#include "service/in_scope.h"
#include "service/machine_book.h"
#include "standing/shared_tasks.h"
#include "standing/view.h"

namespace service {

class ListMaker {
 public:
  ListMaker(std::shared_ptr<const Fleet> fleet, Day as_of, Scope scope, DueAsk ask);
  ListMaker(const ListMaker&) = delete;
  ListMaker& operator=(const ListMaker&) = delete;

  // Whether the list is about a machine.
  bool wants(const Machine& machine) const { return in_scope_.holds(machine.key); }

  // Once for each machine that it wants, also those that are not there on that day: facts may be.
  void add(const Machine& machine, std::shared_ptr<const MachineBook> book, const Forecaster& forecaster);

  // In the order of their names. `facts`: unstruck, up to that day.
  void add_unlisted(const std::string& machine, std::span<const Fact> facts);

  // `newest`: the newest day of the whole record.
  DueList made(std::optional<Day> newest, bool day_is_given) &&;

 private:
  static constexpr std::size_t standings = 5;

  // Gaps and the machines that they are about, which say in which order they come.
  struct Gaps {
    std::vector<Gap> gaps;
    std::vector<const Machine*> machines;
    void add(const Machine& machine, Gap gap);
    void put_in_order();
  };

  bool keeps(const Point& point, bool nothing_recorded) const;
  void take(std::vector<Point> points, const MachineView& view);
  void let_go(const Point& point);

  DueAsk ask_;
  DueList list_;
  InScope in_scope_;  // of the list's scope
  SharedTasks tasks_;
  std::array<int, standings> let_go_{};  // by standing
  const Machine* let_go_of_ = nullptr;   // the last of whose points one was
  std::vector<Gap> unlisted_;
  Gaps of_days_;
  Gaps of_machines_;
};

}  // namespace service
