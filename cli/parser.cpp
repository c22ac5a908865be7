// CLI11 splits the words; what is said about mistakes, and the exit status, are ours.
#include "parser.h"

#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <memory>

#include "mistakes.h"
#include "near_commands.h"
#include "service/base.h"
#include "terminal/look.h"

namespace cli {
namespace {

std::string help_hint(const Command* command) {
  return command == nullptr ? "`whichever help` lists the commands"
                            : fmt::format("`whichever {} --help` shows what it takes", command->name);
}

std::vector<const Option*> options_of(const Command* command) {
  std::vector<const Option*> options;
  for (const Option& option : global_options()) options.push_back(&option);
  if (command != nullptr) {
    for (const Option& option : command->options) options.push_back(&option);
  }
  return options;
}

[[noreturn]] void unknown_command(const std::string& written, const std::string& command) {
  wrong("unknown-command", fmt::format("there is no command `{}`", written), instead_of_command(written, command));
}

[[noreturn]] void unknown_option(const std::string& written, const Command* command) {
  const std::string name = written.substr(0, written.find('='));
  std::vector<std::string> names{"--help", "--version"};
  for (const Option* option : options_of(command)) names.push_back("--" + std::string(option->name));
  const std::string who = command == nullptr ? "whichever" : std::string(command->name);
  wrong("unknown-option", fmt::format("`{}` has no option `{}`", who, name),
        service::nearest_or(name, names, help_hint(command)));
}

using Values = std::vector<std::string>;

struct Bound {
  const Option* option;
  std::unique_ptr<Values> values = std::make_unique<Values>();
  CLI::Option* parsed = nullptr;
};

struct Offered {
  const Command* command = nullptr;
  CLI::App* parsed = nullptr;
  std::vector<Bound> options;
  std::unique_ptr<Values> words = std::make_unique<Values>();
};

void bind(CLI::App& app, const Option& option, std::vector<Bound>& bounds) {
  Bound bound{&option};
  const std::string name = "--" + std::string(option.name);
  if (option.value.empty()) {
    bound.parsed = app.add_flag(name);
  } else {
    // One value each time it is given; how often it may be given is checked afterwards, in our words.
    bound.parsed = app.add_option(name, *bound.values)->allow_extra_args(false);
  }
  bounds.push_back(std::move(bound));
}

void take_options(const std::vector<Bound>& bounds, Arguments& arguments) {
  for (const Bound& bound : bounds) {
    if (bound.parsed->count() == 0) continue;
    const std::string name(bound.option->name);
    if (!bound.option->value.empty() && !bound.option->repeats && bound.values->size() > 1) {
      wrong("given-twice", fmt::format("`--{}` is given {} times", name, bound.values->size()), "give it once");
    }
    arguments.options[name] = *bound.values;
  }
}

// Options with a value that are the last word, and flags that are given one: CLI11 has its own words for these.
void check_values(const std::vector<std::string>& written, const Command* command) {
  for (std::size_t i = 0; i < written.size(); ++i) {
    if (written[i] == "--") return;
    if (!written[i].starts_with("--")) continue;
    const std::string name = written[i].substr(2, written[i].find('=') - 2);
    const bool with_equals = written[i].find('=') != std::string::npos;
    for (const Option* option : options_of(command)) {
      if (option->name != name) continue;
      if (option->value.empty() && with_equals) {
        wrong("takes-no-value", fmt::format("`--{}` takes no value", name), fmt::format("write only `--{}`", name));
      }
      if (option->value.empty()) continue;
      const auto is_option = [&](const std::string& word) {
        const auto options = options_of(command);
        return std::any_of(options.begin(), options.end(), [&](const Option* other) {
          return word.substr(0, word.find('=')) == "--" + std::string(other->name);
        });
      };
      // `--note --dry-run` would store what was only to be tried.
      const bool is_empty = with_equals ? written[i].back() == '=' && written[i].find('=') + 1 == written[i].size()
                                        : i + 1 < written.size() && is_option(written[i + 1]);
      if (is_empty || (!with_equals && i + 1 == written.size())) {
        wrong("needs-value", fmt::format("`--{}` needs a value", name),
              fmt::format("write `--{} {}`", name, option->value));
      }
      if (with_equals) continue;
      ++i;
      break;
    }
  }
}

// A machine's name of several words is one word only in quotes: the words too many may belong to it.
std::string quotes_hint(const Arguments& arguments) {
  const auto& words = arguments.command->words;
  if (words.empty() || words.front().name != "MACHINE") return "";
  std::string name = arguments.words.front();
  for (std::size_t i = 1; i <= arguments.words.size() - words.size(); ++i) name += ' ' + arguments.words[i];
  return fmt::format("a name of several words needs quotes: \"{}\"; ", name);
}

void check_words(const Arguments& arguments) {
  const Command& command = *arguments.command;
  const auto required = static_cast<std::size_t>(
      std::count_if(command.words.begin(), command.words.end(), [](const Word& word) { return word.required; }));
  const bool open = !command.words.empty() && command.words.back().repeats;
  if (arguments.words.size() < required) {
    std::string missing;
    for (std::size_t i = arguments.words.size(); i < required; ++i) {
      missing += (missing.empty() ? "" : " and ") + std::string(command.words[i].name);
    }
    wrong("missing-word", fmt::format("`{}` needs {}", command.name, missing), help_hint(&command));
  }
  if (!open && arguments.words.size() > command.words.size()) {
    wrong("surplus-word",
          fmt::format("`{}` does not know what to do with `{}`", command.name, arguments.words[command.words.size()]),
          quotes_hint(arguments) + help_hint(&command));
  }
}

void check_color(const Arguments& arguments) {
  const auto color = arguments.value("color");
  if (!color || *color == "auto" || *color == "always" || *color == "never") return;
  wrong("unknown-color", fmt::format("`--color {}` is not understood", *color), "write auto, always or never");
}

void check_format(const Arguments& arguments) {
  const auto format = arguments.value("format");
  if (!format) return;
  const auto& known = arguments.command->formats;
  if (std::find(known.begin(), known.end(), *format) != known.end()) return;
  const std::vector<std::string> names(known.begin(), known.end());
  wrong("unknown-format", fmt::format("`{}` cannot write the format `{}`", arguments.command->name, *format),
        service::nearest_or(*format, names, fmt::format("it writes: {}", fmt::join(names, ", "))));
}

}  // namespace

std::optional<std::string> Arguments::value(std::string_view option) const {
  const auto found = options.find(option);
  if (found == options.end() || found->second.empty()) return std::nullopt;
  return found->second.front();
}

std::vector<std::string> Arguments::values(std::string_view option) const {
  const auto found = options.find(option);
  return found == options.end() ? std::vector<std::string>{} : found->second;
}

Arguments parse(const std::vector<std::string>& written) {
  CLI::App app;
  app.set_help_flag();
  app.allow_extras();
  app.fallthrough();
  app.require_subcommand(0, 1);  // words after the command are never taken for another command
  bool help = false;
  bool version = false;
  app.add_flag("-h,--help", help);
  app.add_flag("--version", version);

  std::vector<Bound> global;
  for (const Option& option : global_options()) bind(app, option, global);
  std::vector<Offered> offered;
  for (const Command& command : commands()) {
    // Whichever is not among the words is not meant, and need not be told.
    if (std::find(written.begin(), written.end(), command.name) == written.end()) continue;
    Offered& one = offered.emplace_back();
    one.command = &command;
    one.parsed = app.add_subcommand(std::string(command.name));
    one.parsed->set_help_flag();
    one.parsed->allow_extras();
    one.parsed->fallthrough();
    for (const Option& option : command.options) bind(*one.parsed, option, one.options);
    one.parsed->add_option("words", *one.words);
  }

  Arguments arguments;
  // The command is found before parsing as well, so that a mistake can be told in its terms.
  std::vector<std::string> reversed(written.rbegin(), written.rend());
  bool failed = false;
  try {
    app.parse(reversed);
  } catch (const CLI::Error&) {
    failed = true;
  }
  const auto meant =
      std::find_if(offered.begin(), offered.end(), [](const Offered& one) { return one.parsed->parsed(); });
  if (meant != offered.end()) {
    arguments.command = meant->command;
    arguments.words = *meant->words;
  }
  arguments.help = help;
  arguments.version = version;
  check_values(written, arguments.command);
  for (const std::string& extra : app.remaining(true)) {
    if (extra == "--") continue;
    if (extra.size() > 1 && extra.front() == '-') unknown_option(extra, arguments.command);
    if (arguments.command == nullptr) unknown_command(extra, command_about(fleet_named(written)));
    wrong("surplus-word", fmt::format("`{}` does not know what to do with `{}`", arguments.command->name, extra),
          help_hint(arguments.command));
  }
  if (failed) wrong("not-understood", "these words are not understood", help_hint(arguments.command));
  take_options(global, arguments);
  if (arguments.command == nullptr) {
    if (help || version) return arguments;
    wrong("no-command", "no command is given", help_hint(nullptr));
  }
  take_options(meant->options, arguments);
  if (arguments.has("format") && arguments.command->formats.empty()) {
    wrong("unknown-option", fmt::format("`{}` has no option `--format`", arguments.command->name),
          "it has one form; leave it out");
  }
  if (help || version) return arguments;
  check_words(arguments);
  check_format(arguments);
  check_color(arguments);
  return arguments;
}

std::optional<std::string> fleet_named(const std::vector<std::string>& arguments) {
  constexpr std::string_view with_equals = "--fleet=";
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    if (arguments[i] == "--") break;
    if (arguments[i].starts_with(with_equals)) return arguments[i].substr(with_equals.size());
    if (arguments[i] == "--fleet" && i + 1 < arguments.size()) return arguments[i + 1];
  }
  return std::nullopt;
}

bool wants_json(const std::vector<std::string>& arguments) {
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    if (arguments[i] == "--") return false;
    if (arguments[i] == "--format=json" || arguments[i] == "--format=jsonl") return true;
    if (arguments[i] == "--format" && i + 1 < arguments.size()) return arguments[i + 1].starts_with("json");
  }
  return false;
}

}  // namespace cli
