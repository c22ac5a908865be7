// `count`: how many of a part lie on the shelf.
#include <fmt/format.h>

#include <algorithm>

#include "commands/commands.h"
#include "commands/writing.h"
#include "mistakes.h"
#include "render/shared/fact_words.h"

namespace cli {
namespace {

const service::Part* part_named(const service::Fleet& fleet, const std::string& key) {
  const auto found =
      std::find_if(fleet.parts.begin(), fleet.parts.end(), [&](const service::Part& part) { return part.key == key; });
  return found == fleet.parts.end() ? nullptr : &*found;
}

service::Measure count_of(const std::string& written, const service::Part* part) {
  const auto value = service::typed_measure(written);
  if (!value) {
    wrong("bad-number", fmt::format("the count `{}` {}", written, value.problem),
          "write digits with a point, such as 4 or 11.5");
  }
  constexpr std::int64_t one = 1'000'000;
  const bool in_pieces = part != nullptr && is_in_pieces(*part);
  if (in_pieces && value.value->millionths % one != 0) {
    wrong("bad-number", fmt::format("the count `{}` is not whole, and `{}` is counted in pieces", written, part->key),
          "write whole pieces, such as 4; what comes by litre or metre has its `unit:` under `parts:` in fleet.yaml");
  }
  return *value;
}

// What was counted last before, up to that day.
std::string before_it(const service::Entered& entered, const service::Fact& count, const service::Fleet& fleet) {
  const service::Fact* last = nullptr;
  const std::vector<service::Fact> standing = service::unstruck(*entered.known);
  for (const service::Fact& fact : standing) {
    const bool earlier =
        fact.kind == service::FactKind::count && fact.part == count.part && fact.on.first <= count.on.first;
    if (earlier && (last == nullptr || service::before(*last, fact))) last = &fact;
  }
  return last == nullptr ? "It was not counted before."
                         : fmt::format("Counted before: {} on {}.", value_of(*last, fleet), to_text(last->on));
}

}  // namespace

int count(Context& context) {
  const Session session = open_fleet(context);
  service::Fact fact;
  fact.kind = service::FactKind::count;
  fact.part = context.arguments.words[0];
  fact.value = count_of(context.arguments.words[1], part_named(*session.fleet, fact.part));
  fact.on = service::DaySpan(day_option(context.arguments, "on", session.today));
  auto record = open_record(context, session.folder, service::Access::write);
  Written written = write(context, session, record, request_of(context, session, {fact}));
  written.next.push_back(before_it(written.entered, fact, *session.fleet));
  tell(context, written);
  return 0;
}

}  // namespace cli
