// `export`: the whole record, in the form in which facts travel. It needs no readable fleet file.
#include "commands/commands.h"
#include "session.h"

namespace cli {

int export_facts(Context& context) {
  const auto record = open_record(fleet_folder(context), service::Access::read);
  const auto facts = record.facts();
  const bool csv = context.arguments.value("format").value_or("csv") == "csv";
  context.out = csv ? service::facts_to_csv(facts) : service::facts_to_json_lines(facts);
  return 0;
}

}  // namespace cli
