#include "terminal/look.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "terminal/shell_word.h"

namespace cli {
namespace {

struct Colour {
  int red, green, blue;
  int nearest;  // in the 256-colour cube
};

// From M. Okabe and K. Ito, "Color Universal Design" (2008): colours that people with any kind of colour vision
// tell apart. None of them is needed to read the list: the word and the mark say the same.
constexpr Colour vermillion{213, 94, 0, 166};
constexpr Colour orange{230, 159, 0, 178};
constexpr Colour sky_blue{86, 180, 233, 74};
constexpr Colour reddish_purple{204, 121, 167, 175};

const Colour* colour_of(Ink ink) {
  switch (ink) {
    case Ink::overdue:
      return &vermillion;
    case Ink::due:
      return &orange;
    case Ink::coming:
      return &sky_blue;
    case Ink::no_record:
      return &reddish_purple;
    case Ink::plain:
    case Ink::quiet:
    case Ink::strong:
      return nullptr;
  }
  return nullptr;
}

std::string code(const Look& look, Ink ink, bool behind) {
  const Colour* colour = colour_of(ink);
  if (colour == nullptr) {
    if (ink == Ink::strong) return "1";
    if (behind) return ink == Ink::quiet ? "48;5;245" : "";
    return ink == Ink::quiet ? "38;5;245" : "";
  }
  const int ground = behind ? 48 : 38;
  if (look.exact_colour) return fmt::format("{};2;{};{};{}", ground, colour->red, colour->green, colour->blue);
  return fmt::format("{};5;{}", ground, colour->nearest);
}

bool says_utf8(const World& world) {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const auto value = world.variable(name);
    if (!value || value->empty()) continue;
    std::string folded;
    for (const char c : *value) {
      if (c != '-') folded += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return folded.find("utf8") != std::string::npos;  // the first that is set decides
  }
  return false;
}

constexpr int usual_columns = 80;

int columns_of(const World& world) {
  if (world.columns > 0) return world.columns;
  const auto told = world.variable("COLUMNS").value_or("");
  int columns = 0;
  const auto [end, error] = std::from_chars(told.data(), told.data() + told.size(), columns);
  if (error == std::errc{} && end == told.data() + told.size() && columns > 0) return columns;
  return usual_columns;
}

}  // namespace

std::string command_about(const std::optional<std::string>& fleet) {
  return fleet ? "whichever --fleet " + shell_word(service::cleaned(*fleet)) : "whichever";
}

Look look_of(const World& world, const Arguments& arguments) {
  const std::string when = arguments.value("color").value_or("auto");  // the parser takes no other word than its three
  const bool terminal = world.terminal && !arguments.has("output");
  const bool refused =
      !world.variable("NO_COLOR").value_or("").empty() || world.variable("TERM").value_or("") == "dumb";
  Look look;
  look.colour = when == "always" || (when == "auto" && terminal && !refused);
  look.drawn = terminal || look.colour;
  const std::string depth = world.variable("COLORTERM").value_or("");
  look.exact_colour = depth == "truecolor" || depth == "24bit";
  look.line_drawing = look.drawn && says_utf8(world);
  look.command = command_about(arguments.value("fleet"));
  look.columns = look.drawn ? columns_of(world) : usual_columns;
  return look;
}

Ink ink_of(service::Standing standing) {
  switch (standing) {
    case service::Standing::overdue:
      return Ink::overdue;
    case service::Standing::due:
      return Ink::due;
    case service::Standing::coming:
      return Ink::coming;
    case service::Standing::no_record:
      return Ink::no_record;
    case service::Standing::later:
      return Ink::plain;
  }
  return Ink::plain;
}

std::string painted(const Look& look, Ink ink, std::string_view text) {
  const std::string codes = look.colour && !text.empty() ? code(look, ink, false) : "";
  return codes.empty() ? std::string(text) : fmt::format("\x1b[{}m{}\x1b[0m", codes, text);
}

std::string painted(const Look& look, Ink upper, Ink lower, std::string_view text) {
  if (!look.colour) return std::string(text);
  std::string codes = code(look, upper, false);
  const std::string behind = code(look, lower, true);
  if (!codes.empty() && !behind.empty()) codes += ';';
  codes += behind;
  return codes.empty() ? std::string(text) : fmt::format("\x1b[{}m{}\x1b[0m", codes, text);
}

}  // namespace cli
