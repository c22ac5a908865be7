#include "command_table.h"

#include <algorithm>
#include <array>

#include "commands/commands.h"
#include "render/backup/backup.h"
#include "render/check/check.h"
#include "render/completion/completion.h"
#include "render/due/due.h"
#include "render/export/export.h"
#include "render/find_out/find_out.h"
#include "render/forecast/forecast.h"
#include "render/help/help.h"
#include "render/history/history.h"
#include "render/new/new.h"
#include "render/parts/parts.h"
#include "render/report/report.h"
#include "render/rounds/rounds.h"
#include "render/season/season.h"
#include "render/sheet/sheet.h"
#include "render/visits/visits.h"
#include "render/why/why.h"
#include "render/workload/workload.h"
#include "render/written/written.h"

namespace cli {
namespace {

constexpr Option machine_option{"machine", "MACHINE", "only this machine; may be given again", true};
constexpr Option site_option{"site", "SITE", "only machines of this site; adds to --machine"};
constexpr Word some_machines{"MACHINE", false, true};  // all where none is named
constexpr Option first_option{"first", "N", "only the first N of each standing or block"};
constexpr Option on_option{"on", "DAY", "the day it happened; today unless told"};
constexpr Option sure_option{"sure", "", "the value is right, though it is unlike this meter"};
constexpr Option dry_run_option{"dry-run", "", "show what would happen, store nothing"};
constexpr Option meter_option{"meter", "METER", "which meter; the machine's first unless told"};
constexpr Option by_option{"by", "WHO", "who did the work"};
constexpr Option note_option{"note", "TEXT", "a remark to keep with it"};

const ExitStatus refused{65, "the record already says something that cannot be true together with this"};

const std::vector<Command>& table() {
  static const std::vector<Command> commands{
      {.name = "due",
       .summary = "what is due now, and what comes next",
       .about =
           "Lists the service points that are overdue, due, coming or without a record, worst first. A point is "
           "due by hours or by months, whichever comes first. What is not known is said below the list. On a "
           "terminal each point has two bars on one scale: use above, time below; the stroke is where the "
           "interval ends. As a calendar (--format ics) what needs doing is an event of the day asked about, and all "
           "else of the day on which it comes due; make it anew each day, and a day that moved moves its event: under "
           "a "
           "higher number than the last, which .calendar beside the record remembers. With --as-of it is a look, and "
           "nothing is remembered: what an edited file or a backup put back moves may then keep its number, or have a "
           "lower one, so subscribe to none that is made so. "
           "The overdue list also names, under a heading of its own, what is due and forbids to run its machine.",
       .words = {some_machines},
       .options = {machine_option,
                   site_option,
                   {"within", "30d|6w|3m", "how far ahead `coming` looks; 30d unless told"},
                   {"all", "", "show later points too"},
                   {"overdue", "", "the overdue list: silent only when all is well"},
                   first_option,
                   {"exit-code", "", "status 1 when something needs doing"}},
       .formats = names_of(due_formats),
       .examples = {{"due", "the whole fleet"},
                    {"due combine --within 3m", "the combine, three months ahead"},
                    {"due --overdue", "what must not wait; silent when there is nothing"},
                    {"due --format ics --output due.ics", "a calendar, to subscribe to"}},
       .statuses =
           {{1,
             "with --exit-code: a point is due or worse or has no record, a machine is out of use, or something is "
             "not known"}},
       .action = due},
      {.name = "why",
       .summary = "the facts, the rule and the sums behind one standing",
       .about = "Reads back the rule of a task as it holds for this machine, the facts it stands on and the "
                "arithmetic of every limb, and says which limb rules. Without a position it shows all positions; "
                "without a task, the machine's worst point.",
       .words = {{"MACHINE"}, {"TASK[@POSITION]", false}},
       .options = {},
       .formats = names_of(why_formats),
       .examples = {{"why tractor-big engine-oil", "why the oil of the big tractor stands where it does"},
                    {"why combine", "what is worst of the combine, and why"},
                    {"why tractor-yard engine-oil/check-leaks", "a check that follows another task"}},
       .statuses = {},
       .action = why},
      {.name = "reading",
       .summary = "write down what a meter shows",
       .about = "Records a meter reading and says what it changed on the due list.",
       .words = {{"MACHINE"}, {"VALUE"}},
       .options = {meter_option, on_option, sure_option, dry_run_option},
       .formats = names_of(written_formats),
       .examples = {{"reading combine 2162.5 --on 2026-06-14 --dry-run", "the engine meter of the combine"},
                    {"reading combine 1580 --meter separator --dry-run", "its separator meter"}},
       .statuses = {refused},
       .action = reading},
      {.name = "done",
       .summary = "write down a service",
       .about = "Records that tasks were done, and prints what to write on the new element. A day may be known by "
                "month or year only: 2025-05 or 2025. --found is how it was found: the old part, or where nothing new "
                "goes in, the machine. A safety or statutory check that found it worn or failed counts as done, and "
                "stands on the due list until it is done again and found neither, or somebody has looked.",
       .words = {{"MACHINE"}, {"TASK[@POSITION]", true, true}},
       .options = {{"at", "VALUE", "what the meter showed"},
                   meter_option,
                   on_option,
                   {"found", "good|worn|failed", "how the old part was found; for a check: the machine"},
                   by_option,
                   note_option,
                   sure_option,
                   {"checked", "", "the checks afterwards were done as well"},
                   dry_run_option},
       .formats = names_of(written_formats),
       .examples = {{"done combine engine-oil --at 2162.5 --dry-run", "an oil change at this meter value"},
                    {"done combine engine-oil knife --on 2026-05 --dry-run", "two tasks, some day in May"}},
       .statuses = {refused},
       .action = done},
      {.name = "saw",
       .summary = "write down a sign or a measurement",
       .about = "Records what was noticed, in one or several words, or measured (NAME=VALUE). A task comes due on a "
                "sign that it lists; any other is kept as seen, and stands on the due list until somebody has looked. "
                "So is a measurement for which no task has a limit. A measurement is in the unit of its limit "
                "unless --unit says so.",
       .words = {{"MACHINE"}, {"SIGN|NAME=VALUE", true, true}},
       .options = {{"unit", "UNIT", "the unit of the measured value"},
                   {"position", "POSITION", "where it was measured; all: at each of them"},
                   {"new", "", "another name than the one that is near to it"},
                   on_option,
                   note_option,
                   dry_run_option},
       .formats = names_of(written_formats),
       .examples = {{"saw combine restriction=4.5 --dry-run", "a gauge value"},
                    {"saw combine brake-pull --dry-run", "a sign"},
                    {"saw combine strange knocking noise --dry-run", "what no task lists"}},
       .statuses = {refused},
       .action = saw},
      {.name = "looked",
       .summary = "write down what a sign was about",
       .about = "Records that somebody went and looked at what was seen. Found good (unless --found says worn or "
                "failed), it is answered; else it stays on the list with what was found, also where nobody had seen it "
                "before. A sign of a safety task needs --by and --found.",
       .words = {{"MACHINE"}, {"SIGN", true, true}},
       .options = {{"found", "good|worn|failed", "how it was found"},
                   by_option,
                   on_option,
                   {"note", "TEXT", "what it was; needed"},
                   dry_run_option},
       .formats = names_of(written_formats),
       .examples = {{"looked telehandler-store leak --by M.T. --found good --note dry --dry-run",
                     "the leak was nothing"}},
       .statuses = {refused},
       .action = looked},
      {.name = "meter-change",
       .summary = "write down that a meter was replaced",
       .about = "Records the last value of the old meter and the first of the new one. Use counts on through it.",
       .words = {{"MACHINE"}},
       .options = {{"last", "VALUE", "what the old meter showed"},
                   {"first", "VALUE", "what the new meter shows"},
                   meter_option,
                   on_option,
                   sure_option,
                   dry_run_option},
       .formats = names_of(written_formats),
       .examples = {{"meter-change combine --last 2170 --first 0 --dry-run", "a new engine meter"}},
       .statuses = {refused},
       .action = meter_change},
      {.name = "find-out",
       .summary = "what is not known, with blanks to fill in",
       .about = "Lists what nobody has written down, by machine, with blanks: to print and take round, or as CSV to "
                "fill in and import. A year is enough; a blank stays unknown. Of machines without blanks it tells what "
                "was seen of them, that nobody may run them and, asked by name, the notes of their owner.",
       .words = {some_machines},
       .options = {machine_option, site_option, first_option},
       .formats = names_of(find_out_formats),
       .examples = {{"find-out", "all that is not known"},
                    {"find-out generator-standby --format csv", "one machine, as rows for `import`"}},
       .statuses = {},
       .action = find_out},
      {.name = "forecast",
       .summary = "how use goes on, and when that makes things due",
       .about =
           "Use of every meter today and ahead, and the next due days, each at even odds with an 80 % span: in one "
           "case of ten it comes sooner than the span, in one of ten later. Learnt from each machine's own "
           "readings, from its kind where those are few, and from `expect:`; a young book is told with wide spans. A "
           "machine that nobody ever read is named, and nothing is said of it. --replay asks the past again and shows "
           "how often the span was "
           "right, beside two plain rules: the mean rate of the year before, and the same days of last year.",
       .words = {some_machines},
       .options = {machine_option,
                   site_option,
                   {"within", "30d|6w|3m", "how far ahead; 12m unless told"},
                   first_option,
                   {"replay", "", "was it right so far? by machine and kind"}},
       .formats = names_of(forecast_formats),
       .examples = {{"forecast", "every meter, a line each"},
                    {"forecast combine --within 6m", "one machine, its band and its next due days"},
                    {"forecast --replay", "how right the odds were so far"}},
       .statuses = {},
       .action = forecast},
      {.name = "season",
       .summary = "what to do before a season, and what to have ready for it",
       .about =
           "Of the machines that work in it: those whose `expect:` names the season, those that run in it at least "
           "half as much as in an even year, those of which nobody can tell. To do beforehand is what is due, what "
           "may well come due before it begins, what may come due in it and is helped by doing it early (done just "
           "before, the odds of that at least halve), and every safety or statutory task from 1 % on; each with "
           "the day to do it by (its early end), its odds and the share of its life that is given up. What comes "
           "due in the season all the same is to be had ready. The rest is named.",
       .words = {{"SEASON"}, some_machines},
       .options = {{"year", "YEAR", "the year of its first day; the next season unless told"},
                   {"odds", "PERCENT", "from which odds on it is listed, as 10%; 20% unless told"},
                   machine_option,
                   site_option,
                   first_option},
       .formats = names_of(season_formats),
       .examples = {{"season harvest", "before the next harvest"},
                    {"season pumping pump-north --odds 10%", "one machine, more careful"}},
       .statuses = {},
       .action = season},
      {.name = "workload",
       .summary = "hours of work, parts and money of the months ahead",
       .about = "All services to come, recurrences included: each point is taken to be done on the day it comes due. "
                "Labour is the time a task takes times the people it needs. Shown is the mean, and the span that "
                "eight cases of ten stay within, over 200 ways in which use may go on. Weeks and months add up to the "
                "same.",
       .words = {some_machines},
       .options = {{"within", "30d|6w|3m", "how far ahead; 12m unless told"},
                   {"by", "week|month", "the rows; month unless told"},
                   machine_option,
                   site_option,
                   first_option},
       .formats = names_of(workload_formats),
       .examples = {{"workload", "twelve months, by month"},
                    {"workload --within 8w --by week --site wullamere", "one site, by week"}},
       .statuses = {},
       .action = workload},
      {.name = "parts",
       .summary = "parts and fluids to have, and by when to order",
       .about = "What services likely to come due use, against what is in stock: the newest `count` less what was used "
                "since, else `stock:` of the fleet file. Short parts come first, with the day to order by: the early "
                "end of the span in which the first one is missed, less its lead time. Then a shopping list by "
                "supplier, in whole packs. With --before it is the work that `season` lists, to do beforehand and to "
                "have ready, with the same days to order, and what other work takes before the season begins. Stock is "
                "shared out over the whole fleet: some machines "
                "choose what is listed, "
                "and the figures stay the fleet's.",
       .words = {some_machines},
       .options = {{"within", "30d|6w|3m", "how far ahead; 3m unless told"},
                   {"before", "SEASON", "what the work before this season takes"},
                   machine_option,
                   site_option,
                   first_option},
       .formats = names_of(parts_formats),
       .examples = {{"parts", "the next three months"},
                    {"parts --before harvest", "for the work before harvest"},
                    {"parts --within 6m --format md", "a shopping list to send"}},
       .statuses = {},
       .action = parts},
      {.name = "visits",
       .summary = "when to go to which site, and what to take along",
       .about =
           "Bundles what comes due in the weeks ahead into visits: each task is done once, on the day that costs "
           "least. A visit costs the way there and back with set-up; a task done early gives up life, and one that is "
           "late loses what waiting loses, both over the days in which it may come due. Each task says why it has its "
           "day, and the head what it would cost to do each on its own day. Work for safety, and for a competent "
           "person, is never put later than the first day on which somebody can do it. Needs `crews` and `costs` in "
           "fleet.yaml. A trip is to a site, with all its work: machines, and a site, choose which visits are told. "
           "Each visit is reckoned as a trip of its own; `rounds` plans a week with times, of what is due in it and "
           "what may join.",
       .words = {some_machines},
       .options = {{"within", "30d|6w|3m", "how far ahead; 12w unless told"},
                   {"without", "CREW", "this crew does not go; may be given again", true},
                   {"machine", "MACHINE", "only visits to this machine; may be given again", true},
                   {"site", "SITE", "only visits to this site; adds to --machine"},
                   {"first", "N", "only the first N visits, and of each other block"},
                   {"exit-code", "", "status 1 when something has no day or is not known"}},
       .formats = names_of(visits_formats),
       .examples = {{"visits", "twelve weeks, all sites"},
                    {"visits --site quernholt --within 6m", "one site, half a year"},
                    {"visits combine", "when somebody comes to the combine"},
                    {"visits --first 5 --without contractor", "the next five, without one crew"}},
       .statuses = {{1,
                     "with --exit-code: something is not possible, not planned, without record, not known or not "
                     "looked at, or a machine is out of use"},
                    {65, "no crew works in that time"}},
       .action = visits},
      {.name = "rounds",
       .summary = "a week for the crews: who goes where when, with which parts",
       .about =
           "Plans the week of all crews: what is due by their last day and all calls, as visits within opening hours, "
           "qualifications and working hours, at the least cost: travel, waiting, life given up, and what is left for "
           "later. What is not done this week says why. Work for safety is left out only where nothing else is "
           "possible. The answer says what no plan can undercut, and whether it is proven to be the best; Ctrl-C takes "
           "the best so far, a second one ends it. Text is a page a crew and day, to be read out before it sets out. "
           "With --keep a plan of before is made anew: rounds of days before --from are done, stops with `promised: "
           "true` stay, and who is to be rung up is said; as a calendar its events are above those of that plan, and "
           "what is no more in it comes as cancelled, once. With --check a plan is judged by the same rules, fault by "
           "fault, and not changed. One that was changed by hand is judged most easily with times and money left out: "
           "only `crew` and `on` of each round, the `visit` of each stop and the `visit` of what is put off are "
           "needed.",
       .words = {},
       .options = {{"from", "DAY", "the first day of the week; usually a Monday"},
                   {"days", "N", "how many days; 7 unless told"},
                   {"within", "30d|6w|3m", "what comes due so soon after may join a visit"},
                   {"without", "CREW", "this crew does not go; may be given again", true},
                   {"keep", "PLAN", "plan anew from this plan, as JSON"},
                   {"check", "PLAN", "judge this plan, as JSON"},
                   {"time", "10s|2min", "plan for so long at most"},
                   {"site", "SITE", "only what is of this site; the plan is of all"},
                   {"first", "N", "only the first N of what is not done this week"},
                   {"exit-code", "", "status 1 when something is not placed or not known"}},
       .formats = names_of(rounds_formats),
       .examples = {{"rounds --from 2026-06-22", "the week that begins on this Monday"},
                    {"rounds --from 2026-06-22 --format json --output week.json", "to keep, or to judge"},
                    {"rounds --from 2026-06-22 --without contractor", "without one crew"},
                    {"rounds --from 2026-06-22 --site quernholt", "one customer's part"},
                    {"rounds --from 2026-06-22 --format ics --output week.ics", "for the crews' calendars"}},
       .statuses =
           {{1,
             "with --exit-code: something is not this week, not planned, without record, not known or not looked at, "
             "or a machine is out of use; with --check: the plan has a fault"},
            {65, "no crew works in that week, or the plan cannot be read"}},
       .action = rounds},
      {.name = "sheet",
       .summary = "the job sheet to take to the machine",
       .about =
           "Of each machine that has work: what to mind before it is touched, what is overdue and due, with steps, "
           "tools, parts and boxes to tick, in the order in which it is best done; the checks afterwards, what to "
           "write on a new element, and blanks to fill in. Named machines get a sheet in any case. What is put off is "
           "named, and not among the work. With --readings: all meters, what they showed last, and room to write. "
           "Print --format html: each machine stands on paper of its own.",
       .words = {some_machines},
       .options = {{"within", "30d|6w|3m", "also what comes due by then; today alone unless told"},
                   {"readings", "", "the meters to read on a walk round"},
                   machine_option,
                   site_option,
                   {"exit-code", "", "status 1 when something needs doing"}},
       .formats = names_of(sheet_formats),
       .examples = {{"sheet combine", "for one machine"},
                    {"sheet --site quernholt --format html --output sheets.html", "to print for a visit"},
                    {"sheet --readings --site wullamere", "what to read there"}},
       .statuses = {{1,
                     "with --exit-code: a point is due or worse or has no record, a machine is out of use, or "
                     "something is not known"}},
       .action = sheet},
      {.name = "mail",
       .summary = "the overdue list as a message, for cron",
       .about =
           "Writes the overdue list as a message to those whom `mail:` in fleet.yaml names; nothing at all when all is "
           "well and all is known. Once a week (monday, unless `weekly-word:` names another day, or off) a word comes "
           "in any case, because a dead machine is silent too: what is due and next, how old readings and backup are. "
           "With --mailer it is owed until it was handed over: where that failed, or nothing ran on that day, it comes "
           "with the next run. "
           "A fleet or a record that cannot be read is mailed as such, and gives the exit status that it always gives. "
           "--mailer runs a program, without a shell, and gives it the message; after 10 minutes it is stopped. With "
           "--changed, on other days, only "
           "what is new or worse since the last message that was handed over: what was not there, what stands "
           "under another heading, what is over by twice as much, a sign that was seen again; each says how many are "
           "still overdue and not to be run, and of what is worse how it stood when it was last said. What a full "
           "message "
           "told is remembered as well. After a message that there is no list the next one holds all of it, or says "
           "that nothing is overdue; .no-list beside the record remembers that. Without --mailer it shows what would "
           "be sent, and nothing is remembered. "
           "--site makes it a message about one site, with a memory of its own: what it told, one about the fleet "
           "tells "
           "all the same, and the other way round.",
       .words = {},
       .options = {{"site", "SITE", "only machines of this site; to the same people"},
                   {"mailer", "CMD", "the mailer, by its full path: \"/usr/sbin/sendmail -t -i\""},
                   {"changed", "", "only what is new or worse; alone, to look"},
                   {"exit-code", "", "status 1 when something needs doing"}},
       .formats = {},
       .examples = {{"mail", "what would be sent today"},
                    {"mail --output message.eml", "the same as a file, to look at in a mail program"},
                    {"mail --changed", "what would be new or worse; nothing is remembered"},
                    {"mail --site quernholt", "of one site"}},
       .statuses = {{1, "with --exit-code: something needs doing, as with `due`"},
                    {66, "there is no record: mailed as such"},
                    {74,
                     "the mailer failed: its own number is said, and the next message holds the same; or the record or "
                     "a fleet file may not be read: mailed as such; or the message was handed over and .mailed, which "
                     "remembers it, could not be written: the next message repeats it"},
                    {78, "a fleet file is wrong: mailed as far as it says to whom; or it says to nobody"}},
       .action = mail},
      {.name = "report",
       .summary = "all of it on one page, to read and to send",
       .about =
           "One file of HTML that needs no network: what must not wait, what is due and coming, the season under way "
           "or that begins next, hours of work ahead, parts to order, and each machine with what is due on it, its "
           "use so far and ahead, and its book. For a screen, a telephone and paper. On a terminal a digest is "
           "written instead, unless --format says otherwise; --output FILE writes the page. With --format json the "
           "answers of due, season, workload, parts, forecast and history in one object.",
       .words = {some_machines},
       .options = {{"season", "SEASON", "another season than the one at hand"},
                   machine_option,
                   site_option,
                   {"exit-code", "", "status 1 when something needs doing"}},
       .formats = names_of(report_formats),
       .examples = {{"report --output report.html", "the page of the whole fleet"},
                    {"report --site wullamere --output wullamere.html", "for the customer of one site"},
                    {"report --season pumping --format text", "what it would hold, with another season"}},
       .statuses = {{1,
                     "with --exit-code: a point is due or worse or has no record, a machine is out of use, or "
                     "something is not known"}},
       .action = report},
      {.name = "put-off",
       .summary = "write down that a task is to wait, until when and why",
       .about =
           "A decision to wait: until a day (or so far ahead: +14d, +2w, +3m), so much more use (+50h, counted from "
           "the last known use), what the meter will show (2200h), or the first of a day and a use. The point keeps "
           "its standing and comes under a heading of its own on the overdue list. A safety task cannot be put off. "
           "Doing the task ends "
           "the delay.",
       .words = {{"MACHINE"}, {"TASK[@POSITION]", true, true}},
       .options = {{"until", "DAY|+14d|+50h|2200h", "until when; may be a day and a use", true},
                   {"by", "WHO", "who decided; you, unless told"},
                   {"note", "TEXT", "the reason"},
                   on_option,
                   dry_run_option},
       .formats = names_of(written_formats),
       .examples = {{"put-off combine engine-oil --until 2026-09-20 --note \"after harvest\" --dry-run", "until a day"},
                    {"put-off combine engine-oil --until +50h --until 2026-09-20 --dry-run", "whichever comes first"}},
       .statuses = {refused},
       .action = put_off},
      {.name = "lay-up",
       .summary = "write down that a machine stands unused",
       .about = "From that day its meters need no reading and nothing of it is mailed as overdue; what is overdue "
                "stands under a heading of its own, to be done before it goes back to work. Its calendar keeps "
                "running.",
       .words = {{"MACHINE"}},
       .options =
           {on_option, {"until", "DAY|+14d", "the day it is planned to work again"}, note_option, dry_run_option},
       .formats = names_of(written_formats),
       .examples = {{"lay-up tractor-drill --until 2026-09-01 --dry-run", "until it is needed again"}},
       .statuses = {refused},
       .action = lay_up},
      {.name = "out-of-use",
       .summary = "write down that a machine is unsafe and must not run",
       .about = "It is shown first wherever it appears, until somebody records that it is back.",
       .words = {{"MACHINE"}},
       .options = {on_option, {"note", "TEXT", "what is wrong with it"}, dry_run_option},
       .formats = names_of(written_formats),
       .examples = {{"out-of-use tractor-loader --note \"brakes pull to one side\" --dry-run", "until it is mended"}},
       .statuses = {refused},
       .action = out_of_use},
      {.name = "back",
       .summary = "write down that a machine is in use again",
       .about = "Ends a lay-up, and being out of use.",
       .words = {{"MACHINE"}},
       .options = {on_option, note_option, dry_run_option},
       .formats = names_of(written_formats),
       .examples = {},
       .statuses = {refused},
       .action = back},
      {.name = "count",
       .summary = "write down how many of a part are in stock",
       .about = "A count of what lies on the shelf, in the unit in which the part is listed in fleet.yaml.",
       .words = {{"PART"}, {"NUMBER"}},
       .options = {on_option, dry_run_option},
       .formats = names_of(written_formats),
       .examples = {},
       .statuses = {refused},
       .action = count},
      {.name = "strike",
       .summary = "void a wrong fact; it stays legible",
       .about = "Takes one fact out of all answers. Nothing is deleted: `history` shows it as struck, with the "
                "reason. `history` and `why` show the ids; the short form will do where it names one fact.",
       .words = {{"ID"}},
       .options = {note_option, dry_run_option},
       .formats = names_of(written_formats),
       .examples = {},
       .statuses = {refused},
       .action = strike},
      {.name = "undo",
       .summary = "take back the last command",
       .about = "Strikes all facts that your last command added. Again: the one before it. What somebody else entered, "
                "what is older than a day and a file of many facts are taken back only by the id of their command.",
       .words = {{"ID", false}},
       .options = {note_option, dry_run_option},
       .formats = names_of(written_formats),
       .examples = {{"undo --dry-run", "what would be taken back"}},
       .statuses = {{65, "there is nothing to take back, or the command must be named"}},
       .action = undo},
      {.name = "history",
       .summary = "the book of one machine",
       .about = "All facts of a machine in order, with their ids. Struck facts are shown as struck, with the reason.",
       .words = {{"MACHINE"}},
       .options = {{"all", "", "list the strikes themselves too"}, first_option},
       .formats = names_of(history_formats),
       .examples = {{"history tractor-big", "everything written down about it"},
                    {"history tractor-big --format csv", "the same for a spreadsheet"}},
       .statuses = {},
       .action = history},
      {.name = "import",
       .summary = "read facts from a file, or from pasted messages",
       .about =
           "Stores all rows of the file or none. Every bad row is listed. Rows that are already in the record "
           "are counted and left alone, so the same file twice changes nothing. `-` reads standard input. The first "
           "line of CSV names its columns, in any order, those not needed left out: kind, machine, on, at, "
           "meter, task, position, name, value, unit, last, first, until, part, found, by, note. The kinds are "
           "reading, service, sign, looked-at, measurement, meter-change, put-off, laid-up, out-of-use, back, count, "
           "strike. CSV may be as spreadsheets save it: semicolons or tabs, UTF-16, decimal commas, days as "
           "13/02/2025. Where "
           "the whole file leaves open what 1.250 or 03/04/2025 means, it is refused until you say. With --messages "
           "the "
           "file is text that people sent from a machine and somebody pasted in, a line each in the words of the "
           "commands: `loader 1511.4`, `done loader engine-oil 1511.4 by M.T.`, `done loader tyre@front-left`, `saw "
           "loader "
           "leak`, `looked loader leak by M.T. found good` (or `found worn: what it was`, `found failed`), `out-of-use "
           "loader`. Lines are taken in the order of the stamps that messengers put before them. Those that are "
           "certain "
           "are stored; each of the others says what it would need to hear, and nothing of it is stored. What takes "
           "something off a list is stored only where no other line may say otherwise: all lines of its sender are "
           "taken, none of anybody that is not taken may speak of it, and none says of its machine something in "
           "other words, or a sign later.",
       .words = {{"FILE"}},
       .options = {{"messages", "", "lines that people sent, as `loader 1511.4`"},
                   {"on", "DAY", "of messages: the day of lines of which no stamp says any"},
                   {"by", "WHO", "of messages: who did what is done"},
                   {"history", "", "of long ago: only safety tasks owe their checks"},
                   {"skip-bad", "", "store the good rows, write the bad ones to a file"},
                   {"rejects", "FILE", "that file; beside the first, unless told"},
                   {"decimal", "point|comma", "how the file writes decimals"},
                   {"dates", "day-first|month-first", "how the file writes days"},
                   dry_run_option},
       .formats = names_of(written_formats),
       .examples = {{"import facts.csv --dry-run", "how it is read, and what it would change"},
                    {"import --messages messages.txt --dry-run", "what would be taken of messages"}},
       .statuses = {{65,
                     "a row is wrong or cannot be true, nothing was stored; with --messages: a line was not taken"}},
       .action = import_facts},
      {.name = "export",
       .summary = "write the whole record as CSV or JSON Lines",
       .about = "Writes every fact with its id, struck ones too. Importing it into an empty record gives the same "
                "record. Of a damaged record nothing is written, unless --legible asks for what can still be read: "
                "that may lack facts.",
       .words = {},
       .options = {{"legible", "", "of a damaged record: what can still be read"}},
       .formats = names_of(export_formats),
       .examples = {{"export", "the whole book as CSV"}, {"export --format jsonl", "one JSON object a line"}},
       .statuses = {{65, "the record is damaged; with --legible, what could be read was written"}},
       .action = export_facts},
      {.name = "merge",
       .summary = "take in the facts of another copy of the record",
       .about =
           "Two copies of a record (the van's, the office's) become one: whatever either holds, once, in any order "
           "and any number of times, strikes too. FILE is the other record, or what `export` wrote of it. "
           "Services written down in both are kept and told; readings that contradict each other put the meter "
           "in doubt until one is struck.",
       .words = {{"FILE"}},
       .options = {dry_run_option},
       .formats = names_of(written_formats),
       .examples = {},
       .statuses = {{65, "the other file is damaged, or belongs to another fleet; nothing was stored"}},
       .action = merge},
      {.name = "backup",
       .summary = "copy the record to a file, and read the copy back",
       .about = "Makes one consistent copy while others may be writing. When the command has ended well, the copy is "
                "on the disk and every fact in it was read; else there is no such file. Never over another file.",
       .words = {{"FILE"}},
       .options = {},
       .formats = names_of(backup_formats),
       .examples = {},
       .statuses = {{65, "the file exists already, or the record is damaged"}},
       .action = backup},
      {.name = "check",
       .summary = "look through fleet files and record for what is wrong",
       .about = "Reads all fleet files and the whole record, with the checksum of every fact, and tells all that is "
                "wrong or odd in one run, each with its place and its cure: mistakes, damage, facts about machines "
                "or tasks that the fleet does not list, readings that contradict each other or look mistyped, "
                "services written down twice, parts that nothing uses.",
       .words = {},
       .options = {{"strict", "", "odd intervals too; and remarks count as errors"},
                   {"exit-code", "", "status 1 when there is a remark"}},
       .formats = names_of(check_formats),
       .examples = {{"check", "all of it"}},
       .statuses = {{1, "with --exit-code: there are remarks, and no errors"},
                    {65, "something in the record is wrong; with --strict, something is odd"}},
       .action = check},
      {.name = "new",
       .summary = "start a fleet, or a record for one",
       .about = "In a new or empty folder: writes a commented starter fleet and an empty record. In a folder that has "
                "a fleet.yaml: only the record. Nothing that exists is changed. With --from: a fleet out of a "
                "spreadsheet of "
                "machines, saved as CSV, with what their meters show. Its columns are told with --columns "
                "\"Maschine=name, Stunden=at\" or guessed from the header, and shown: machine, name, schedule, site, "
                "serial, in-service, in-service-at, bought, bought-at, at (a reading), on (its day), per-year, notes; "
                "others are left alone. What is unclear is asked back, and nothing is written.",
       .words = {{"DIR"}},
       .options = {{"from", "FILE", "make it out of this list of machines"},
                   {"columns", "HEADING=COLUMN,...", "what its columns hold; else guessed", true},
                   {"schedule", "NAME", "the schedule of machines that name none"},
                   {"on", "DAY", "the day of readings that have none; today unless told"},
                   {"decimal", "point|comma", "how the file writes decimals"},
                   {"dates", "day-first|month-first", "how the file writes days"},
                   {"skip-bad", "", "leave out what is unclear, and say so"},
                   dry_run_option},
       .formats = names_of(new_formats),
       .examples = {},
       .statuses = {{65,
                     "the folder already has a record, or holds other files and no fleet.yaml; with --from: the file "
                     "is unclear, or there is a fleet.yaml already"}},
       .action = new_fleet,
       .about_a_fleet = false},
      {.name = "completion",
       .summary = "let your shell complete commands, machines and tasks",
       .about = "Prints a script for your shell. In bash: source <(whichever completion bash). The script asks the "
                "program, so that machines and tasks are those of the fleet you are in.",
       .words = {{"bash|zsh|fish"}},
       .options = {},
       .formats = names_of(completion_formats),
       .examples = {{"completion bash", "the script for bash"}},
       .statuses = {},
       .action = completion,
       .about_a_fleet = false},
      {.name = "complete",
       .summary = "what can stand next on a command line",
       .about = "Asked by the scripts of `completion`: the words typed so far, the last one unfinished.",
       .words = {{"WORD", false, true}},
       .options = {},
       .formats = names_of(complete_formats),
       .examples = {},
       .statuses = {},
       .action = complete,
       .about_a_fleet = false,
       .hidden = true},
      {.name = "help",
       .summary = "what there is, or what a command takes",
       .about = "Lists the commands, or explains one. With --format man, all of it as a manual page.",
       .words = {{"COMMAND", false}},
       .options = {},
       .formats = names_of(help_formats),
       .examples = {{"help due", "the same as `whichever due --help`"},
                    {"help --format man", "the manual page, for `man -l -`"}},
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

bool takes(const Command& command, const Option& global) {
  if (global.name == "fleet" || global.name == "as-of") return command.about_a_fleet;
  return global.name != "format" || !command.formats.empty();
}

std::span<const ExitStatus> shared_statuses() { return shared; }

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const Command& command : commands()) {
    if (!command.hidden) names.emplace_back(command.name);
  }
  return names;
}

const Command* find_command(std::string_view name) {
  const auto all = commands();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Command& command) { return command.name == name; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace cli
