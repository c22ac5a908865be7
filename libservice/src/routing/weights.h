// The ordered value of a plan as one whole number, and back.
#pragma once

#include "routing/problem.h"

namespace service::routing {

// A safety job that is skipped weighs more than all the money that any two plans can differ by, a promise more than all
// safety jobs together.
struct Weights {
  Pence safety = 1;
  Pence promise = 1;

  Pence of(const Value& value) const { return value.promises * promise + value.safety * safety + value.money; }
  Pence of_skipping(const Job& job) const;

  // The smallest value that is not below this number: what a proven number proves.
  Value value_of(Pence number) const;
};

Weights weights_of(const Problem& problem);

}  // namespace service::routing
