#include "terminal/look.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "terminal/shell_word.h"

namespace cli {
namespace {

std::string code(const Look& look, Ink ink, bool behind) {
  const StandingColour* colour = colour_of(ink);
  if (colour == nullptr) {
    if (ink == Ink::strong) return "1";
    if (behind) return ink == Ink::quiet ? "48;5;245" : "";
    return ink == Ink::quiet ? "38;5;245" : "";
  }
  const int ground = behind ? 48 : 38;
  if (look.exact_colour) {
    return fmt::format("{};2;{};{};{}", ground, colour->exact.red, colour->exact.green, colour->exact.blue);
  }
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
