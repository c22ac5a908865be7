// `looked`: somebody went and saw what a sign was about.
#include <fmt/format.h>

#include <span>

#include "commands/commands.h"
#include "commands/found_option.h"
#include "commands/writing.h"
#include "mistakes.h"
#include "render/shared/sign_words.h"
#include "service/telling.h"

namespace cli {

int looked(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const auto& machine = the_machine(*session.fleet, arguments.words[0]);
  service::Fact fact = fact_about(context, session, service::FactKind::looked_at, machine);
  fact.name = service::sign_told(std::span(arguments.words).subspan(1));
  fact.found = found_option(arguments).value_or(service::Found::good);
  if (fact.note.empty()) {
    wrong("missing-option", "`looked` needs --note: what was it?",
          "say in a few words what you found: --note \"a loose clamp, tightened\"");
  }
  auto record = open_record(session.folder, service::Access::write);
  Written written = write(context, session, record, request_of(context, session, {fact}));
  if (!written.entered.added.empty() && *fact.found != service::Found::good) {
    written.next.emplace_back("It stays on the list until a look finds it good.");
  }
  tell(context, written);
  return 0;
}

}  // namespace cli
