// Ids of commands and facts, and their text in base 32.
#include <algorithm>
#include <charconv>
#include <limits>

#include "service/record.h"

namespace service {
namespace {

constexpr std::string_view digits = "0123456789abcdefghjkmnpqrstvwxyz";
constexpr std::size_t text_length = 26;
constexpr std::size_t short_length = 6;
constexpr std::int64_t last_millisecond = (std::int64_t{1} << 48) - 1;

}  // namespace

CommandId make_command_id(std::int64_t milliseconds, const std::array<std::uint8_t, 10>& drawn) {
  CommandId id;
  auto time = static_cast<std::uint64_t>(std::clamp<std::int64_t>(milliseconds, 0, last_millisecond));
  for (std::size_t i = 6; i-- > 0; time >>= 8) id.bytes[i] = static_cast<std::uint8_t>(time & 0xff);
  std::copy(drawn.begin(), drawn.end(), id.bytes.begin() + 6);
  return id;
}

std::int64_t milliseconds_of(const CommandId& id) {
  std::int64_t time = 0;
  for (std::size_t i = 0; i < 6; ++i) time = time << 8 | id.bytes[i];
  return time;
}

// 26 digits hold 130 bits, two more than an id has: the text begins with two zero bits.
std::string to_text(const CommandId& id) {
  std::string text;
  text.reserve(text_length);
  std::uint32_t held = 0;
  unsigned bits = 2;
  for (const std::uint8_t byte : id.bytes) {
    held = held << 8 | byte;
    for (bits += 8; bits >= 5;) {
      bits -= 5;
      text += digits[held >> bits & 31U];
    }
  }
  return text;
}

std::optional<CommandId> parse_command_id(std::string_view text) {
  if (text.size() != text_length) return std::nullopt;
  CommandId id;
  std::uint32_t held = 0;
  unsigned bits = 0;
  std::size_t byte = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::size_t digit = digits.find(text[i]);
    if (digit == std::string_view::npos) return std::nullopt;
    if (i == 0 && digit > 7) return std::nullopt;
    held = held << 5 | static_cast<std::uint32_t>(digit);
    bits += i == 0 ? 3 : 5;
    if (bits >= 8) {
      bits -= 8;
      id.bytes[byte++] = static_cast<std::uint8_t>(held >> bits & 0xffU);
    }
  }
  return id;
}

std::string to_text(const FactId& id) { return to_text(id.command) + '-' + std::to_string(id.number); }

std::optional<FactId> parse_fact_id(std::string_view text) {
  if (text.size() < text_length + 2 || text[text_length] != '-') return std::nullopt;
  const auto command = parse_command_id(text.substr(0, text_length));
  if (!command) return std::nullopt;
  const std::string_view number = text.substr(text_length + 1);
  if (number.front() < '1' || number.front() > '9') return std::nullopt;  // one text an id: no sign, no leading zero
  int value = 0;
  const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), value);
  if (error != std::errc{} || end != number.data() + number.size()) return std::nullopt;
  return FactId{*command, value};
}

std::string short_text(const FactId& id) { return to_text(id).substr(text_length - short_length); }

}  // namespace service
