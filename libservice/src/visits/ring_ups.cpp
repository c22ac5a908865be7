#include "service/ring_ups.h"

#include <algorithm>

#include "visits/kept_plan.h"

namespace service {

std::vector<RingUp> ring_ups(const RoundsPlan& plan) {
  std::vector<RingUp> calls;
  std::string last;
  for (std::size_t i = 0; i < plan.changes.size(); ++i) {
    const PlanChange& change = plan.changes[i];
    const std::string whom = visits::whom_of(change);
    if (calls.empty() || whom != last) calls.emplace_back();
    last = whom;
    RingUp& call = calls.back();
    call.promised = call.promised || change.promised;
    call.changes.push_back(i);
    if (change.site == nullptr) continue;
    call.contact = change.site->contact;
    if (std::find(call.sites.begin(), call.sites.end(), change.site) == call.sites.end()) {
      call.sites.push_back(change.site);
    }
  }
  return calls;
}

}  // namespace service
