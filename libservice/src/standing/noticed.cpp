// What is told of a listed sign, in the same words as what is kept as seen.
#include <algorithm>

#include "service/standing.h"

namespace service {

const std::string& NoticedSign::note() const {
  if (!looks.empty()) return looks.back().note;
  const auto newest =
      std::find_if(sightings.rbegin(), sightings.rend(), [](const Sighting& one) { return !one.note.empty(); });
  return newest == sightings.rend() ? sightings.back().note : newest->note;
}

const NoticedSign* LimbStanding::open_sign() const {
  const auto open = std::find_if(noticed.begin(), noticed.end(), [](const auto& sign) { return !sign.answered(); });
  return open == noticed.end() ? nullptr : &*open;
}

}  // namespace service
