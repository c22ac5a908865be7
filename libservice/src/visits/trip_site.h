// The plan of one site. Where days hold all work on the cheapest days of all, these are the plan; else it begins from
// there, its groups one after the other, and is bettered.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "visits/trip_model.h"

namespace service::visits::trip {

struct Sums {
  Money trips;
  Money early;
  Money late;
  Money total() const { return trips + early + late; }
};

struct SitePlan {
  std::shared_ptr<const SiteModel> model;
  Places places;
  Sums sums;

  std::size_t visits() const;                 // a crew-day is one
  std::vector<const Point*> nowhere() const;  // no day has room for these
};

struct SitePlans {
  SitePlan best;
  SitePlan on_own_days;
  Money bound;                                 // no plan for what `best` does costs less
  bool own_days_behind = false;                // they leave out more, or do work for safety later
  bool by_fewer = false;                       // those of fewer crews were asked
  std::optional<CrewsTried> crews_tried = {};  // where not all choices of crews were
};

// The best plans of the same services by fewer crews. Asked only where the plan is not proven without.
using OtherPlans = std::function<std::vector<SitePlan>()>;

// Whether somebody asks what is proven: of plans that are only tried nobody does, and it takes its time.
enum class Asked { plan, plan_and_bound };

// Of few groups all orders are tried. There is at least one.
SitePlans plan_site(const Fleet& fleet, const SiteWork& work, const OtherPlans& by_fewer, Asked asked);

}  // namespace service::visits::trip
