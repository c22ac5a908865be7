// Worlds to be judged: every small world of a few families, and random ones that use all features together.
//
// Every fact of a generated world is one that entering it must accept: readings never fall without a meter change,
// an hour meter gains at most 24 h x (days + 1) between two values, nothing lies before the in-service day, no two
// rows are the same. Some facts are dated after the as-of day: they are to be ignored.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "twin.h"

namespace twin {

// ---- all small worlds -------------------------------------------------------------------------------------------

int family_count();
const char* family_name(int family);
std::size_t family_size(int family);
World family_world(int family, std::size_t index);  // index < family_size(family)

// ---- random worlds ----------------------------------------------------------------------------------------------

struct RandomOptions {
  bool strikes = true;  // a world with strikes can be written only with explicit ids
  bool partial_dates = true;
  bool roll_overs = true;
  // An ordinary task that names a competent person's task in its `covers`: without effect, but a strict reader of
  // fleet files may also call it a mistake. Hence off unless asked for.
  bool idle_covers = false;
};

World random_world(std::uint64_t seed, const RandomOptions& options = {});

// The first rule of entry that a fact (or the fleet) of this world breaks, in words; empty where there is none.
std::string problem(const World& world);

// Names of the features that a world uses, so that a run can show that it covered them all.
std::vector<std::string> features(const World& world);
std::vector<std::string> all_features();

}  // namespace twin
