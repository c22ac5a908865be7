// `looked`: somebody went and saw what a sign was about.
#include <fmt/format.h>

#include <span>

#include "commands/commands.h"
#include "commands/found_option.h"
#include "commands/writing.h"
#include "mistakes.h"
#include "render/shared/sign_words.h"
#include "service/telling.h"
#include "terminal/shell_word.h"

namespace cli {
namespace {

std::string command_to_say_how(const service::Fact& look, const std::string& sign, const char* found,
                               const std::string& command) {
  return fmt::format("{} looked {} {}{} --found {} --note {}", command, look.machine,
                     shell_word(service::cleaned(sign)),
                     " --by " + (look.by.empty() ? "WHO" : shell_word(service::cleaned(look.by))), found,
                     shell_word(service::cleaned(look.note)));
}

// Where safety hangs on it, whether it is good is said in so many words: `--note "still drips"` alone would clear it.
void insist_on_found(const service::Fleet& fleet, const service::Machine& machine,
                     const std::vector<service::Fact>& facts, const service::Fact& look, const std::string& command) {
  std::vector<service::Fact> of_machine;
  for (const service::Fact& fact : service::unstruck(facts)) {
    if (fact.machine == machine.key) of_machine.push_back(fact);
  }
  const auto sign = seen_sign_told(fleet, machine, of_machine, look.name);
  if (!sign || !sign->safety) return;
  wrong("needs-found",
        fmt::format("`{}` of {} is a sign of a safety task, and how it was found is not said", sign->name, machine.key),
        fmt::format("say which: {}; or {} (or failed, where it must not be used)",
                    command_to_say_how(look, sign->name, "good", command),
                    command_to_say_how(look, sign->name, "worn", command)));
}

}  // namespace

int looked(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const auto& machine = the_machine(*session.fleet, arguments.words[0]);
  service::Fact fact = fact_about(context, session, service::FactKind::looked_at, machine);
  fact.name = service::sign_told(std::span(arguments.words).subspan(1));
  const auto found = found_option(arguments);
  fact.found = found.value_or(service::Found::good);
  if (fact.note.empty()) {
    wrong("missing-option", "`looked` needs --note: what was it?",
          "say in a few words what you found: --note \"a loose clamp, tightened\"");
  }
  auto record = open_record(context, session.folder, service::Access::write);
  const auto propose = [&](const service::Extract& known) {
    if (!found) insist_on_found(*session.fleet, machine, known.facts, fact, context.look.command);
    return std::vector<service::Proposal>{{fact, false, std::nullopt}};
  };
  Written written =
      write(context, session, record, request_of(context, session, service::Scope{std::vector{machine.key}}, propose));
  if (!written.entered.added.empty() && *fact.found != service::Found::good) {
    written.next.emplace_back("It stays on the list until a look finds it good.");
  }
  tell(context, written);
  return 0;
}

}  // namespace cli
