// What the stops of a plan take along and stock does not cover.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "service/planned_load.h"
#include "service/rounds_list.h"
#include "service/workload.h"

namespace service::visits {

using Carried = std::map<std::string, PartAmount>;

// What a crew carries, round by round: what a round used of it is taken on again with the load of the next one.
class OnBoard {
 public:
  explicit OnBoard(const Crew& crew) : full_(crew.carries.begin(), crew.carries.end()), left_(full_) {}

  // What the work of a stop takes beside what is left on board, which is used up with that.
  std::vector<std::pair<std::string, PartAmount>> beside(const std::vector<std::pair<std::string, PartAmount>>& parts);

  // Of the round that ends with its last stop: what it had to load beside that, to be full.
  std::vector<std::pair<std::string, PartAmount>> end_round();

 private:
  Carried full_;
  Carried left_;
  Carried missing_;  // used by the round before
  Carried takes_;    // this round, in all
  Carried loaded_;   // likewise, beside what was left
};

// The loads of a plan in the order in which they are taken from stock: day by day what stops take, and behind them what
// fills up what crews always carry. Rounds, and trips, are put in by day.
class LoadsInOrder {
 public:
  // Of a stop or service of the round that the crew makes: its parts are all that its work takes. No crew: nobody of
  // this fleet, who carries nothing. What the book has (`LoadFor::entered`) is off a count whole, also what was on
  // board, so where parts are counted it uses up nothing there: what fills that up is taken from no shelf again.
  void add(const Crew* crew, PlannedLoad load);

  // That round is over. `of`: says of what fills up for whom and what it is.
  void end_round(const Crew& crew, PlannedLoad of);

  std::vector<PlannedLoad> take();

 private:
  struct Boards {
    explicit Boards(const Crew& crew) : counted(crew), not_counted(crew) {}
    OnBoard counted;
    OnBoard not_counted;
  };

  void begin(Day on);
  Boards& boards_of(const Crew& crew) { return boards_.try_emplace(&crew, crew).first->second; }

  Day on_ = Day::max();
  std::map<const Crew*, Boards> boards_;
  std::vector<PlannedLoad> loads_;
  std::vector<PlannedLoad> fill_up_;  // of that day
};

// Fills in what each lacks, in their order.
void take_from_stock(std::vector<PlannedLoad>& loads, const PartsList& parts);

// Of those that are told.
std::vector<ShortPart> short_parts(const std::vector<PlannedLoad>& loads);

// Of these, made in one go. Nothing is kept from one for the other.
std::vector<PartLack> lacks_of(const std::vector<PlannedLoad>& loads,
                               const std::function<bool(const PlannedLoad&)>& is_one);

}  // namespace service::visits
