#include "fleet/compiled.h"

#include <algorithm>
#include <bit>
#include <chrono>
#include <concepts>
#include <cstdint>
#include <map>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "base/checksum.h"
#include "base/eight_bytes.h"
#include "fleet/members.h"
#include "fleet/reading_of_files.gen.h"

namespace service::fleet {
namespace {

constexpr std::string_view header = "whichever compiled fleet 2\n";

template <class Value>
concept Whole = std::integral<Value> || std::is_enum_v<Value>;

template <class Part>
concept HasMembers = requires(Part& part) {
  members(Of<std::remove_const_t<Part>>{}, part);
};

// Places name files by the fleet's folder, which may be named otherwise next time: here a file is its number among
// those of the fleet.
class Writer {
 public:
  explicit Writer(std::map<std::string, std::uint64_t> numbers) : numbers_(std::move(numbers)) {}
  Writer() = default;

  std::string text;

  void put_number(std::uint64_t value) {
    for (; value >= 0x80; value >>= 7U) text += static_cast<char>(0x80U | (value & 0x7FU));
    text += static_cast<char>(value);
  }

  void put(const std::string& words) {
    put_number(words.size());
    text += words;
  }
  template <Whole Value>
  void put(Value value) {
    // The sign goes to the lowest bit, so that small numbers are short.
    const auto number = static_cast<std::int64_t>(value);
    put_number((static_cast<std::uint64_t>(number) << 1U) ^ (number < 0 ? ~std::uint64_t{0} : 0));
  }
  template <class Kind>
  void put(Exact<Kind> quantity) {
    put(quantity.hundredths);
  }
  void put(Measure measure) { put(measure.millionths); }
  template <class Count, class Period>
  void put(std::chrono::duration<Count, Period> time) {
    put(time.count());
  }
  void put(Day day) { put(day.time_since_epoch()); }
  void put(const DaySpan& span) {
    put(span.first);
    put(span.last);
  }
  void put(const Place& place) {
    const auto file = numbers_.find(place.file);
    put_number(file == numbers_.end() ? 0 : file->second);
    if (file == numbers_.end()) put(place.file);
    const auto& [name, line, column, width, words] = place;
    put(line);
    put(column);
    put(width);
    put(words);
  }
  template <HasMembers Part>
  void put(const Part& part) {
    std::apply([&](const auto&... each) { (put(each), ...); }, members(Of<Part>{}, part));
  }
  template <class Value>
  void put(const std::optional<Value>& value) {
    put(value.has_value());
    if (value) put(*value);
  }
  template <class First, class Second>
  void put(const std::pair<First, Second>& both) {
    put(both.first);
    put(both.second);
  }
  template <class... Kinds>
  void put(const std::variant<Kinds...>& one) {
    put_number(one.index());
    std::visit([&](const auto& kind) { put(kind); }, one);
  }
  template <class Value>
  void put(const std::vector<Value>& all) {
    put_number(all.size());
    for (const Value& each : all) put(each);
  }
  template <class Key, class Value>
  void put(const std::map<Key, Value>& all) {
    put_number(all.size());
    for (const auto& each : all) put(each);
  }

 private:
  std::map<std::string, std::uint64_t> numbers_;
};

// Its input agreed with its checksum and was made by a Writer of the same program; it only never reads past the end.
class Reader {
 public:
  explicit Reader(std::string_view text, std::vector<std::string> names = {}) : rest_(text), names_(std::move(names)) {}

  std::uint64_t take_number() {
    std::uint64_t value = 0;
    for (unsigned shift = 0; shift < 64 && !rest_.empty(); shift += 7) {
      const auto byte = static_cast<unsigned char>(rest_.front());
      rest_.remove_prefix(1);
      value |= (std::uint64_t{byte} & 0x7FU) << shift;
      if (byte < 0x80) break;
    }
    return value;
  }

  std::string_view take_words() {
    const std::string_view words = rest_.substr(0, take_count());
    rest_.remove_prefix(words.size());
    return words;
  }

