#include "entry/message_others.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "entry/message_overheard.h"

namespace service::entry::message {

void insist_on_one_machine(const Told& told, const Machine& machine, Words words, std::string_view own,
                           std::string_view form) {
  std::string open;
  for (const Word& word : words) open += word.quoted ? "" : word.text + ' ';
  const auto kept = Overheard(told.fleet, own).others(machine);
  std::vector<const Machine*> others = Overheard(told.fleet, open).others(machine);
  std::erase_if(others, [&](const Machine* one) { return std::find(kept.begin(), kept.end(), one) == kept.end(); });
  if (others.empty()) return;
  std::vector<std::string> keys;
  std::string lines = fmt::format(fmt::runtime(form), machine.key);
  for (const Machine* other : others) {
    keys.push_back('`' + other->key + '`');
    lines += "; " + fmt::format(fmt::runtime(form), other->key);
  }
  wrong("several-machines",
        fmt::format("it is said of {}, and its words name {} too", machine.key, fmt::join(keys, ", ")),
        fmt::format("say each machine in a line of its own: {}; where that is only part of what was seen, put those "
                    "words into quotes",
                    lines));
}

}  // namespace service::entry::message
