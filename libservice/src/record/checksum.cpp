#include "record/checksum.h"

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

// Each step is a bijection of the state and, for a given state, of the value: two inputs that differ in one value can
// never meet again.
void Checksum::add(std::uint64_t value) {
  state_ ^= value;
  state_ *= 0xff51afd7ed558ccdU;
  state_ ^= state_ >> 32;
}

// Bytes are put together by hand, so that a record means the same on machines of either byte order.
void Checksum::add(std::string_view text) {
  add(static_cast<std::uint64_t>(text.size()));
  for (std::size_t from = 0; from < text.size(); from += 8) {
    std::uint64_t word = 0;
    const std::string_view part = text.substr(from, 8);
    for (std::size_t i = 0; i < part.size(); ++i) {
      word |= static_cast<std::uint64_t>(static_cast<unsigned char>(part[i])) << (8 * i);
    }
    add(word);
  }
}

void Checksum::add(std::optional<std::int64_t> value) {
  add(std::uint64_t{value ? 1U : 0U});
  if (value) add(*value);
}

std::uint64_t Checksum::value() const {
  std::uint64_t mixed = state_;
  mixed ^= mixed >> 33;
  mixed *= 0xc4ceb9fe1a85ec53U;
  mixed ^= mixed >> 29;
  return mixed;
}

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
  sum.add(std::int64_t{fact.strikes ? fact.strikes->number : 0});
  if (fact.strikes) sum.add(bytes(fact.strikes->command));
  return sum.value();
}

}  // namespace service::record
