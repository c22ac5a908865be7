// What was learnt of one meter of one machine.
#pragma once

#include <memory>

#include "usage/lateness.h"
#include "usage/pooled_model.h"

namespace service::usage {

struct LearntUse {
  std::shared_ptr<const Learnt> learnt;      // null: nothing can be expected of it
  std::shared_ptr<const LateServices> late;  // of the kind
  double unit = 1;                           // what is learnt in, by the meter: a day's mean use of the kind
};

}  // namespace service::usage
