// Work for safety that would be left out only because of other work at its machine.
#include <algorithm>

#include "service/job_sheet.h"
#include "visits/visits_made.h"
#include "visits/week_parts.h"

namespace service::visits {
namespace {

constexpr const char* apart = "+safety";

bool holds(const std::vector<const Point*>& points, const Point* point) {
  return std::find(points.begin(), points.end(), point) != points.end();
}

class Splitting {
 public:
  Splitting(Week& week, std::size_t number, Worths& worths)
      : week_(week), number_(number), worths_(worths), whole_(week.visits[number]) {}

  // Where some of it fits in alone, that becomes the visit, and the rest one behind it.
  bool split() {
    std::vector<const Point*> safe;
    for (const Point* point : whole_.points) {
      if (!is_safety(*point)) continue;
      safe.push_back(point);
      if (!fits(safe)) safe.pop_back();
    }
    for (const Point* point : whole_.points) {
      if (!holds(safe, point) && takes_nothing_beside(safe, *point)) safe.push_back(point);
    }
    std::vector<const Point*> rest;
    for (const Point* point : whole_.points) {
      if (!holds(safe, point)) rest.push_back(point);
    }
    if (safe.empty() || rest.empty() || !fits(in_order(safe))) {
      week_.visits[number_] = whole_;
      return false;
    }
    week_.visits.insert(week_.visits.begin() + static_cast<std::ptrdiff_t>(number_) + 1, visit_with(rest, whole_.name));
    return true;
  }

 private:
  std::vector<const Point*> in_order(const std::vector<const Point*>& points) const {
    std::vector<const Point*> ordered;
    for (const Point* point : whole_.points) {
      if (holds(points, point)) ordered.push_back(point);
    }
    return ordered;
  }

  Visit visit_with(std::vector<const Point*> points, std::string name) {
    Visit visit = visit_for(*week_.fleet, *whole_.machine, std::move(name), std::move(points));
    reckon_work(*week_.fleet, visit);
    fill_options(week_, visit, worths_);
    return visit;
  }

  bool fits(const std::vector<const Point*>& points) {
    if (points.empty()) return false;
    week_.visits[number_] = visit_with(points, free_name());
    const auto fits = fits_alone(week_, number_);
    return std::find(fits.begin(), fits.end(), true) != fits.end();
  }

  // What a service for safety includes is done with it.
  bool takes_nothing_beside(std::vector<const Point*> safe, const Point& point) const {
    if (safe.empty()) return false;
    safe.push_back(&point);
    return !holds(by_themselves(*week_.fleet, in_order(safe)), &point);
  }

  std::string free_name() const {
    std::string name = whole_.name + apart;
    const auto is_taken = [&](const Visit& visit) { return &visit != &week_.visits[number_] && visit.name == name; };
    while (std::any_of(week_.visits.begin(), week_.visits.end(), is_taken)) name += apart;
    return name;
  }

  Week& week_;
  std::size_t number_;
  Worths& worths_;
  Visit whole_;
};

}  // namespace

void set_safety_apart(Week& week, const DoneBefore& done, Worths& worths) {
  bool any = false;
  for (std::size_t i = 0; i < week.visits.size(); ++i) {
    const Visit& visit = week.visits[i];
    if (!visit.safety || visit.call != nullptr || week.visits[i].impossible != PutOffReason::unreachable) continue;
    if (!Splitting(week, i, worths).split()) continue;
    any = true;
    fill_put_off(week, worths);
    fill_impossible(week);  // the rest stands next, and may be split again
  }
  if (!any) return;
  std::erase_if(week.visits, [&](const Visit& visit) { return done.holds(visit.name); });
  fill_put_off(week, worths);
  fill_impossible(week);
}

}  // namespace service::visits
