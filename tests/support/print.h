// How doctest shows our values in a failure.
#pragma once

#include <doctest/doctest.h>

#include <string>

#include "service/base.h"
#include "service/due_list.h"

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
struct StringMaker<service::LimbKind> {
  static String convert(service::LimbKind kind) { return std::string(service::to_text(kind)).c_str(); }
};
template <>
struct StringMaker<service::FactKind> {
  static String convert(service::FactKind kind) { return std::string(service::to_text(kind)).c_str(); }
};
template <>
struct StringMaker<service::GapKind> {
  static String convert(service::GapKind kind) { return std::string(service::to_text(kind)).c_str(); }
};
template <>
struct StringMaker<service::Basis> {
  static String convert(service::Basis basis) { return std::string(service::to_text(basis)).c_str(); }
};
template <>
struct StringMaker<service::UseKind> {
  static String convert(service::UseKind kind) { return std::to_string(static_cast<int>(kind)).c_str(); }
};
template <>
struct StringMaker<service::OverdueHeading> {
  static String convert(service::OverdueHeading heading) { return std::to_string(static_cast<int>(heading)).c_str(); }
};
template <class Kind>
struct StringMaker<service::Exact<Kind>> {
  static String convert(service::Exact<Kind> quantity) { return service::to_text(quantity).c_str(); }
};
template <>
struct StringMaker<service::Day> {
  static String convert(service::Day day) { return service::to_text(day).c_str(); }
};
template <>
struct StringMaker<service::DaySpan> {
  static String convert(const service::DaySpan& span) { return service::to_text(span).c_str(); }
};
template <>
struct StringMaker<service::MonthDay> {
  static String convert(const service::MonthDay& day) {
    return (std::to_string(day.month) + "-" + std::to_string(day.day)).c_str();
  }
};
template <>
struct StringMaker<service::FactId> {
  static String convert(const service::FactId& id) { return service::to_text(id).c_str(); }
};

}  // namespace doctest
