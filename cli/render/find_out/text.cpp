#include <fmt/format.h>

#include <algorithm>

#include "render/find_out/find_out.h"
#include "render/find_out/words.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/label_words.h"
#include "render/shared/point_rows.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "service/minding.h"
#include "terminal/table.h"
#include "terminal/width.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::MachineQuestions;
using service::Question;

std::string head_of(const MachineQuestions& asked, const service::DueList& list) {
  std::string text = service::cleaned(asked.machine->key);
  if (!asked.machine->name.empty()) text += ", " + service::cleaned(asked.machine->name);
  if (const service::Site* site = list.fleet->site(asked.machine->site)) text += ", " + service::cleaned(site->name);
  return text;
}

// The file whose owner writes down when a machine came.
std::string_view listed_in(const service::Machine& machine) {
  return machine.place.file.ends_with("register.csv") ? "register.csv" : "the fleet file";
}

void add_machine(std::string& text, const MachineQuestions& asked, const service::DueList& list,
                 const MachineStates& states, const Look& look) {
  text += '\n' + heading(look, head_of(asked, list));
  if (const service::UseState* state = states.state_of(*asked.machine)) {
    text += wrapped("  ", words_of(*state), static_cast<std::size_t>(look.columns), 2);
  }
  if (const service::RunBan* ban = states.ban_of(*asked.machine)) {
    text += wrapped("  !! ", stop_words(*ban), static_cast<std::size_t>(look.columns), 5);
  }
  if (const std::string strange = look_first_words(asked); !strange.empty()) {
    text += wrapped("  !! ", strange, static_cast<std::size_t>(look.columns), 5);
  }
  if (!asked.machine->notes.empty()) {
    text += wrapped("  Notes: ", service::cleaned(asked.machine->notes), static_cast<std::size_t>(look.columns), 4);
  }
  std::size_t names = 0;
  std::size_t rooms = 0;
  for (const Question& question : asked.questions) {
    names = std::max(names, width(asked_for(question)));
    rooms = std::max(rooms, width(blanks(question)));
  }
  for (const Question& question : asked.questions) {
    const std::string line = fmt::format("  {}  {}", padded(asked_for(question), names), blanks(question));
    const std::string more = about(question);
    const bool beside = look.columns == 0 || width(line) + 2 + width(more) <= static_cast<std::size_t>(look.columns);
    if (more.empty()) {
      text += line + '\n';
    } else if (beside) {
      text += padded(line, names + rooms + 4) + "  " + more + '\n';
    } else {
      text += line + '\n' + wrapped("      ", more, static_cast<std::size_t>(look.columns), 6);
    }
  }
  if (asked.start_unknown) {
    text += wrapped("  ",
                    fmt::format("put in service new {}, or bought {} with {} on the meter? (goes into {})", blank_day,
                                blank_day, blank_value, listed_in(*asked.machine)),
                    static_cast<std::size_t>(look.columns), 2);
  }
}

// What no blank can fill.
std::vector<const service::Gap*> without_blanks(const service::DueList& list) {
  std::vector<const service::Gap*> gaps;
  for (const service::Gap& gap : list.gaps) {
    const bool asked = gap.kind == service::GapKind::nothing_recorded || gap.kind == service::GapKind::no_reading ||
                       gap.kind == service::GapKind::stale;
    if (!asked) gaps.push_back(&gap);
  }
  return gaps;
}

bool look_first(const MachineQuestions& told) { return !told.seen.empty() || !told.signs.empty(); }

// A machine about which nothing is asked may have something to be told all the same. Notes say anything: of machines
// that nobody asked for by name they are named alone.
void add_beside(std::string& text, const FindOutAnswer& answer, const MachineStates& states, const Look& look) {
  const service::DueList& list = answer.list;
  const bool by_name = list.scope.machines && list.scope.site.empty();
  std::vector<std::string> notes;
  for (const MachineQuestions& told : answer.beside) {
    if (look_first(told) || by_name) {
      add_machine(text, told, list, states, look);
    } else if (!told.machine->notes.empty()) {
      notes.push_back(service::cleaned(told.machine->key));
    }
  }
  if (notes.empty()) return;
  text += '\n' + wrapped("",
                         fmt::format("Notes of the owner, shown by {} find-out MACHINE: {}", look.command,
                                     fmt::join(notes, ", ")),
                         static_cast<std::size_t>(look.columns), 2);
}

std::string none(const FindOutAnswer& answer, const MachineStates& states, const Look& look) {
  const service::DueList& list = answer.list;
  const auto columns = static_cast<std::size_t>(look.columns);
  if (!list.gaps.empty()) return wrapped("", "No blanks to fill in; but not all is known.", columns, 0);
  const std::string whole =
      fmt::format("of {} every point has its record.", service::counted(list.machines, "machine", "machines"));
  const bool looked_at = std::none_of(answer.beside.begin(), answer.beside.end(), look_first);
  const bool safe = std::none_of(list.points.begin(), list.points.end(), service::is_late_for_safety);
  if (states.bans().empty() && looked_at && safe)
    return wrapped("", "Nothing is to be found out: " + whole, columns, 0);
  return wrapped("", "No blanks to fill in: " + whole + " But not all is well.", columns, 0);
}

}  // namespace

std::string find_out_as_text(const FindOutAnswer& answer, const Look& look) {
  const service::DueList& list = answer.list;
  const auto& all = answer.machines;
  std::string text =
      heading(look, fmt::format("{}, to find out, {}", whose_list(*list.fleet, list.scope), to_text(list.as_of)));
  const MachineStates states(list);
  text += stopped_first(states.bans(), look);
  if (all.empty()) {
    text += '\n' + none(answer, states, look);
    add_beside(text, answer, states, look);
    if (std::any_of(answer.beside.begin(), answer.beside.end(), look_first)) text += '\n' + all_steps(look);
    return text + not_known(without_blanks(list), look);
  }
  const auto columns = static_cast<std::size_t>(look.columns);
  if (!states.bans().empty()) text += '\n';
  text += wrapped("", "For a service a year is enough. A blank stays unknown.", columns, 0) + '\n' + all_steps(look);
  for (const MachineQuestions& asked : all) add_machine(text, asked, list, states, look);
  if (answer.left_off > 0) {
    text += fmt::format("\nAnd {} more, left off by --first.\n",
                        service::counted(static_cast<std::int64_t>(answer.left_off), "machine", "machines"));
  }
  add_beside(text, answer, states, look);
  std::vector<const service::Point*> points;
  for (const MachineQuestions& asked : all) {
    for (const Question& question : asked.questions) {
      if (question.point != nullptr) points.push_back(question.point);
    }
  }
  text += not_known(without_blanks(list), look) + what_to_mind(cautions_of(points), look);
  text += '\n' + wrapped("",
                         fmt::format("{} about {}. To type them in, take the same list with --format csv --output "
                                     "blanks.csv; fill in what is known; {} import blanks.csv",
                                     service::counted(static_cast<std::int64_t>(answer.questions()), "blank", "blanks"),
                                     service::counted(static_cast<std::int64_t>(all.size()), "machine", "machines"),
                                     look.command),
                         columns, 0);
  return text;
}

}  // namespace cli
