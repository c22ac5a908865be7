#include "entry/message_beside.h"

#include <algorithm>
#include <iterator>

namespace service::entry {

std::optional<std::size_t> untaken_beside(const std::vector<LineSent>& lines, std::size_t at) {
  const LineSent& line = lines[at];
  const auto untaken_of = [&](std::size_t message) -> std::optional<std::size_t> {
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (i != at && lines[i].message == message && lines[i].untaken) return i;
    }
    return std::nullopt;
  };
  if (const auto own = untaken_of(line.message)) return own;
  const auto is_other = [&](const LineSent& one) { return one.message != line.message && one.sender == line.sender; };
  const auto here = lines.begin() + static_cast<std::ptrdiff_t>(at);
  if (const auto next = std::find_if(here, lines.end(), is_other); next != lines.end()) {
    if (const auto behind = untaken_of(next->message)) return behind;
  }
  const auto before = std::find_if(std::make_reverse_iterator(here), lines.rend(), is_other);
  if (before == lines.rend() || !before->untaken || !before->announces) return std::nullopt;
  return static_cast<std::size_t>(lines.rend() - before) - 1;
}

}  // namespace service::entry
