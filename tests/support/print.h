// How doctest shows our values in a failure.
#pragma once

#include <doctest/doctest.h>

#include <string>

#include "service/base.h"
#include "service/standing.h"

namespace doctest {

template <>
struct StringMaker<service::Standing> {
  static String convert(service::Standing standing) { return std::string(service::to_text(standing)).c_str(); }
};
template <>
struct StringMaker<service::LimbState> {
  static String convert(service::LimbState state) { return std::to_string(static_cast<int>(state)).c_str(); }
};
template <>
struct StringMaker<service::Amount> {
  static String convert(service::Amount amount) { return service::to_text(amount).c_str(); }
};
template <>
struct StringMaker<service::Day> {
  static String convert(service::Day day) { return service::to_text(day).c_str(); }
};

}  // namespace doctest
