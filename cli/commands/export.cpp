// `export`: the whole record, in the form in which facts travel. It needs no readable fleet file.
#include "render/export/export.h"

#include "answering.h"
#include "commands/commands.h"
#include "session.h"

namespace cli {

int export_facts(Context& context) {
  const auto record = open_record(context, fleet_folder(context), service::Access::read);
  service::Legible book;
  if (context.arguments.has("legible")) {
    book = record.legible();
  } else {
    book.facts = record.facts();
  }
  put_answer(context, export_formats, book.facts);
  context.also = std::move(book.diagnostics);
  // Whoever goes on with this file must know that it may lack facts.
  return context.also.empty() ? 0 : static_cast<int>(service::FailureKind::bad_data);
}

}  // namespace cli
