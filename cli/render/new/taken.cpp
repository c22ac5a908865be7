#include "render/new/taken.h"

#include <fmt/format.h>

#include "render/shared/cures.h"
#include "render/shared/dialect_words.h"
#include "terminal/look.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::TakenOver;
using service::to_text;

std::string called(const std::string& heading, int number) {
  return heading.empty() ? fmt::format("(column {}, no heading)", number) : service::cleaned(heading);
}

std::string column_rows(const TakenOver& taken, std::size_t columns) {
  std::vector<Row> rows;
  for (const TakenOver::Column& column : taken.columns) {
    if (column.column) {
      rows.push_back({called(column.heading, column.number), std::string(to_text(*column.column)),
                      column.told ? "as you said" : "guessed"});
    } else {
      rows.push_back({called(column.heading, column.number), "left alone"});
    }
  }
  return "Columns:\n" + table(rows, "  ", columns);
}

std::string aside_rows(const TakenOver& taken, std::size_t columns) {
  if (taken.aside.empty()) return "";
  std::string text =
      fmt::format("Put aside, {}:\n", service::counted(static_cast<std::int64_t>(taken.aside.size()), "row", "rows"));
  for (const TakenOver::RowAside& row : taken.aside) {
    text += wrapped(fmt::format("  line {}: ", row.line), row.why + ": " + service::cleaned(row.row), columns, 4);
  }
  return text;
}

std::string left_out_rows(const TakenOver& taken, std::size_t columns) {
  if (taken.left_out.empty()) return "";
  std::string text = fmt::format("Left out, {}:\n",
                                 service::counted(static_cast<std::int64_t>(taken.left_out.size()), "field", "fields"));
  for (const TakenOver::FieldLeftOut& field : taken.left_out) {
    std::string said = service::cleaned(field.machine);
    if (!field.heading.empty()) said += ", " + service::cleaned(field.heading);
    const std::string value = fmt::format("`{}`", service::cleaned(field.value));
    const bool told = field.what.message.find(value) != std::string::npos;
    said += (told ? ": " : ' ' + value + ": ") + field.what.message;
    if (!field.besides.empty()) said += "; left out with it: " + field.besides;
    text += wrapped(fmt::format("  line {}: ", field.what.place ? field.what.place->line : 0), said, columns, 4);
  }
  return text;
}

std::string alike_rows(const TakenOver& taken, std::size_t columns) {
  if (taken.alike.empty()) return "";
  std::string text = "Alike in name, and kept apart (of one machine written twice, take one out):\n";
  for (const TakenOver::Alike& pair : taken.alike) {
    const TakenOver::MachineTaken& first = taken.machines[pair.first];
    const TakenOver::MachineTaken& later = taken.machines[pair.later];
    text +=
        wrapped(fmt::format("  line {}: ", later.line),
                fmt::format("`{}` would be {}, as `{}` on line {} is: it is called {}", service::cleaned(later.name),
                            first.key, service::cleaned(first.name), first.line, later.key),
                columns, 4);
  }
  return text;
}

std::string services_not_known(const TakenOver& taken, std::size_t columns) {
  if (taken.services_not_known.empty()) return "";
  const auto count = static_cast<std::int64_t>(taken.services_not_known.size());
  return wrapped("",
                 fmt::format("{} went into service so long ago that services have come due since, and none is written "
                             "down: {}. In register.csv that day is `bought`, so find-out asks for the services and "
                             "none is called overdue.",
                             service::counted(count, "machine", "machines"),
                             service::cleaned(fmt::format("{}", fmt::join(taken.services_not_known, ", ")))),
                 columns, 0);
}

std::vector<const TakenOver::MachineTaken*> with_notes(const TakenOver& taken) {
  std::vector<const TakenOver::MachineTaken*> machines;
  for (const TakenOver::MachineTaken& machine : taken.machines) {
    if (!machine.notes.empty()) machines.push_back(&machine);
  }
  return machines;
}

