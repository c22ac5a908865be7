// Numbers that are equal but for a relative error.
#pragma once

#include <doctest/doctest.h>

namespace test {

inline doctest::Approx near(double value, double tolerance) { return doctest::Approx(value).epsilon(tolerance); }

}  // namespace test
