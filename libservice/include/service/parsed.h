// What the strict readers give back.
//
// There is one reader for each kind of value, for the command line, the fleet files and CSV alike, so that a value is
// right everywhere or nowhere. The whole text must be the value: no blanks around it, no thousands marks, no `0x10`,
// `1e3`, `nan`, no empty text.
#pragma once

#include <optional>
#include <string>

#pragma GCC visibility push(default)

namespace service {

// Either a value, or in one clause what is wrong with the text ("has more than two decimals").
template <class T>
struct Parsed {
  std::optional<T> value;
  std::string problem;

  explicit operator bool() const { return value.has_value(); }
  const T& operator*() const { return *value; }
};

}  // namespace service

#pragma GCC visibility pop
