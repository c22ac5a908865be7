// Uses of parts held against what is in stock.
#pragma once

#include "service/workload.h"

namespace service::load {

// Whose turn it is at the stock among the services of one day: in the order of the due list, but last on a machine that
// nobody may run, for anything but what that waits for.
struct UseRank {
  bool stopped = false;
  Standing standing = Standing::coming;
  bool waits = true;  // is neither for safety nor for a competent person
};

// `may_run`: anybody may run its machine. `mends`: it puts right what was found worn or failed.
UseRank rank_of(const Point& point, bool may_run, bool mends);

struct Use {
  std::string key;
  bool fluid = false;
  std::string unit;  // of a fluid
  PartUse use;
  UseRank rank = {};
};

void add_uses(std::vector<Use>& uses, const Resources& resources, const PartUse& as, const UseRank& rank = {});

// By part; what is short first, by the day to order by, then the others by name. `uses`: the whole fleet's. `before`:
// needs that are met first, of the whole fleet too; what they buy is in stock.
std::vector<PartNeed> needs_of(const Snapshot& snapshot, std::vector<Use> uses,
                               const std::vector<PartNeed>& before = {});

// Leaves the needs that a scope has a part in, with its uses; their figures stay the fleet's. Of what is not known
// stays what is about the whole fleet, a machine of the scope, or one whose services those figures hold.
void keep_uses_of(const Snapshot& snapshot, std::vector<PartNeed>& needs, std::vector<Gap>& gaps);

// Where one of the needs is doubtful, on whose readings they rest.
ReadingDoubts doubts_of(const std::vector<PartNeed>& needs, const std::vector<Gap>& gaps);

// Fails with internal where not all facts of the record were read.
void insist_on_whole(const Snapshot& snapshot);

}  // namespace service::load
