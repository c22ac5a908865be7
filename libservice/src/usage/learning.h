// From the books of a kind's machines to what they teach about one of their meters.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "service/machine_book.h"
#include "service/usage.h"
#include "usage/lateness.h"
#include "usage/pooled_model.h"

namespace service::usage {

struct LearntMeter {
  std::map<std::string, Learnt, std::less<>> machines;  // of those of which anything can be expected
  LateServices late{{}};
  double unit = 1;  // a day's mean use of the kind, by the meter
};

// Whether it will be asked how late services come: by odds that are told an interval.
enum class LatenessAsked { yes, no };

using BookOf = std::function<std::shared_ptr<const MachineBook>(const Machine&)>;

// `kin`: the machines of the kind. It depends on their books and on what the fleet says of them, and on no day.
LearntMeter learn(const Fleet& fleet, const std::vector<const Machine*>& kin, const BookOf& book_of,
                  const std::string& meter, LatenessAsked lateness_asked = LatenessAsked::yes);

}  // namespace service::usage