// They may tell of brakes that do not work, and no list reads them: who takes over has to.
std::string note_rows(const TakenOver& taken, std::size_t columns) {
  const auto machines = with_notes(taken);
  if (machines.empty()) return "";
  std::string text = fmt::format("Notes, of {}; read them:\n",
                                 service::counted(static_cast<std::int64_t>(machines.size()), "machine", "machines"));
  for (const TakenOver::MachineTaken* machine : machines) {
    text += wrapped(fmt::format("  {}: ", machine->key), service::cleaned(machine->notes), columns, 4);
  }
  return text;
}

std::string machine_words(const TakenOver& taken) {
  const auto machines = static_cast<std::int64_t>(taken.machines.size());
  const auto readings = static_cast<std::int64_t>(taken.readings.size());
  std::string text = fmt::format("{}, {}", service::counted(machines, "machine", "machines"),
                                 service::counted(readings, "reading", "readings"));
  if (taken.without_day > 0) {
    text += fmt::format(", {} of which {} no day and {} taken to be of {}", taken.without_day,
                        taken.without_day == 1 ? "has" : "have", taken.without_day == 1 ? "is" : "are",
                        to_text(taken.read_on));
  }
  return text + ". They are called:";
}

std::string machine_rows(const TakenOver& taken, std::size_t columns) {
  std::vector<Row> rows;
  for (const TakenOver::MachineTaken& machine : taken.machines) {
    rows.push_back(
        {machine.key, service::cleaned(machine.name),
         machine.at ? fmt::format("{} on {}", to_text_tenths(*machine.at), to_text(*machine.on)) : "no reading"});
  }
  return table(rows, "  ", columns);
}

}  // namespace

std::string taken_in_words(const TakenOver& taken, std::size_t columns) {
  return wrapped("",
                 fmt::format("{} is read as {} with {}{}", service::cleaned(taken.file), to_text(taken.encoding),
                             separator_word(taken.separator),
                             dialect_words(taken.dialect, taken.number_settled_by, taken.dates_settled_by)),
                 columns, 0) +
         column_rows(taken, columns) + aside_rows(taken, columns) + left_out_rows(taken, columns) +
         wrapped("", machine_words(taken), columns, 0) + machine_rows(taken, columns) + alike_rows(taken, columns) +
         services_not_known(taken, columns) + note_rows(taken, columns);
}

std::string next_after_taking(const TakenOver& taken, const std::string& folder, std::size_t columns) {
  std::string text;
  for (const std::string& schedule : taken.example_schedules) {
    text += wrapped("",
                    fmt::format("The values of schedules/{}.yaml are examples: take yours from the operator's manual, "
                                "then take `example: true` out of it.",
                                schedule),
                    columns, 0);
  }
  const std::string fleet = command_about(folder);
  if (!with_notes(taken).empty()) {
    text += wrapped("",
                    fmt::format("No list of what is due reads notes. What in them is a fault, write down: {0} saw "
                                "MACHINE \"WHAT IS WRONG\"; where nobody may run it: {0} out-of-use MACHINE --note "
                                "\"WHY\"",
                                fleet),
                    columns, 0);
  }
  std::size_t blanks = 0;
  const auto asked = find_out(*taken.list);
  for (const service::MachineQuestions& machine : asked) blanks += machine.questions.size();
  text += wrapped("",
                  fmt::format("To find out: {} about {}, to print: {} find-out",
                              service::counted(static_cast<std::int64_t>(blanks), "blank", "blanks"),
                              service::counted(static_cast<std::int64_t>(asked.size()), "machine", "machines"), fleet),
                  columns, 0);
  text += wrapped("",
                  fmt::format("To fill in as a spreadsheet: {} find-out --format csv --output blanks.csv; then {} "
                              "import blanks.csv",
                              fleet, fleet),
                  columns, 0);
  return text;
}

}  // namespace cli
