// The layout: the format, a checksum of all that follows, texts and commands each once, facts, meters. Numbers are in
// groups of seven bits, the lowest first; what may be below zero is folded; days follow each other by their distance.
#include "standing/packed.h"

#include <algorithm>
#include <bit>
#include <map>
#include <tuple>

#include "base/checksum.h"
#include "base/eight_bytes.h"

namespace service {
namespace {

// To be changed with anything that changes what is written, or what it means.
constexpr char format = 1;
constexpr std::size_t head_size = 9;  // the format and the checksum

using Command = std::tuple<CommandId, std::int64_t, std::string_view, std::string_view, bool>;

Command command_of(const Fact& fact) {
  return {fact.id.command, fact.entered, fact.entered_by, fact.origin, fact.from_copy};
}

// The flags of a fact: which of its values are there.
enum Flag : unsigned {
  has_at = 1,
  has_value = 2,
  has_last = 4,
  has_first = 8,
  has_until = 16,
  has_found = 32,
  has_strikes = 64,
  is_sure = 128,
  is_history = 256
};

unsigned flags_of(const Fact& fact) {
  return (fact.at ? has_at : 0U) | (fact.value ? has_value : 0U) | (fact.last ? has_last : 0U) |
         (fact.first ? has_first : 0U) | (fact.until ? has_until : 0U) | (fact.found ? has_found : 0U) |
         (fact.strikes ? has_strikes : 0U) | (fact.sure ? is_sure : 0U) | (fact.history ? is_history : 0U);
}

class Writer {
 public:
  std::string bytes;

  void number(std::uint64_t value) {
    for (; value >= 0x80; value >>= 7U) bytes += static_cast<char>(0x80U | (value & 0x7FU));
    bytes += static_cast<char>(value);
  }
  void folded(std::int64_t value) {
    number((static_cast<std::uint64_t>(value) << 1U) ^ static_cast<std::uint64_t>(value >> 63));
  }
  void fixed(std::uint64_t value) { add_eight_bytes(bytes, value); }
  void day(Day day) { folded(day.time_since_epoch().count()); }
  void amount(Amount amount) { folded(amount.hundredths); }
  void words(std::string_view text) {
    number(text.size());
    bytes += text;
  }
  void id(const FactId& id) {
    bytes.append(reinterpret_cast<const char*>(id.command.bytes.data()), id.command.bytes.size());
    number(static_cast<std::uint64_t>(id.number));
  }
  void if_any(const std::optional<FactId>& each) {
    number(each ? 1 : 0);
    if (each) id(*each);
  }
  void if_any(const std::optional<Amount>& each) {
    number(each ? 1 : 0);
    if (each) amount(*each);
  }
};

// Reads past the end as zeros, and then was not whole.
class Reader {
 public:
  explicit Reader(std::string_view bytes) : rest_(bytes) {}

  bool whole() const { return whole_ && rest_.empty(); }
  bool broken() const { return !whole_; }
  void fail() { whole_ = false; }

  std::uint64_t number() {
    if (!rest_.empty() && static_cast<std::uint8_t>(rest_.front()) < 0x80) return byte();  // as most are
    std::uint64_t value = 0;
    for (unsigned shift = 0; shift < 64; shift += 7) {
      const auto next = byte();
      value |= (std::uint64_t{next} & 0x7FU) << shift;
      if (next < 0x80) return value;
    }
    fail();
    return 0;
  }
  std::int64_t folded() {
    const std::uint64_t value = number();
    return static_cast<std::int64_t>(value >> 1U) ^ -static_cast<std::int64_t>(value & 1U);
  }
  std::uint64_t fixed() {
    if (rest_.size() >= eight_bytes) return take_eight_bytes(rest_);
    fail();
    return 0;
  }
  // Below a bound; of what is counted, each takes a byte at least.
  std::size_t below(std::size_t bound) {
    const std::uint64_t value = number();
    if (value < bound) return static_cast<std::size_t>(value);
    fail();
    return 0;
  }
  std::size_t count() { return below(rest_.size() + 1); }
  bool flag() { return below(2) == 1; }
  Day day() {
    const std::int64_t days = folded();
    if (days < -25567 || days > 84005) fail();
    return Day{std::chrono::days{static_cast<int>(std::clamp<std::int64_t>(days, -25567, 84005))}};
  }
  Amount amount() { return Amount{folded()}; }
  std::string_view words() {
    const std::string_view text = rest_.substr(0, count());
    rest_.remove_prefix(text.size());
    return text;
  }
  CommandId command() {
    CommandId id;
    if (rest_.size() < id.bytes.size()) {
      fail();
      return id;
    }
    std::transform(rest_.begin(), rest_.begin() + std::ptrdiff_t{id.bytes.size()}, id.bytes.begin(),
                   [](char each) { return static_cast<std::uint8_t>(each); });
    rest_.remove_prefix(id.bytes.size());
    return id;
  }
  int small() { return static_cast<int>(below(std::size_t{1} << 31U)); }
  FactId id() {
    FactId id;
    id.command = command();
    id.number = small();
    return id;
  }
  std::optional<FactId> id_if_any() { return flag() ? std::optional(id()) : std::nullopt; }
  std::optional<Amount> amount_if_any() { return flag() ? std::optional(amount()) : std::nullopt; }

