// `history`: the book of one machine, struck facts included.
#include "render/history/history.h"

#include <algorithm>

#include "answering.h"
#include "commands/commands.h"
#include "service/first.h"
#include "session.h"

namespace cli {
namespace {

// A machine that the fleet no longer lists still has its book.
std::string named(const Session& session, const service::Record& record, const std::string& written) {
  const auto known = record.machines();
  if (session.fleet->machine(written) == nullptr && std::find(known.begin(), known.end(), written) != known.end()) {
    return written;
  }
  return the_machine(*session.fleet, written).key;
}

}  // namespace

int history(Context& context) {
  const Session session = open_fleet(context);
  const auto record = open_record(context, session.folder, service::Access::read);
  const std::string key = named(session, record, context.arguments.words[0]);
  const service::Scope scope{std::vector<std::string>{key}};
  const service::Scope kin = service::kin_of(*session.fleet, scope);
  const auto facts = record.facts(kin);
  const service::Snapshot snapshot(session.fleet, {facts, kin, record.newest_day()}, session.today,
                                   session.day_is_given, scope);
  auto book = service::Books(snapshot, facts).of(key, context.arguments.has("all"));
  book.left_off = service::keep_first(book.lines, first_option(context.arguments));
  put_answer(context, history_formats, book, book.left_off);
  return 0;
}

}  // namespace cli
