// Facts of a world while it is made.
#pragma once

#include <string>
#include <vector>

#include "twin.h"

namespace twin {

// A fact of one machine before its values are known: what the meter shows depends on changes and roll-overs before
// it, so that is filled in afterwards, walking the facts in order.
struct Planned {
  Fact fact;
  bool valued = false;   // carries a value of the meter (`at`, or the `last` of a meter change)
  Amount usage = 0;      // the true lifetime usage it stands for
  Amount new_first = 0;  // meter change: what the new meter shows
};

Planned plan(FactKind kind, const std::string& machine, Day day);

// `planned` lies in the order of day, on a day in the order of entry. Adds the meter changes that roll-overs imply.
std::vector<Fact> with_values(const Machine& machine, const std::vector<Meter>& meters,
                              const std::vector<Planned>& planned);

bool same_row(const Fact& a, const Fact& b);

// A row that equals an earlier one would be skipped on entry, so a world has none.
void drop_repeats(std::vector<Fact>& facts);

}  // namespace twin