 private:
  std::uint8_t byte() {
    if (rest_.empty()) {
      fail();
      return 0;
    }
    const auto next = static_cast<std::uint8_t>(rest_.front());
    rest_.remove_prefix(1);
    return next;
  }

  std::string_view rest_;
  bool whole_ = true;
};

// Each once, in the order in which they are first used.
template <class Thing>
class Listed {
 public:
  std::uint64_t place(const Thing& thing) {
    const auto [at, is_new] = places_.try_emplace(thing, things_.size());
    if (is_new) things_.push_back(thing);
    return at->second;
  }
  const std::vector<Thing>& things() const { return things_; }

 private:
  std::map<Thing, std::size_t> places_;
  std::vector<Thing> things_;
};

// --- Facts -------------------------------------------------------------------------------------------------

constexpr std::string Fact::*texts[] = {&Fact::machine, &Fact::meter, &Fact::task, &Fact::position, &Fact::name,
                                        &Fact::unit,    &Fact::part,  &Fact::by,   &Fact::note};

void write_facts(const std::vector<Fact>& facts, Writer& out) {
  Listed<std::string_view> words;
  Listed<Command> commands;
  Writer body;
  for (const Fact& fact : facts) {
    body.number(static_cast<std::uint64_t>(fact.kind));
    body.number(commands.place(command_of(fact)));
    body.number(static_cast<std::uint64_t>(fact.id.number));
    body.day(fact.on.first);
    body.number(static_cast<std::uint64_t>(days_between(fact.on.first, fact.on.last)));
    for (const auto text : texts) body.number(words.place(fact.*text));
    body.number(flags_of(fact));
    if (fact.at) body.amount(*fact.at);
    if (fact.value) body.folded(fact.value->millionths);
    if (fact.last) body.amount(*fact.last);
    if (fact.first) body.amount(*fact.first);
    if (fact.until) body.day(*fact.until);
    if (fact.found) body.number(static_cast<std::uint64_t>(*fact.found));
    if (fact.strikes) body.id(*fact.strikes);
  }
  for (const auto& [id, entered, by, origin, from_copy] : commands.things()) {
    words.place(by);
    words.place(origin);
  }
  out.number(words.things().size());
  for (const std::string_view text : words.things()) out.words(text);
  out.number(commands.things().size());
  for (const auto& [id, entered, by, origin, from_copy] : commands.things()) {
    out.bytes.append(reinterpret_cast<const char*>(id.bytes.data()), id.bytes.size());
    out.folded(entered);
    out.number(words.place(by));
    out.number(words.place(origin));
    out.number(from_copy ? 1 : 0);
  }
  out.number(facts.size());
  out.bytes += body.bytes;
}

// Into a fact that is new: facts are large, so each is read where it stays.
void read_fact(Reader& in, const std::vector<std::string_view>& words, const std::vector<Command>& commands,
               Fact& fact) {
  fact.kind = static_cast<FactKind>(in.below(kind_count));
  if (const std::size_t place = in.below(commands.size()); place < commands.size()) {
    const auto& [id, entered, by, origin, from_copy] = commands[place];
    fact.id.command = id;
    fact.entered = entered;
    fact.entered_by = by;
    fact.origin = origin;
    fact.from_copy = from_copy;
  }
  fact.id.number = in.small();
  const Day first = in.day();
  constexpr std::size_t longest_span = 200'000;  // days
  fact.on = DaySpan(first, first + std::chrono::days{static_cast<int>(in.below(longest_span))});
  for (const auto text : texts) {
    const std::size_t place = in.below(words.size());
    if (place < words.size() && !words[place].empty()) fact.*text = words[place];
  }
  const auto flags = static_cast<unsigned>(in.below(512));
  if ((flags & has_at) != 0) fact.at = in.amount();
  if ((flags & has_value) != 0) fact.value = Measure{in.folded()};
  if ((flags & has_last) != 0) fact.last = in.amount();
  if ((flags & has_first) != 0) fact.first = in.amount();
  if ((flags & has_until) != 0) fact.until = in.day();
  if ((flags & has_found) != 0) fact.found = static_cast<Found>(in.below(3));
  if ((flags & has_strikes) != 0) fact.strikes = in.id();
  fact.sure = (flags & is_sure) != 0;
  fact.history = (flags & is_history) != 0;
}

std::vector<Fact> read_facts(Reader& in) {
  std::vector<std::string_view> words(in.count());
  for (std::string_view& text : words) text = in.words();
  std::vector<Command> commands;
  for (std::size_t left = in.count(); left > 0 && !in.broken(); --left) {
    const CommandId id = in.command();
    const std::int64_t entered = in.folded();
    const std::size_t by = in.below(words.size());
    const std::size_t origin = in.below(words.size());
    const bool from_copy = in.flag();
    if (!in.broken()) commands.emplace_back(id, entered, words[by], words[origin], from_copy);
  }
  std::vector<Fact> facts;
  const std::size_t many = in.count();
  if (!in.broken()) facts.reserve(many);
  for (std::size_t i = 0; i < many && !in.broken(); ++i) read_fact(in, words, commands, facts.emplace_back());
  return facts;
}

// --- Meters ------------------------------------------------------------------------------------------------

void write_history(const MeterHistory::Parts& parts, Writer& out) {
  out.number(parts.knots.size());
  Knot last{};
  for (const Knot& knot : parts.knots) {
    out.folded(days_between(last.day, knot.day));
    out.amount(knot.usage - last.usage);
    last = knot;
  }
  out.number(parts.contradictions.size());
  for (const Contradiction& each : parts.contradictions) {
    out.day(each.day);
    out.amount(each.said);
    out.amount(each.held);
    out.if_any(each.later);
    out.if_any(each.earlier);
  }
  out.number(parts.by_fact.size());
  for (const UsageOfFact& each : parts.by_fact) {
    out.id(each.fact);
    out.amount(each.usage);
  }
  out.number(parts.last_known ? 1 : 0);
  if (parts.last_known) {
    out.day(parts.last_known->day);
    out.amount(parts.last_known->usage);
    out.if_any(parts.last_known->fact);
  }
  out.amount(parts.offset);
  out.if_any(parts.rolls_over_at);
  out.number((parts.read ? 1U : 0U) + (parts.from_start ? 2U : 0U));
}

MeterHistory read_history(Reader& in) {
  MeterHistory::Parts parts;
  Knot last{};
  const std::size_t knots = in.count();
  if (!in.broken()) parts.knots.reserve(knots);
  for (std::size_t left = knots; left > 0 && !in.broken(); --left) {
    const std::int64_t days = in.folded();
    constexpr std::int64_t farthest = 200'000;
    if (days < -farthest || days > farthest) in.fail();
    if (in.broken()) break;
    last.day += std::chrono::days{static_cast<int>(days)};
    // Whatever the bytes say, sums wrap and do not overflow.
    const auto more = static_cast<std::uint64_t>(in.amount().hundredths);
    last.usage = Amount{static_cast<std::int64_t>(static_cast<std::uint64_t>(last.usage.hundredths) + more)};
    parts.knots.push_back(last);
  }
  for (std::size_t left = in.count(); left > 0 && !in.broken(); --left) {
    Contradiction each;
    each.day = in.day();
    each.said = in.amount();
    each.held = in.amount();
    each.later = in.id_if_any();
    each.earlier = in.id_if_any();
    parts.contradictions.push_back(each);
  }
  const std::size_t values = in.count();
  if (!in.broken()) parts.by_fact.reserve(values);
  for (std::size_t left = values; left > 0 && !in.broken(); --left) {
    const FactId fact = in.id();
    parts.by_fact.push_back({fact, in.amount()});
  }
  if (in.flag()) {
    KnownUsage known;
    known.day = in.day();
    known.usage = in.amount();
    known.fact = in.id_if_any();
    parts.last_known = known;
  }
  parts.offset = in.amount();
  parts.rolls_over_at = in.amount_if_any();
  const std::size_t flags = in.below(4);
  parts.read = (flags & 1U) != 0;
  parts.from_start = (flags & 2U) != 0;
  return MeterHistory(std::move(parts));
}

void write_doubt(const Doubt& doubt, Writer& out) {
  out.id(doubt.fact);
  out.if_any(doubt.earlier);
  out.day(doubt.from);
  out.day(doubt.to);
  out.amount(doubt.shown_before);
  out.amount(doubt.shown);
  out.amount(doubt.used);
  out.if_any(doubt.p10);
  out.if_any(doubt.p50);
  out.if_any(doubt.p90);
  out.if_any(doubt.likely);
}

Doubt read_doubt(Reader& in) {
  Doubt doubt;
  doubt.fact = in.id();
  doubt.earlier = in.id_if_any();
  doubt.from = in.day();
  doubt.to = in.day();
  doubt.shown_before = in.amount();
  doubt.shown = in.amount();
  doubt.used = in.amount();
  doubt.p10 = in.amount_if_any();
  doubt.p50 = in.amount_if_any();
  doubt.p90 = in.amount_if_any();
  doubt.likely = in.amount_if_any();
  return doubt;
}

void write_meters(const Derived& derived, Writer& out) {
  out.number((derived.recorded ? 1U : 0U) + (derived.serviced ? 2U : 0U));
  out.number(derived.histories.size());
  for (const auto& [meter, history] : derived.histories) {
    out.words(meter);
    write_history(history.parts(), out);
    const auto& doubts = derived.doubts.at(meter);
    out.number(doubts.size());
    for (const Doubt& doubt : doubts) write_doubt(doubt, out);
    const auto& lateness = derived.lateness.at(meter);
    out.number(lateness.size());
    for (const double share : lateness) out.fixed(std::bit_cast<std::uint64_t>(share));
  }
}

Derived read_meters(Reader& in) {
  Derived derived;
  const std::size_t flags = in.below(4);
  derived.recorded = (flags & 1U) != 0;
  derived.serviced = (flags & 2U) != 0;
  for (std::size_t left = in.count(); left > 0 && !in.broken(); --left) {
    const std::string meter(in.words());
    derived.histories.insert_or_assign(meter, read_history(in));
    auto& doubts = derived.doubts[meter];
    for (std::size_t more = in.count(); more > 0 && !in.broken(); --more) doubts.push_back(read_doubt(in));
    auto& lateness = derived.lateness[meter];
    for (std::size_t more = in.count(); more > 0 && !in.broken(); --more) {
      lateness.push_back(std::bit_cast<double>(in.fixed()));
    }
  }
  return derived;
}

bool tells_of_its_meters(const Derived& derived, const Machine& machine) {
  return derived.histories.size() == machine.meters.size() &&
         std::all_of(machine.meters.begin(), machine.meters.end(),
                     [&](const Meter& meter) { return derived.histories.contains(meter.name); });
}

}  // namespace

std::string packed(const Condensed& condensed) {
  Writer body;
  write_facts(condensed.facts, body);
  write_meters(condensed.derived, body);
  Writer all;
  all.bytes += format;
  all.fixed(checksum_of(body.bytes));
  return all.bytes + body.bytes;
}

std::optional<Condensed> unpacked(std::string_view bytes, const Machine& machine) {
  if (bytes.size() < head_size || bytes.front() != format) return std::nullopt;
  const std::string_view body = bytes.substr(head_size);
  if (Reader(bytes.substr(1)).fixed() != checksum_of(body)) return std::nullopt;
  Reader in(body);
  Condensed condensed;
  condensed.facts = read_facts(in);
  condensed.derived = read_meters(in);
  if (!in.whole() || !tells_of_its_meters(condensed.derived, machine)) return std::nullopt;
  return condensed;
}

}  // namespace service
