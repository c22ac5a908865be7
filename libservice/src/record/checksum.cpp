#include "record/checksum.h"

#include "base/checksum.h"

namespace service::record {
namespace {

std::int64_t days(Day day) { return day.time_since_epoch().count(); }

std::optional<std::int64_t> number(std::optional<Amount> amount) {
  if (!amount) return std::nullopt;
  return amount->hundredths;
}

std::string_view bytes(const CommandId& id) {
  return {reinterpret_cast<const char*>(id.bytes.data()), id.bytes.size()};
}

}  // namespace

std::uint64_t checksum_of(const Fact& fact) {
  Checksum sum;
  sum.add(bytes(fact.id.command));
  sum.add(std::int64_t{fact.id.number});
  sum.add(fact.entered);
  sum.add(fact.entered_by);
  sum.add(fact.origin);
  sum.add(static_cast<std::int64_t>(fact.kind));
  sum.add(fact.machine);
  sum.add(days(fact.on.first));
  sum.add(days(fact.on.last));
  sum.add(fact.meter);
  sum.add(number(fact.at));
  sum.add(fact.task);
  sum.add(fact.position);
  sum.add(fact.name);
  sum.add(fact.value ? std::optional(fact.value->millionths) : std::nullopt);
  sum.add(fact.unit);
  sum.add(number(fact.last));
  sum.add(number(fact.first));
  sum.add(fact.until ? std::optional(days(*fact.until)) : std::nullopt);
  sum.add(fact.part);
  sum.add(fact.found ? std::optional(static_cast<std::int64_t>(*fact.found)) : std::nullopt);
  sum.add(fact.by);
  sum.add(fact.note);
  sum.add(std::int64_t{fact.sure ? 1 : 0} + (fact.history ? 2 : 0));
  sum.add(std::int64_t{fact.strikes ? fact.strikes->number : 0});
  if (fact.strikes) sum.add(bytes(fact.strikes->command));
  return sum.value();
}

}  // namespace service::record
