// What a refused value may have been, seen beside the other meters and what is in doubt.
#pragma once

#include <vector>

#include "service/snapshot.h"

namespace service {

// Puts the likelier cures first. Where the fact that is in the way is in doubt, that one is struck first; where
// somebody typed a value that another meter of the machine may well show (of a service: one by which it counts), it is
// that one's.
void put_likelier_first(const Fleet& fleet, const std::vector<Fact>& known, const std::vector<Proposal>& proposals,
                        const Stamp& stamp, Day today, Judgement& judgement);

}  // namespace service
