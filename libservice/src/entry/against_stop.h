// What would take a sign or a ban off a list though its own note says that the machine must not run: nobody can tell
// which of the two is meant, and only one of them harms nobody. It is refused, with what to say instead.
#pragma once

#include <memory>
#include <vector>

#include "service/snapshot.h"

namespace service::entry {

// Of looks that find a sign good, where the note says it or, typed, may say it; and of machines said to be back, where
// it says it for certain.
void refuse_looks_and_returns(std::vector<Proposal>& proposals);

// Of services, where the note says it or, typed, may say it, and without the service somebody would be kept from
// running the machine. `accepted`: what a judge let pass of the proposals. Whether there were any.
bool refuse_lifting(const std::shared_ptr<const Fleet>& fleet, const Extract& known, const std::vector<Fact>& accepted,
                    Day today, std::vector<Proposal>& proposals);

}  // namespace service::entry
