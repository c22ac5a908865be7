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
      : week_(week), number_(number), worths_(worths), whole_(week.visits[number]), options_(week.options[number]) {}

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
      set(number_, whole_, options_);
      return false;
    }
    const Visit behind = visit_with(rest, whole_.name);
    week_.visits.insert(week_.visits.begin() + static_cast<std::ptrdiff_t>(number_) + 1, behind);
    week_.options.insert(week_.options.begin() + static_cast<std::ptrdiff_t>(number_) + 1,
                         options_of(week_, behind, worths_));
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

  Visit visit_with(std::vector<const Point*> points, std::string name) const {
    Visit visit = visit_for(*week_.fleet, *whole_.machine, std::move(name), std::move(points));
    reckon_work(*week_.fleet, visit);
    return visit;
  }

  bool fits(const std::vector<const Point*>& points) {
    if (points.empty()) return false;
    const Visit visit = visit_with(points, free_name());
    set(number_, visit, options_of(week_, visit, worths_));
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

  void set(std::size_t number, const Visit& visit, const std::vector<VisitOption>& options) {
    week_.visits[number] = visit;
    week_.options[number] = options;
  }

  Week& week_;
  std::size_t number_;
  Worths& worths_;
  Visit whole_;
  std::vector<VisitOption> options_;
};

}  // namespace

void set_safety_apart(Week& week, const DoneBefore& done, Worths& worths) {
  bool any = false;
  for (std::size_t i = 0; i < week.visits.size(); ++i) {
    const Visit& visit = week.visits[i];
    if (!visit.safety || visit.call != nullptr || week.impossible[i] != PutOffReason::unreachable) continue;
    if (!Splitting(week, i, worths).split()) continue;
    any = true;
    fill_put_off(week, worths);
    fill_impossible(week);  // the rest stands next, and may be split again
  }
  for (std::size_t i = week.visits.size(); any && i-- > 0;) {
    if (!done.holds(week.visits[i].name)) continue;
    week.visits.erase(week.visits.begin() + static_cast<std::ptrdiff_t>(i));
    week.options.erase(week.options.begin() + static_cast<std::ptrdiff_t>(i));
  }
  if (!any) return;
  fill_put_off(week, worths);
  fill_impossible(week);
}

}  // namespace service::visits
