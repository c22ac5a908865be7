// One standing taken apart, in words. Nothing is reckoned here.
#pragma once

#include <string>
#include <vector>

#include "service/explain.h"

namespace cli {

struct Explained {
  std::string rule;
  std::vector<std::string> facts;
  std::vector<std::string> sums;
  std::vector<std::string> ahead;  // what is expected, and from what
  std::string ruling;
};

Explained in_words(const service::Explanation& explained, const service::Fleet& fleet, service::Day as_of);

std::vector<std::string> expectations(const service::Explanation& explained, service::Day as_of);

}  // namespace cli
