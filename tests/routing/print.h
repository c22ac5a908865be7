// How doctest shows a value of a plan in a failure.
#pragma once

#include <doctest/doctest.h>

#include <string>

#include "routing/problem.h"

namespace doctest {

template <>
struct StringMaker<service::routing::Value> {
  static String convert(const service::routing::Value& value) {
    const std::string text = std::to_string(value.promises) + " promises, " + std::to_string(value.safety) +
                             " for safety, " + std::to_string(value.money);
    return text.c_str();
  }
};

}  // namespace doctest
