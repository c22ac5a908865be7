#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "render/help/help.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

constexpr std::size_t columns = 80;

std::string usage_of(const Command& command) {
  std::string usage = fmt::format("whichever {}", command.name);
  for (const Word& word : command.words) {
    usage += fmt::format(" {}{}{}{}", word.required ? "" : "[", word.name, word.repeats ? "..." : "",
                         word.required ? "" : "]");
  }
  return usage + " [options]";
}

void add_options(std::string& text, std::span<const Option> options, const Command* command) {
  for (const Option& option : options) {
    const std::string value = option.name == "format" && command != nullptr
                                  ? fmt::format("{}", fmt::join(command->formats, "|"))
                                  : std::string(option.value);
    const std::string name = fmt::format("--{}{}{}", option.name, value.empty() ? "" : " ", value);
    text += name.size() <= 26 ? fmt::format("  {:<26}  {}\n", name, option.does)
                              : fmt::format("  {}\n{:30}{}\n", name, "", option.does);
  }
}

void add_statuses(std::string& text, std::span<const ExitStatus> own) {
  text += "\nEXIT STATUS\n";
  std::vector<ExitStatus> all(own.begin(), own.end());
  for (const ExitStatus& status : shared_statuses()) {
    const bool told =
        std::any_of(own.begin(), own.end(), [&](const ExitStatus& o) { return o.status == status.status; });
    if (!told) all.push_back(status);
  }
  std::sort(all.begin(), all.end(), [](const ExitStatus& a, const ExitStatus& b) { return a.status < b.status; });
  for (const ExitStatus& status : all) text += wrapped(fmt::format("{:>4}  ", status.status), status.when, columns, 6);
}

std::string text_of_all() {
  std::string text =
      "What maintenance is due on which machine, by hours or by months, whichever comes\nfirst.\n\n"
      "  whichever due                  what is due, in the fleet of this folder\n"
      "  whichever reading combine 930  write down what a meter shows\n\n"
      "USAGE\n  whichever [--fleet DIR] COMMAND [options]\n\nCOMMANDS\n";
  for (const Command& command : commands()) {
    if (!command.hidden) text += fmt::format("  {:<14}  {}\n", command.name, command.summary);
  }
  text += "\nOPTIONS, before or after the command\n";
  add_options(text, global_options(), nullptr);
  text += "  -h, --help                  this help, or that of a command\n";
  text += "  --version                   which version this is\n\n";
  text += wrapped("",
                  "The fleet is the folder given with --fleet, else the one that WHICHEVER_FLEET names, else the "
                  "nearest folder upwards that holds a fleet.yaml. Facts are signed with WHICHEVER_USER, else USER.",
                  columns, 0);
  add_statuses(text, {});
  return text;
}

std::string text_of(const Command& command) {
  std::string text = fmt::format("whichever {}: {}\n", command.name, command.summary);
  if (!command.examples.empty()) text += "\nEXAMPLES\n";
  for (const Example& example : command.examples) {
    text += fmt::format("  whichever {}\n      {}\n", example.arguments, example.does);
  }
  text += fmt::format("\nUSAGE\n  {}\n\n", usage_of(command));
  text += wrapped("", command.about, columns, 0);
  if (!command.options.empty()) text += "\nOPTIONS\n";
  add_options(text, command.options, &command);
  text += "\nOPTIONS OF ALL COMMANDS\n";
  for (const Option& option : global_options()) {
    if (takes(command, option)) add_options(text, {&option, 1}, &command);
  }
  add_statuses(text, command.statuses);
  return text;
}

}  // namespace

std::string version_text() { return "whichever " WHICHEVER_VERSION "\n"; }

std::string help_as_text(const HelpAnswer& help) {
  return help.command == nullptr ? text_of_all() : text_of(*help.command);
}

}  // namespace cli
