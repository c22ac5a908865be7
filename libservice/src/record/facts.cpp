// What a fact is called, how facts are ordered and when two say the same.
#include <algorithm>
#include <array>
#include <tuple>

#include "base/order_in_place.h"
#include "record/order.h"
#include "service/record.h"

namespace service {
namespace {

// In the order of the enumerators.
constexpr std::array<std::string_view, kind_count> kind_names = {"reading",      "service", "sign",    "measurement",
                                                                 "meter-change", "put-off", "laid-up", "out-of-use",
                                                                 "back",         "count",   "strike",  "looked-at"};
constexpr std::array<std::string_view, 3> found_names = {"good", "worn", "failed"};

auto content(const Fact& f) {
  return std::tie(f.kind, f.machine, f.on, f.meter, f.at, f.task, f.position, f.name, f.value, f.unit, f.last, f.first,
                  f.until, f.part, f.found, f.by, f.note, f.sure, f.history, f.strikes);
}

// The fields of content as text. No text of a fact holds the character that parts them.
template <class Value>
std::string written(const std::optional<Value>& value);
const std::string& written(const std::string& text) { return text; }
std::string written(FactKind kind) { return std::string(to_text(kind)); }
std::string written(bool flag) { return flag ? "yes" : "-"; }
std::string written(Found found) { return std::string(to_text(found)); }
template <class Value>
std::string written(const Value& value) {
  return to_text(value);
}
template <class Value>
std::string written(const std::optional<Value>& value) {
  return value ? written(*value) : "-";
}

}  // namespace

std::string_view to_text(FactKind kind) { return kind_names[static_cast<std::size_t>(kind)]; }

std::optional<FactKind> parse_fact_kind(std::string_view text) {
  const auto* const at = std::find(kind_names.begin(), kind_names.end(), text);
  if (at == kind_names.end()) return std::nullopt;
  return static_cast<FactKind>(at - kind_names.begin());
}

std::string_view to_text(Found found) { return found_names[static_cast<std::size_t>(found)]; }

std::optional<Found> parse_found(std::string_view text) {
  const auto* const at = std::find(found_names.begin(), found_names.end(), text);
  if (at == found_names.end()) return std::nullopt;
  return static_cast<Found>(at - found_names.begin());
}

bool has_day(const Fact& fact) { return fact.kind != FactKind::strike || !(fact.on == DaySpan{}); }

bool before(const Fact& a, const Fact& b) {
  return std::tie(a.on.first, a.entered, a.id) < std::tie(b.on.first, b.entered, b.id);
}

namespace record {

void put_in_order(std::vector<Fact>& facts) {
  if (std::is_sorted(facts.begin(), facts.end(), before)) return;
  order_in_place(facts, [&](std::size_t a, std::size_t b) { return before(facts[a], facts[b]); });
}

}  // namespace record

bool same_content(const Fact& a, const Fact& b) { return content(a) == content(b); }

std::string content_key(const Fact& fact) {
  std::string key;
  std::apply([&](const auto&... field) { ((key += written(field), key += '\x1f'), ...); }, content(fact));
  return key;
}

bool Scope::holds(std::string_view machine) const {
  return !machines || machine.empty() || std::find(machines->begin(), machines->end(), machine) != machines->end();
}

}  // namespace service
