// Slips of the pen in a meter's value.
#pragma once

#include <functional>
#include <optional>

#include "service/base.h"

namespace service::usage {

// The value that somebody most likely meant: of those from which one slip leads to `written` (two neighbouring digits
// swapped, a digit doubled, left out or misread, the point a place off), and which `fits`, the one nearest to
// `expected`. Nothing where none fits.
std::optional<Amount> slip_behind(Amount written, Amount expected, const std::function<bool(Amount)>& fits);

}  // namespace service::usage
