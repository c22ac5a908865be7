// Rounds that are worth more than they cost, at given prices: labelling, with a bound that tells when there are none.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "routing/kinds.h"
#include "routing/prices.h"
#include "routing/way_home.h"

namespace service::routing {

struct Found {
  Route route;        // jobs in order; one may come again where it was forgotten (`Memory`)
  Pence cost = 0;     // travel and options, less what skipping its jobs costs
  Mills reduced = 0;  // at the prices that were asked with
};

// By job: the jobs that a round remembers having done when it comes there (ng-routes after Baldacci, Mingozzi and
// Roberti 2011). A round that forgets may come back: cheaper than anything real, and quicker to tell.
using Memory = std::vector<std::vector<int>>;

struct Thoroughness {
  std::size_t labels_a_stop = 0;  // only so many, the cheapest; 0: all, and then `least` is proven
  std::size_t most_labels = 0;    // of all stops together; beyond it nothing more is proven than by the table
  std::size_t wanted = 10;        // rounds to hand out
  std::function<bool()> stop = {};
};

struct Priced {
  std::vector<Found> found;  // possible rounds with a reduced cost below 0, the least first
  Mills least = 0;           // no round of this kind has less, where everything was looked at; never above 0
  bool proven = false;
};

// `number`: of the kind, for its price.
Priced price(const Problem& problem, const ShiftKind& kind, std::size_t number, const Prices& prices,
             const WayHome& home, const Memory& memory, const Thoroughness& thoroughness);

struct Listed {
  std::vector<Found> rounds;  // of each set of jobs the cheapest, by reduced cost
  bool all = false;           // none was left out
};

// Every possible round whose reduced cost is at most that.
Listed list_rounds(const Problem& problem, const ShiftKind& kind, std::size_t number, const Prices& prices,
                   const WayHome& home, Mills at_most, std::size_t most_labels, const std::function<bool()>& stop);

}  // namespace service::routing
