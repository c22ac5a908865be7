#include "entry/message_near_machine.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "service/text.h"

namespace service::entry::message {
namespace {

// Letters and figures alone, in small ones.
std::string run_together(std::string_view name) {
  std::string text;
  for (const std::string& word : folded_words(name)) text += word;
  constexpr std::string_view marks = ".,;:!?()";
  while (!text.empty() && marks.find(text.back()) != std::string_view::npos) text.pop_back();
  return text;
}

}  // namespace

void insist_on_end_of_name(const Fleet& fleet, const Machine& machine, Words words, std::size_t count) {
  constexpr std::size_t most_more = 3;
  const std::string own = run_together(joined(words.first(count)));
  std::string more;
  for (std::size_t i = count; i < std::min(words.size(), count + most_more) && !words[i].quoted; ++i) {
    more += run_together(words[i].text);
    if (more.empty()) continue;
    const auto other = std::find_if(fleet.machines.begin(), fleet.machines.end(), [&](const Machine& one) {
      return one.key != machine.key && (run_together(one.key) == own + more || run_together(one.name) == own + more);
    });
    if (other == fleet.machines.end()) continue;
    wrong("several-names",
          fmt::format("`{}` may be {}, and `{}` behind it, or {}", joined(words.first(i + 1)), machine.key,
                      joined(words.subspan(count, i + 1 - count)), other->key),
          fmt::format("write which, with a colon behind it: {}: ..., or {}: ...", machine.key, other->key));
  }
}

}  // namespace service::entry::message
