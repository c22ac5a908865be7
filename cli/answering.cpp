#include "answering.h"

#include <fmt/format.h>

namespace cli {

void tell_left_off(Context& context, std::size_t left_off) {
  context.also.push_back({"left-off",
                          fmt::format("and {} more", left_off),
                          "leave out --first to see them",
                          {},
                          service::Severity::remark});
}

}  // namespace cli
