// What the stops of a plan take along, one after the other, held against what is in stock: what one has taken is there
// no more for the next. (A job sheet shares stock out by the days of need instead: part_lack.h.)
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "service/due_list.h"
#include "service/fleet.h"
#include "service/part_lack.h"

#pragma GCC visibility push(default)

namespace service {

enum class LoadFor {
  work,
  filling_up,   // what a crew used of what it always carries: no work waits for it
  done_before,  // work that a kept plan has before the week, taken as made: it is no more in stock
  entered,      // likewise, that the book has since: what is counted there has lost it already
};

// Of a stop of a round, or of one service of a visit.
struct PlannedLoad {
  std::size_t visit = 0;         // of the week; or the number of the trip in its plan, also of what fills up
  const Point* point = nullptr;  // that service; null: the whole stop
  const Machine* machine = nullptr;
  Day on{};
  // Beside what the crew carries and has not used up. Once held against stock: as of that, counted or never counted.
  std::vector<std::pair<std::string, PartAmount>> parts;
  std::vector<std::pair<std::string, Quantity>> fluids;
  bool told = true;                  // its stop is, not only that of another site or machine
  std::vector<PartLack> lacks = {};  // filled by `hold_against_stock`; by key
  LoadFor what = LoadFor::work;      // of the others `visit` of a week means nothing
  const Crew* crew = nullptr;        // of what fills up
  // Of what was done before: what stock shows already, by count or by the book. Filled by `hold_against_stock`.
  std::vector<std::string> shown = {};
  // The same parts where they are never counted: then the book takes nothing of them off stock, so what is done before
  // is taken from the crew's board and from stock whether it is entered or not.
  std::vector<std::pair<std::string, PartAmount>> parts_not_counted = {};

  // Some of it cannot be there on its day, or nobody knows.
  bool cannot_be_finished() const;
};

// What the told stops of a plan lack, and which of them cannot be finished as they are planned.
struct LackingWork {
  std::vector<std::string> parts;         // that are short, in the order of names
  std::vector<const PlannedLoad*> loads;  // that cannot be finished, in the order of the plan
  std::size_t visits = 0;                 // so many stops or visits
  bool fills_up_late = false;             // what crews always carry cannot be filled up in time, or nobody knows
};

LackingWork lacking_work(const std::vector<PlannedLoad>& loads);

}  // namespace service

#pragma GCC visibility pop
