#include "render/shared/cures.h"

#include <fmt/format.h>

#include "service/record.h"
#include "terminal/shell_word.h"

namespace cli {
namespace {

using service::Cure;
using service::CureKind;

std::string command_to_strike(const Cure& cure, const std::string& command) {
  const auto id = service::parse_fact_id(cure.value("fact"));
  return command + " strike " + (id ? short_text(*id) : std::string(cure.value("fact")));
}

// `2500 h of 2026-06-15`.
std::string value_struck(const Cure& cure) { return fmt::format("{} of {}", cure.value("shown"), cure.value("on")); }

std::string meter_of(const Cure& cure) {
  const std::string_view meter = cure.value("meter");
  return meter.empty() ? "" : fmt::format(" --meter {}", meter);
}

std::string another_meter(const Cure& cure) {
  const std::string_view tasks = cure.value("tasks");
  if (tasks.empty()) return fmt::format("it is what meter `{0}` shows: add --meter {0}", cure.value("meter"));
  return fmt::format("it is what meter `{0}` shows: write down {1} by itself, with --meter {0}", cure.value("meter"),
                     tasks);
}

// One of several things that may have happened, with what to do in that case; empty for cures that are no such thing.
std::string as_possibility(const Cure& cure, const std::string& command) {
  switch (cure.kind) {
    case CureKind::mend_value:
      if (cure.value("slip") == "day") return "the value or its day is wrong: mend it";
      return cure.value("slip") == "point" ? "the value is wrong (a missing decimal point?): mend it"
                                           : "the value is wrong: mend it";
    case CureKind::other_meter:
      return another_meter(cure);
    case CureKind::mend_earlier_row:
      return "the earlier line is wrong: mend it";
    case CureKind::mend_start:
      return "the value in the fleet file is wrong: mend `at` there";
    case CureKind::change_meter:
      return fmt::format(
          "the meter was replaced: {} meter-change {} --meter {} --last {} --first {} --on {} (with what the old and "
          "the new one showed)",
          command, cure.value("machine"), cure.value("meter"), cure.value("last"), cure.value("first"),
          cure.value("on"));
    case CureKind::roll_over:
      return "it went past its highest value: the same with --last the highest value";
    case CureKind::strike_fact:
      if (cure.value("which") == "doubtful")
        return value_struck(cure) + " is in doubt: " + command_to_strike(cure, command);
      if (cure.value("which") == "later") return value_struck(cure) + " is wrong: " + command_to_strike(cure, command);
      return cure.value("which") == "earlier" ? "the earlier value is wrong: " + command_to_strike(cure, command) : "";
    default:
      return "";
  }
}

// A strike set against what is said already.
std::string with_strike(const std::string& said, const Cure& cure, const std::string& command) {
  std::string strike = command_to_strike(cure, command);
  if (said.empty()) return strike;
  const std::string_view which = cure.value("which");
  if (which == "either") return said + ", or " + strike;
  if (which == "second") return said + "; if one is wrong: " + strike;
  if (which == "in-the-way") return said + "; if that is wrong: " + strike + ", and enter the readings again";
  return said + "; or if it is wrong: " + strike;
}

std::string joined(const std::string& said, std::string_view link, const std::string& more) {
  return said.empty() ? more : said + std::string(link) + more;
}

// Good without the words that say that it must not run, or failed with them.
std::string how_found(const Cure& cure, bool in_file, const std::string& command) {
  const std::string out = fmt::format("{} out-of-use {} --note WHY", command, cure.value("machine"));
  // A service that found the old one failed has put in another all the same.
  if (cure.value("did") != "looked") {
    return fmt::format("where it may run, the same without those words{}; where it must not run, leave this out: {}",
                       in_file ? " in `note`" : "", out);
  }
  if (in_file) {
    return "where it is good, leave those words out of `note`; where it must not run, write `failed` under `found`, "
           "and then: " +
           out;
  }
  const std::string_view by = cure.value("by");
  const std::string named = std::string(cure.value("what"));
  return fmt::format(
      "where it is good, the same without those words; where it must not run: {} {} {} {}{} --found failed --note {}; "
      "then: {}",
      command, cure.value("did"), cure.value("machine"), shell_word(service::cleaned(named)),
      by.empty() ? "" : " --by " + shell_word(service::cleaned(by)), shell_word(service::cleaned(cure.value("note"))),
      out);
}

// `in_file`: what is wrong is a row of a file, which has no options.
std::string with(const std::string& said, const Cure& cure, bool in_file, const std::string& command) {
  switch (cure.kind) {
    case CureKind::strike_fact:
      return with_strike(said, cure, command);
    case CureKind::confirm_value:
      return joined(said, "; ", "if it is right: " + command_to_confirm(cure, command));
    case CureKind::show_facts:
      return joined(said, "; ", fmt::format("`{} history MACHINE` shows the ids of its facts", command));
    case CureKind::look_before_again:
      return joined(said, "; then ", fmt::format("see with `{} history MACHINE` before you enter it again", command));
    case CureKind::ask_due_list:
      return joined(said, "; ", fmt::format("ask with `{} due`", command));
    case CureKind::save_legible:
      return joined(said, "; ",
                    fmt::format("what can still be read of this one, `{} export --legible` writes", command));
    case CureKind::make_fleet:
      return said.empty() ? "`whichever new DIR` makes one" : said + ", or make a fleet there with `whichever new DIR`";
    case CureKind::tell_decimal_mark:
      if (!cure.value("decimal").empty()) {
        return said +
               fmt::format("; where that mark is for decimals all over the file: --decimal {}", cure.value("decimal"));
      }
      return "say which with --decimal point or --decimal comma; or " + said;
    case CureKind::tell_date_order:
      return "say which with --dates day-first or --dates month-first; or " + said;
    case CureKind::next_season:
      return joined(said, "; ", "leave --year out for the next one");
    case CureKind::take_out_of_use:
      return joined(
          said, ", or ",
          fmt::format("take the machine out of use until then: {} out-of-use {}", command, cure.value("machine")));
    case CureKind::tell_found:
      return joined(said, "; ", how_found(cure, in_file, command));
    case CureKind::tell_columns:
      if (!cure.value("heading").empty()) {
        const std::string heading = service::cleaned(cure.value("heading"));
        if (cure.value("column") == "on") {
          return joined(
              said, "; ",
              fmt::format("where they were: --columns \"{}=on\"; where not, say when they were: --on DAY", heading));
        }
        return joined(said, "; ",
                      fmt::format("or let `{0}` name them: --columns \"{0}={1}\"", heading, cure.value("column")));
      }
      return joined(said, "; ", "say which is which with --columns \"HEADING=name, HEADING=at\"");
    case CureKind::leave_out:
      return joined(said, "; ", "or leave it out with --skip-bad");
    case CureKind::tell_who:
      return joined(said, "; ", fmt::format("say who {}{}", cure.value("did"), in_file ? " with `by`" : ": --by WHO"));
    case CureKind::ask_season:
      return joined(said, ": ",
                    fmt::format("{0} season {1}; its parts: {0} parts --before {1}", command, cure.value("season")));
    default:
      return said;
  }
}

}  // namespace

std::string command_to_confirm(const Cure& cure, const std::string& command) {
  if (!cure.value("last").empty()) {
    return fmt::format("{} meter-change {}{} --last {} --first {} --on {} --sure", command, cure.value("machine"),
                       meter_of(cure), cure.value("last"), cure.value("first"), cure.value("on"));
  }
  return fmt::format("{} reading {} {}{} --on {} --sure", command, cure.value("machine"), cure.value("at"),
                     meter_of(cure), cure.value("on"));
}

std::string hint_of(const service::Diagnostic& diagnostic, const std::string& command) {
  std::string text = diagnostic.hint;
  std::vector<std::string> possible;
  for (const Cure& cure : diagnostic.cures) {
    std::string one = as_possibility(cure, command);
    if (one.empty()) {
      text = with(text, cure, diagnostic.place.has_value(), command);
    } else {
      possible.push_back(std::move(one));
    }
  }
  if (possible.empty()) return text;
  return joined(text, "; ", fmt::format("it could be: {}", fmt::join(possible, "; ")));
}

}  // namespace cli
