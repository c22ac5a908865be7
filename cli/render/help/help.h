// Help made from the command table.
#pragma once

#include <string>

#include "command_table.h"
#include "render/shared/formats.h"

namespace cli {

struct HelpAnswer {
  const Command* command = nullptr;  // null: the whole program
};

std::string help_as_text(const HelpAnswer& help);
std::string help_as_json(const HelpAnswer& help);
std::string help_as_man(const HelpAnswer& help);  // all commands stand in one page

inline constexpr Format<HelpAnswer> help_formats[] = {
    {"text", help_as_text}, {"json", help_as_json}, {"man", help_as_man}};

std::string version_text();

}  // namespace cli
