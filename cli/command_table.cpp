#include "command_table.h"

#include <algorithm>
#include <array>

#include "commands/commands.h"

namespace cli {
namespace {

constexpr Option on_option{"on", "DAY", "the day it happened; today unless told"};
constexpr Option dry_run_option{"dry-run", "", "show what would happen, store nothing"};
constexpr Option meter_option{"meter", "METER", "which meter; the machine's first unless told"};
constexpr Option by_option{"by", "WHO", "who did the work"};
constexpr Option note_option{"note", "TEXT", "a remark to keep with it"};

const ExitStatus refused{65, "the record already says something that cannot be true together with this"};

const std::vector<Command>& table() {
  static const std::vector<Command> commands{
      {.name = "due",
       .summary = "what is due now, and what comes next",
       .about = "Lists the service points that are overdue, due, coming or without a record, worst first. A point is "
                "due by hours or by months, whichever comes first. What is not known is said below the list. On a "
                "terminal each point has two bars on one scale: use above, time below; the stroke is where the "
                "interval ends.",
       .words = {},
       .options = {{"machine", "MACHINE", "only this machine; may be given again", true},
                   {"site", "SITE", "only machines of this site; adds to --machine"},
                   {"within", "30d|6w|3m", "how far ahead `coming` looks; 30d unless told"},
                   {"all", "", "show later points too"},
                   {"overdue", "", "the overdue list: silent only when all is well"},
                   {"first", "N", "only the first N points"},
                   {"exit-code", "", "status 1 when something needs doing"}},
       .formats = {"text", "json", "csv", "md"},
       .examples = {{"due", "the whole fleet"},
                    {"due --machine combine --within 3m", "the combine, three months ahead"},
                    {"due --overdue", "what must not wait; silent when there is nothing"}},
       .statuses =
           {{1,
             "with --exit-code: a point is due or worse or has no record, a machine is out of use, or something is "
             "not known"}},
       .action = due},
      {.name = "why",
       .summary = "the facts, the rule and the sums behind one standing",
       .about = "Reads back the rule of a task as it holds for this machine, the facts it stands on and the "
                "arithmetic of every limb, and says which limb rules. Without a position it shows all positions.",
       .words = {{"MACHINE"}, {"TASK[@POSITION]"}},
       .options = {},
       .formats = {"text", "json"},
       .examples = {{"why tractor-big engine-oil", "why the oil of the big tractor stands where it does"},
                    {"why tractor-yard engine-oil/check-leaks", "a check that follows another task"}},
       .statuses = {},
       .action = why},
      {.name = "reading",
       .summary = "write down what a meter shows",
       .about = "Records a meter reading and says what it changed on the due list.",
       .words = {{"MACHINE"}, {"VALUE"}},
       .options = {meter_option, on_option, dry_run_option},
       .formats = {"text", "json"},
       .examples = {{"reading combine 2162.5 --on 2026-06-14 --dry-run", "the engine meter of the combine"},
                    {"reading combine 1580 --meter separator --dry-run", "its separator meter"}},
       .statuses = {refused},
       .action = reading},
      {.name = "done",
       .summary = "write down a service",
       .about = "Records that tasks were done, and prints what to write on the new element. A day may be known by "
                "month or year only: 2025-05 or 2025.",
       .words = {{"MACHINE"}, {"TASK[@POSITION]", true, true}},
       .options = {{"at", "VALUE", "what the meter showed"},
                   meter_option,
                   on_option,
                   {"found", "good|worn|failed", "how the old part was found"},
                   by_option,
                   note_option,
                   {"checked", "", "the checks afterwards were done as well"},
                   dry_run_option},
       .formats = {"text", "json"},
       .examples = {{"done combine engine-oil --at 2162.5 --dry-run", "an oil change at this meter value"},
                    {"done combine engine-oil knife --on 2026-05 --dry-run", "two tasks, some day in May"}},
       .statuses = {refused},
       .action = done},
      {.name = "saw",
       .summary = "write down a sign or a measurement",
       .about = "Records what was noticed (a sign that a task lists) or measured (NAME=VALUE). A measurement is in "
                "the unit of its limit unless --unit says so.",
       .words = {{"MACHINE"}, {"SIGN|NAME=VALUE", true, true}},
       .options = {{"unit", "UNIT", "the unit of the measured value"},
                   {"position", "POSITION", "where it was measured"},
                   on_option,
                   note_option,
                   dry_run_option},
       .formats = {"text", "json"},
       .examples = {{"saw combine restriction=4.5 --dry-run", "a gauge value"},
                    {"saw combine brake-pull --dry-run", "a sign"}},
       .statuses = {refused},
       .action = saw},
      {.name = "meter-change",
       .summary = "write down that a meter was replaced",
       .about = "Records the last value of the old meter and the first of the new one. Use counts on through it.",
       .words = {{"MACHINE"}},
       .options = {{"last", "VALUE", "what the old meter showed"},
                   {"first", "VALUE", "what the new meter shows"},
                   meter_option,
                   on_option,
                   dry_run_option},
       .formats = {"text", "json"},
       .examples = {{"meter-change combine --last 2170 --first 0 --dry-run", "a new engine meter"}},
       .statuses = {refused},
       .action = meter_change},
      {.name = "strike",
       .summary = "void a wrong fact; it stays legible",
       .about = "Takes one fact out of all answers. Nothing is deleted: `history` shows it as struck, with the "
                "reason. `history` and `why` show the ids; the short form will do where it names one fact.",
       .words = {{"ID"}},
       .options = {note_option, dry_run_option},
       .formats = {"text", "json"},
       .examples = {},
       .statuses = {refused},
       .action = strike},
      {.name = "undo",
       .summary = "take back the last command",
       .about = "Strikes all facts that the last command added, an import included. Again: the one before it.",
       .words = {},
       .options = {note_option, dry_run_option},
       .formats = {"text", "json"},
       .examples = {{"undo --dry-run", "what would be taken back"}},
       .statuses = {{65, "there is nothing to take back"}},
       .action = undo},
      {.name = "history",
       .summary = "the book of one machine",
       .about = "All facts of a machine in order, with their ids. Struck facts are shown as struck, with the reason.",
       .words = {{"MACHINE"}},
       .options = {{"all", "", "list the strikes themselves too"}},
       .formats = {"text", "json", "csv"},
       .examples = {{"history tractor-big", "everything written down about it"},
                    {"history tractor-big --format csv", "the same for a spreadsheet"}},
       .statuses = {},
       .action = history},
      {.name = "import",
       .summary = "read facts from a CSV or JSON Lines file",
       .about = "Stores all rows of the file or none. Every bad row is listed. Rows that are already in the record "
                "are counted and left alone, so the same file twice changes nothing. `-` reads standard input.",
       .words = {{"FILE"}},
       .options = {dry_run_option},
       .formats = {"text", "json"},
       .examples = {},
       .statuses = {{65, "a row is wrong or cannot be true; nothing was stored"}},
       .action = import_facts},
      {.name = "export",
       .summary = "write the whole record as CSV or JSON Lines",
       .about = "Writes every fact with its id, struck ones too. Importing it into an empty record gives the same "
                "record. Of a damaged record nothing is written, unless --legible asks for what can still be read: "
                "that may lack facts.",
       .words = {},
       .options = {{"legible", "", "of a damaged record: what can still be read"}},
       .formats = {"csv", "jsonl", "json"},
       .examples = {{"export", "the whole book as CSV"}, {"export --format jsonl", "one JSON object a line"}},
       .statuses = {{65, "the record is damaged; with --legible, what could be read was written"}},
       .action = export_facts},
      {.name = "new",
       .summary = "start a fleet, or a record for one",
       .about = "In a new or empty folder: writes a commented starter fleet and an empty record. In a folder that has "
                "a fleet.yaml: only the record. Nothing that exists is changed.",
       .words = {{"DIR"}},
       .options = {},
       .formats = {"text", "json"},
       .examples = {},
       .statuses = {{65, "the folder already has a record, or holds other files and no fleet.yaml"}},
       .action = new_fleet,
       .about_a_fleet = false},
      {.name = "help",
       .summary = "what there is, or what a command takes",
       .about = "Lists the commands, or explains one.",
       .words = {{"COMMAND", false}},
       .options = {},
       .formats = {"text"},
       .examples = {{"help due", "the same as `whichever due --help`"}},
       .statuses = {},
       .action = help,
       .about_a_fleet = false},
  };
  return commands;
}

constexpr std::array<Option, 5> globals{{
    {"fleet", "DIR", "the folder with fleet.yaml and record.db"},
    {"as-of", "DAY", "the day to answer for; today unless told"},
    {"format", "FORMAT", "how to write the answer"},
    {"output", "FILE", "write the answer to this file"},
    {"color", "auto|always|never", "colours; auto unless told"},
}};

const std::array<ExitStatus, 8> shared{{
    {0, "fine"},
    {64, "the command line is wrong"},
    {65, "the record or a file of facts is wrong"},
    {66, "no such fleet, record or file"},
    {70, "a mistake in this program"},
    {74, "reading or writing failed, such as a full disk"},
    {75, "the record is in use by another program"},
    {78, "a fleet file is wrong"},
}};

}  // namespace

std::span<const Command> commands() { return table(); }
std::span<const Option> global_options() { return globals; }
std::span<const ExitStatus> shared_statuses() { return shared; }

const Command* find_command(std::string_view name) {
  const auto all = commands();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Command& command) { return command.name == name; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace cli
