// What a job sheet says of running the machine: why nobody may, what each task says of it, what is locked off and how
// long, and what goes back on behind the work.
#include <fmt/format.h>

#include <algorithm>

#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"
#include "render/sheet/wait_words.h"
#include "render/sheet/words.h"
#include "service/run_ban.h"

namespace cli {
namespace {

using service::cleaned;
using service::MachineSheet;
using service::Point;
using service::SheetTask;

// `hoses is mended`, `hoses and fork@left are both mended`.
std::string mended_words(const MachineSheet& sheet) {
  const std::vector<std::string> names = sheet.to_mend_names();
  if (names.size() < 2) return listed(names, "and") + " is mended";
  return fmt::format("{} are {}mended", listed(names, "and"), names.size() > 2 ? "all " : "both ");
}

// Of a page, or of later work: `automatic start`, `the power`, or both.
template <class Locked>
std::string locked_words(const Locked& on) {
  if (on.locked_off && on.power_off) return "automatic start and the power";
  return on.locked_off ? "automatic start" : "the power";
}

template <class Locked>
std::string power_words(const Locked& on) {
  return on.power_off ? "; the power is on only for steps that run it." : ".";
}

std::string with_capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

// `brakes, 18 days over 12 months, 12.6 h over 500 h`: each limb that is overdue.
std::string overdue_words(const Point& point) {
  std::string text = task_of(point);
  for (const service::LimbStanding& limb : point.limbs) {
    if (limb.state == service::LimbState::overdue) text += ", " + words_of(limb, point, false);
  }
  return text;
}

}  // namespace

std::vector<std::string> stop_lines(const MachineSheet& sheet) {
  std::vector<std::string> lines;
  if (sheet.out_of_use()) lines.push_back("Do not run: " + words_of(*sheet.state));
  if (sheet.laid_up()) lines.push_back("Not before it is back: " + words_of(*sheet.state));
  std::vector<std::string> unsafe;
  std::vector<std::string> past_limit;
  for (const Point* point : sheet.forbidden_by) {
    for (const service::LimbStanding* limb : service::forbidding_limbs(*point)) {
      const bool sign = limb->kind == service::LimbKind::sign;
      (sign ? unsafe : past_limit).push_back(fmt::format("{}, {}", task_of(*point), words_of(*limb, *point)));
    }
  }
  for (const service::SeenSign* seen : sheet.forbidden_by_seen) unsafe.push_back(seen_words(*seen));
  if (!unsafe.empty()) lines.push_back("Do not run it before this is mended: " + joined(unsafe, "; "));
  if (!past_limit.empty()) {
    lines.push_back(fmt::format("At or past its limit, for safety: {}; not to be used before it is put right",
                                joined(past_limit, "; ")));
  }
  std::vector<std::string> overdue;
  std::vector<std::string> examinations;
  for (const Point* point : sheet.overdue_safety) {
    (by_competent_person(*point) ? examinations : overdue).push_back(overdue_words(*point));
  }
  if (!overdue.empty()) lines.push_back("Overdue, for safety: " + joined(overdue, "; "));
  if (!examinations.empty()) {
    lines.push_back(fmt::format("Examination overdue: {}; ask before it works", joined(examinations, "; ")));
  }
  if (std::string strange = look_first_words(sheet.seen); !strange.empty()) lines.push_back(std::move(strange));
  std::vector<std::string> unknown;
  for (const Point* point : sheet.look_first()) unknown.push_back(task_of(*point));
  if (!unknown.empty()) {
    lines.push_back(fmt::format("Not known, for safety: {} (no record); look at {} before it works",
                                joined(unknown, ", "), unknown.size() == 1 ? "it" : "them"));
  }
  return lines;
}

std::vector<std::string> stands_words(const service::RoundMachine& machine) {
  std::vector<std::string> lines;
  if (machine.ban && !machine.ban->out_of_use()) lines.push_back(state_in_row(nullptr, &*machine.ban, nullptr));
  if (machine.state != nullptr) lines.push_back(words_of(*machine.state));
  if (std::string strange = look_first_words(machine.seen); !strange.empty()) lines.push_back(std::move(strange));
  return lines;
}

std::string tasks_heading(const MachineSheet& sheet) {
  if (!sheet.laid_up()) return "To do";
  return fmt::format("Laid up{}: do not run. Before it goes back to work:",
                     sheet.state->until ? " until " + to_text(*sheet.state->until) : "");
}

namespace {

std::string until_then(const MachineSheet& sheet) {
  if (sheet.out_of_use()) return "Out of use until somebody says that it is safe";
  return fmt::format("{} before {}", sheet.laid_up() ? "Laid up, and not to be run" : "Not to be run",
                     mended_words(sheet));
}

}  // namespace

std::string gate_words(service::RunRule rule, const MachineSheet& sheet) {
  switch (rule) {
    case service::RunRule::once_mended:
      return fmt::format("Run it only for these steps, once {}, and with everybody clear.", mended_words(sheet));
    case service::RunRule::after_mending:
      return fmt::format("Run or drive it only once {}; else leave out the steps that do.", mended_words(sheet));
    case service::RunRule::not_at_all:
      if (sheet.laid_up())
        return fmt::format(
            "Laid up, and not to be run before {}: leave the steps that run or drive it for the day it "
            "goes back, mended.",
            mended_words(sheet));
      return until_then(sheet) + ": leave out the steps that run or drive it until then.";
    case service::RunRule::at_rest:
      return until_then(sheet) + ": it is not run or driven for this.";
    case service::RunRule::once_put_back:
      return "Laid up: do the steps that run it only after what the lay-up took off is put back; else leave them for "
             "the day it goes back.";
    case service::RunRule::free:
      break;
  }
  return "";
}

std::string cold_words(const SheetTask& task) {
  return task.cold_again ? "Only with it cold: where anything before this ran it, let it go quite cold first." : "";
}

std::string lock_words(const MachineSheet& sheet) {
  if (!sheet.locked_off && !sheet.power_off) return "";
  const bool both = sheet.locked_off && sheet.power_off;
  const std::string stays =
      fmt::format("{} {} locked off and tagged", with_capital(locked_words(sheet)), both ? "stay" : "stays");
  if (sheet.stays_locked()) {
    return stays + " until the machine is back: leave out whatever step would put " + (both ? "them" : "it") +
           " back on for good.";
  }
  if (sheet.tasks.empty() || sheet.tasks.front().is_later()) return "";
  return stays +
         (sheet.later_work.empty() ? ", from the first task to the last"
                                   : ", from the first task of this day to its last") +
         power_words(sheet);
}

const service::SheetLater* later_from(const SheetTask& task, const MachineSheet& sheet) {
  if (!task.is_later()) return nullptr;
  const auto first = std::find_if(sheet.later_work.begin(), sheet.later_work.end(),
                                  [&](const auto& later) { return later.wait.point == task.waits.front().point; });
  return first == sheet.later_work.end() ? nullptr : &*first;
}

std::string later_lock_words(const service::SheetLater& later, const MachineSheet& sheet) {
  std::string text = fmt::format("From {}, not before:", end_words(later.wait));
  if ((!later.locked_off && !later.power_off) || sheet.stays_locked()) return text;
  return fmt::format("{} for this {} locked off and tagged anew, from its first task to its last{}", text,
                     locked_words(later) + (later.locked_off && later.power_off ? " are" : " is"), power_words(later));
}

namespace {

// `on` says what is locked off.
template <class Locked>
std::vector<std::string> words_of(const std::vector<service::SheetAfter>& afterwards, const Locked& on,
                                  const MachineSheet& sheet) {
  std::vector<std::string> lines;
  for (const service::SheetAfter& after : afterwards) {
    const std::string once = after.once_mended ? ", once " + mended_words(sheet) : "";
    switch (after.kind) {
      case service::AfterKind::tools_out:
        lines.emplace_back("Tools out");
        break;
      case service::AfterKind::guards_on:
        lines.emplace_back("Guards on");
        break;
      case service::AfterKind::everybody_clear:
        lines.push_back(sheet.stays_locked() ? "Everybody clear" : "Everybody clear before it starts" + once);
        break;
      case service::AfterKind::check:
        lines.push_back(fmt::format("{}{}: {}",
                                    after.once_back     ? "After it is back: "
                                    : after.once_mended ? fmt::format("Once {}: ", mended_words(sheet))
                                                        : "",
                                    check_name(*sheet.machine, after.check), cleaned(after.check.check->doing)));
        break;
      case service::AfterKind::power_back:
        lines.push_back("Lock and tag off the power, by whoever put them on" + once);
        break;
      case service::AfterKind::automatic_start_back:
        lines.push_back(
            fmt::format("Automatic start back on, last{}, with all above ticked and everybody clear", once));
        break;
      case service::AfterKind::stays_locked:
        lines.push_back(fmt::format("{} {} locked off and tagged, and so left until the machine is back",
                                    with_capital(locked_words(on)), on.locked_off && on.power_off ? "are" : "is"));
        break;
    }
  }
  return lines;
}

}  // namespace

std::vector<Remark> afterwards_of(const MachineSheet& sheet) {
  std::vector<Remark> all{{"Afterwards", words_of(sheet.afterwards, sheet, sheet)}};
  for (const service::SheetLater& later : sheet.later_work) {
    all.push_back({fmt::format("Afterwards, of {} from {}", cleaned(joined(later.tasks, ", ")), end_words(later.wait)),
                   words_of(later.afterwards, later, sheet)});
  }
  return all;
}

}  // namespace cli