  void take(std::string& words) { words = take_words(); }
  template <Whole Value>
  void take(Value& value) {
    const std::uint64_t number = take_number();
    value = static_cast<Value>(static_cast<std::int64_t>((number >> 1U) ^ (~(number & 1U) + 1U)));
  }
  template <class Kind>
  void take(Exact<Kind>& quantity) {
    take(quantity.hundredths);
  }
  void take(Measure& measure) { take(measure.millionths); }
  template <class Count, class Period>
  void take(std::chrono::duration<Count, Period>& time) {
    Count count{};
    take(count);
    time = std::chrono::duration<Count, Period>{count};
  }
  void take(Day& day) {
    Day::duration since{};
    take(since);
    day = Day{since};
  }
  void take(DaySpan& span) {
    take(span.first);
    take(span.last);
  }
  void take(Place& place) {
    const std::uint64_t file = take_number();
    auto& [name, line, column, width, words] = place;
    if (file == 0) {
      take(name);
    } else if (file <= names_.size()) {
      name = names_[static_cast<std::size_t>(file) - 1];
    }
    take(line);
    take(column);
    take(width);
    take(words);
  }
  template <HasMembers Part>
  void take(Part& part) {
    std::apply([&](auto&... each) { (take(each), ...); }, members(Of<Part>{}, part));
  }
  template <class Value>
  void take(std::optional<Value>& value) {
    bool is_there = false;
    take(is_there);
    value.reset();  // it may be there unless told
    if (is_there) take(value.emplace());
  }
  template <class First, class Second>
  void take(std::pair<First, Second>& both) {
    take(both.first);
    take(both.second);
  }
  template <class... Kinds>
  void take(std::variant<Kinds...>& one) {
    take_kind(take_number(), one, std::index_sequence_for<Kinds...>{});
  }
  template <class Value>
  void take(std::vector<Value>& all) {
    const std::size_t count = take_count();
    all.clear();
    all.reserve(count);
    for (std::size_t i = 0; i < count; ++i) take(all.emplace_back());
  }
  template <class Key, class Value>
  void take(std::map<Key, Value>& all) {
    all.clear();
    for (std::size_t left = take_count(); left > 0; --left) {
      std::pair<Key, Value> each;
      take(each);
      all.insert(all.end(), std::move(each));
    }
  }

 private:
  // Of things that take a byte at least.
  std::size_t take_count() { return static_cast<std::size_t>(std::min<std::uint64_t>(take_number(), rest_.size())); }

  template <class One, std::size_t... At>
  void take_kind(std::uint64_t kind, One& one, std::index_sequence<At...> /*kinds*/) {
    (void)((kind == At && (take(one.template emplace<At>()), true)) || ...);
  }

  std::string_view rest_;
  std::vector<std::string> names_;
};

// The packed fleet, behind what it was read from; nothing where that is not these files.
std::optional<std::string_view> packed_fleet(const FleetFiles& files) {
  std::string_view text = files.compiled;
  if (!text.starts_with(header)) return std::nullopt;
  text.remove_prefix(header.size());
  if (!text.starts_with(reading_of_files)) return std::nullopt;
  text.remove_prefix(reading_of_files.size());
  if (text.size() < eight_bytes || take_eight_bytes(text) != checksum_of(text)) return std::nullopt;
  Reader reader(text);
  if (reader.take_number() != files.texts.size()) return std::nullopt;
  for (const auto& [name, bytes] : files.texts) {
    if (reader.take_words() != name || reader.take_words() != bytes) return std::nullopt;
  }
  return reader.take_words();
}

}  // namespace

std::string shown_name(const FleetFiles& files, const std::string& name) {
  return files.folder.empty() ? name : (files.folder / name).generic_string();
}

std::string compiled(const FleetFiles& files, const Fleet& fleet) {
  std::map<std::string, std::uint64_t> numbers;
  Writer body;
  body.put_number(files.texts.size());
  for (const auto& [name, bytes] : files.texts) {
    numbers.emplace(shown_name(files, name), numbers.size() + 1);
    body.put(name);
    body.put(bytes);
  }
  Writer packed(std::move(numbers));
  packed.put(fleet);
  body.put(packed.text);
  std::string text(header);
  text += reading_of_files;
  add_eight_bytes(text, checksum_of(body.text));
  return text + body.text;
}

bool is_of(const FleetFiles& files) { return packed_fleet(files).has_value(); }

std::optional<Fleet> from_compiled(const FleetFiles& files) {
  const auto packed = packed_fleet(files);
  if (!packed) return std::nullopt;
  std::vector<std::string> names;
  for (const auto& file : files.texts) names.push_back(shown_name(files, file.first));
  Fleet fleet;
  Reader(*packed, std::move(names)).take(fleet);
  return fleet;
}

}  // namespace service::fleet
