// What stays open though somebody may take it for settled by what he entered: that a machine must not run, said in the
// words of a sign or a note alone, and signs that a service answers by no rule.
//
// Made from what was entered and pointing into it: it lives as long as that stays where it is. Nothing here fails.
#pragma once

#include <string>
#include <vector>

#include "service/entry.h"
#include "service/told_signs.h"

#pragma GCC visibility push(default)

namespace service {

// A sign, a look that found it worn or failed, or the note of anything else that was told, whose words say or may say
// that its machine must not run (`stop_told`), and nothing keeps it from being run: a lay-up ends by itself.
struct StopNotTaken {
  const Fact* fact = nullptr;  // among what was added
  MustNotRun says = MustNotRun::may_be_said;
};

// In the order in which they were added. Left out where the machine is out of use, where somebody has said since that
// it is back, where the sign was found good since, and where what the note is about was done again since.
std::vector<StopNotTaken> stops_not_taken(const Entered& entered);

// What a meter shows of use while its machine stood, that is asked since what was added and was not before: of a lay-up
// that was told late, say. Left out where a value that was added shows it, for that is told (`run_not_in_use`). Points
// into `entered.after`.
std::vector<const Gap*> newly_asked(const Entered& entered);

// A sign that nobody has found good, of a machine of which a service was added.
struct SignLeft {
  const SeenSign* seen = nullptr;     // kept as seen: only a look answers it, or
  const Point* point = nullptr;       // a listed one: the point that comes due by it, and
  const NoticedSign* sign = nullptr;  // what was seen of that
  const Machine& machine() const { return seen != nullptr ? *seen->machine : *point->machine; }
};

// Of the machines of added services: all that is kept as seen and was before; and the listed signs at the points of
// those services, or that stood there, where they are open all the same: seen later than that service, at another
// position or at another task. Points into `entered.after`.
std::vector<SignLeft> signs_left(const Entered& entered);

}  // namespace service

#pragma GCC visibility pop
