#include "entry/message_draft.h"

#include <algorithm>
#include <map>
#include <utility>

namespace service::entry {

bool sent_before(const Draft& a, const Draft& b) {
  if (a.block == b.block) return a.line.number < b.line.number;
  if (!a.sent_on || !b.sent_on) return false;
  if (*a.sent_on != *b.sent_on) return *a.sent_on < *b.sent_on;
  return a.stamp->second && b.stamp->second && *a.stamp->second < *b.stamp->second;
}

void put_in_order(std::vector<Draft>& drafts) {
  struct Block {
    std::size_t number;
    std::pair<Day, int> sent;
  };
  std::vector<Block> blocks;
  for (const Draft& draft : drafts) {
    const bool is_timed = draft.sent_on && draft.stamp && draft.stamp->second;
    if (!is_timed || (!blocks.empty() && blocks.back().number == draft.block)) continue;
    blocks.push_back({draft.block, {*draft.sent_on, *draft.stamp->second}});
  }
  std::vector<Block> sorted = blocks;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Block& a, const Block& b) { return a.sent < b.sent; });
  std::map<std::size_t, std::size_t> place;
  for (std::size_t i = 0; i < blocks.size(); ++i) place[sorted[i].number] = blocks[i].number;
  const auto place_of = [&](const Draft& draft) {
    const auto at = place.find(draft.block);
    return at == place.end() ? draft.block : at->second;
  };
  std::stable_sort(drafts.begin(), drafts.end(),
                   [&](const Draft& a, const Draft& b) { return place_of(a) < place_of(b); });
}

}  // namespace service::entry
