// Letters of UTF-8 one by one, for the tools of base.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace service {

struct Letter {
  char32_t code = 0;
  std::size_t bytes = 0;
};

// The first letter of a text; nothing where the text is empty, or does not begin with one.
std::optional<Letter> first_letter(std::string_view text);

}  // namespace service
