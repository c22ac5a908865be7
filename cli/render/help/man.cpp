#include <fmt/format.h>

#include <algorithm>

#include "render/help/help.h"

namespace cli {
namespace {

// Text that roff takes literally: no backslash escapes, no request at the start of a line, hyphens that can be copied.
std::string roff(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\') {
      out += "\\e";
    } else if (c == '-') {
      out += "\\-";
    } else if ((c == '.' || c == '\'') && (out.empty() || out.back() == '\n')) {
      out += "\\&";
      out += c;
    } else {
      out += c;
    }
  }
  return out;
}

std::string value_of(const Option& option, const Command* command) {
  if (option.name == "format" && command != nullptr) return fmt::format("{}", fmt::join(command->formats, "|"));
  return std::string(option.value);
}

std::string option_item(const Option& option, const Command* command) {
  const std::string value = value_of(option, command);
  return fmt::format(".TP\n\\fB\\-\\-{}\\fR{}\n{}\n", roff(option.name),
                     value.empty() ? "" : " \\fI" + roff(value) + "\\fR", roff(option.does));
}

std::string usage_in_roff(const Command& command) {
  std::string usage = fmt::format("\\fBwhichever {}\\fR", roff(command.name));
  for (const Word& word : command.words) {
    usage += fmt::format(" {}\\fI{}\\fR{}{}", word.required ? "" : "[", roff(word.name), word.repeats ? "..." : "",
                         word.required ? "" : "]");
  }
  return usage + " [options]";
}

std::string section_of(const Command& command) {
  std::string text =
      fmt::format(".SS {}\n{}\n.PP\n{}\n", roff(command.name), usage_in_roff(command), roff(command.about));
  for (const Option& option : command.options) text += option_item(option, &command);
  for (const Option& option : global_options()) {
    if (option.name == "format" && takes(command, option)) text += option_item(option, &command);
  }
  if (!command.examples.empty()) text += ".PP\nExamples:\n";
  for (const Example& example : command.examples) {
    text += fmt::format(".TP\n\\fBwhichever {}\\fR\n{}\n", roff(example.arguments), roff(example.does));
  }
  if (!command.statuses.empty()) text += ".PP\nExit status:\n";
  for (const ExitStatus& status : command.statuses) {
    text += fmt::format(".TP\n{}\n{}\n", status.status, roff(status.when));
  }
  return text;
}

}  // namespace

std::string help_as_man(const HelpAnswer&) {
  std::string text =
      ".TH WHICHEVER 1 \"\" \"whichever " WHICHEVER_VERSION
      "\" \"\"\n"
      ".SH NAME\nwhichever \\- what maintenance is due on which machine, by hours or months, whichever comes first\n"
      ".SH SYNOPSIS\n\\fBwhichever\\fR [\\fB\\-\\-fleet\\fR \\fIDIR\\fR] \\fICOMMAND\\fR [options]\n"
      ".SH DESCRIPTION\n"
      "Keeps the book of a fleet of machines: what was fitted when, what the meters show, what people saw. Tells what "
      "is overdue, due and coming, and what is not known. Intervals and limits are those of the fleet files; take "
      "yours from the operator's manual, and follow it, local rules and licensed practice in all work.\n"
      ".SH COMMANDS\n";
  for (const Command& command : commands()) {
    if (!command.hidden) text += section_of(command);
  }
  text += ".SH OPTIONS OF ALL COMMANDS\n";
  for (const Option& option : global_options()) text += option_item(option, nullptr);
  text += ".TP\n\\fB\\-h\\fR, \\fB\\-\\-help\\fR\nhelp, also of a command\n";
  text += ".TP\n\\fB\\-\\-version\\fR\nwhich version this is\n";
  text += ".SH EXIT STATUS\n";
  for (const ExitStatus& status : shared_statuses()) {
    text += fmt::format(".TP\n{}\n{}\n", status.status, roff(status.when));
  }
  text +=
      ".SH ENVIRONMENT\n"
      ".TP\nWHICHEVER_FLEET\nthe folder of the fleet, where \\-\\-fleet is not given\n"
      ".TP\nWHICHEVER_USER\nwho enters facts; else USER\n"
      ".TP\nNO_COLOR\nno colours on a terminal\n"
      ".TP\nTMPDIR\nwhere a list of a very large fleet is put in order; else /tmp\n"
      ".SH FILES\n"
      ".TP\nfleet.yaml, schedules/*.yaml, register.csv\nthe fleet: machines, sites, seasons, parts, and what is to be "
      "done how often\n"
      ".TP\nrecord.db\nthe book of facts, readable by its owner alone\n"
      ".TP\n\\&.compiled\\-fleet\nthe fleet files as they were last read, to save time; may be deleted\n"
      ".TP\n\\&.mailed\nwhat the last message of mail \\-\\-changed held; deleted, the next one tells all again\n"
      ".TP\n\\&.mailed\\-SITE\nthe same of mail \\-\\-site\n"
      ".TP\n\\&.backed\\-up\nthe day of the last backup\n";
  return text;
}

}  // namespace cli
