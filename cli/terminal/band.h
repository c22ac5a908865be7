// A span on a scale: from its low to its high end, with a mark where it is as likely above as below.
#pragma once

#include <string>

#include "terminal/look.h"

namespace cli {

struct Band {
  double low = 0;
  double middle = 0;
  double high = 0;
};

// `cells` columns from 0 to `most`: light up to the low end, dense within the band, a stroke at the middle.
std::string band_bar(const Look& look, const Band& band, double most, std::size_t cells);

}  // namespace cli
