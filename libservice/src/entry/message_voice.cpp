#include "entry/message_voice.h"

#include <algorithm>
#include <cstdlib>
#include <numeric>

namespace service::entry {
namespace {

bool may_be_one(const std::string& a, const std::string& b) { return a.empty() || b.empty() || a == b; }

// Of each line those right before it and behind it in an order; headings part nothing.
void add_beside(std::vector<std::vector<std::size_t>>& beside, const std::vector<LineSent>& lines,
                const std::vector<std::size_t>& order) {
  std::optional<std::size_t> before;
  for (const std::size_t i : order) {
    if (lines[i].heading) continue;
    if (before) {
      beside[i].push_back(*before);
      beside[*before].push_back(i);
    }
    before = i;
  }
}

}  // namespace

std::vector<std::optional<std::size_t>> untaken_of_one_voice(
    const std::vector<LineSent>& lines, const std::function<SpeaksOf(std::size_t, std::size_t)>& speaks_of) {
  std::vector<std::size_t> order(lines.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::vector<std::vector<std::size_t>> beside(lines.size());
  add_beside(beside, lines, order);
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return lines[a].number < lines[b].number; });
  add_beside(beside, lines, order);
  std::vector<std::optional<std::size_t>> nearest(lines.size());
  for (std::size_t at = 0; at < lines.size(); ++at) {
    if (!lines[at].clears) continue;
    const auto distance = [&](std::size_t i) { return std::abs(lines[i].number - lines[at].number); };
    for (const std::size_t i : order) {
      if (i == at || !lines[i].untaken) continue;
      if (nearest[at] && distance(i) > distance(*nearest[at])) continue;
      if (!may_be_one(lines[i].sender, lines[at].sender)) {
        const SpeaksOf of = speaks_of(at, i);
        const bool is_later = i > at || lines[i].number > lines[at].number;
        const bool holds_safety = lines[at].safety && is_later && of != SpeaksOf::talk;
        const bool is_beside = std::find(beside[at].begin(), beside[at].end(), i) != beside[at].end();
        const bool is_none = of == SpeaksOf::other || of == SpeaksOf::talk || (of == SpeaksOf::anything && !is_beside);
        if (is_none && !holds_safety) continue;
      }
      nearest[at] = i;
    }
  }
  return nearest;
}

}  // namespace service::entry
