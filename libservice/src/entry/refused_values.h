// What a refused value, or one that is hard to believe, may have been, seen beside the other meters and what is in
// doubt.
#pragma once

#include <vector>

#include "service/entry.h"

namespace service {

// Puts the likelier cures first. Where the fact that is in the way is in doubt, that one is struck first; where
// somebody typed a value that another meter of the machine may well show (of a service: one by which it counts), it is
// that one's.
void put_likelier_first(const Fleet& fleet, const std::vector<Fact>& known, const std::vector<Proposal>& proposals,
                        const Stamp& stamp, Day today, Judgement& judgement);

// The same of values that are stored, and hard to believe of the meter that was told. `known`: the book without them;
// `added`: themselves, as the judge let `proposals` through.
std::vector<MeterMeant> meters_meant(const Fleet& fleet, const std::vector<Fact>& known,
                                     const std::vector<Proposal>& proposals, const Stamp& stamp, Day today,
                                     const std::vector<Fact>& added, const std::vector<Gap>& doubts);

}  // namespace service
