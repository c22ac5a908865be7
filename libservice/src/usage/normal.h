// The normal distribution, for whoever searches.
#pragma once

namespace service::usage {

// The value that a normal variable does not exceed with these odds, to half a thousandth; odds next to nothing or
// certainty as six standard deviations.
double deviate_of(double odds);

}  // namespace service::usage
