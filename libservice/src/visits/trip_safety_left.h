// Of each trip of a plan what is left of the work for safety at its machines.
#pragma once

#include "service/visits.h"

namespace service::visits::trip {

void fill_safety_left(VisitsPlan& plan);

}  // namespace service::visits::trip
