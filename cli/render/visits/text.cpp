// The weeks ahead for people: visit by visit, with what to do there and why on that day; behind them what has no day,
// and what is not known.
#include <fmt/format.h>

#include "render/overdue/words.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/mend_words.h"
#include "render/shared/point_rows.h"
#include "render/shared/resources_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/stopped_first.h"
#include "render/shared/trip_words.h"
#include "render/shared/words.h"
#include "render/visits/visits.h"
#include "render/visits/words.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::cleaned;
using service::VisitsPlan;

class Writer {
 public:
  Writer(const VisitsList& list, const Look& look)
      : list_(list), plan_(list.plan), look_(look), columns_(columns_of(look)) {}

  void head() {
    text_ += heading(look_, fmt::format("{}, {}: visits until {}", whose_list(list_.fleet(), list_.asked->scope),
                                        to_text(plan_.as_of), to_text(plan_.to)));
    const std::string stopped = stopped_first(list_.not_to_run.bans(), look_);
    text_ += stopped.empty() ? stopped : stopped + '\n';
    if (list_.told == 0) {
      line("", nothing_words());
      return;
    }
    line("", counts_of(list_));
    line("", told_words(list_));
    line("", cost_words(list_));
    line("", own_days_words(list_));
    line("", bound_words(list_));
    line("", lacking_words(list_.loads));
    text_ += '\n';
    line("", fmt::format("Each visit is reckoned as a trip of its own. Rounds with times are planned week by week, of "
                         "what is due in it and what may join: {}",
                         rounds_command(list_, look_.command)));
    crowded();
    text_ += '\n' + steps_before(look_);
  }

  void visits() {
    for (const SiteVisit& visit : plan_.visits) one(visit);
    if (!plan_.visits.empty()) text_ += what_to_mind(cautions_of(list_), look_) + '\n' + afterwards("", columns_);
  }

  void behind() {
    calls();
    not_possible();
    not_planned();
    points("No record: somebody must look, for nobody knows whether it is due", plan_.no_record);
    points("Not due by what is known, but not all of it is known", plan_.unknown);
    seen();
    to_mend();
    text_ += not_known(list_.asked->gaps, {}, look_);
    std::vector<std::string> remarks = without_figures(plan_.no_time, plan_.no_price);
    if (list_.carried) remarks.insert(remarks.begin(), std::string(carried_words));
    if (std::string again = again_words(list_); !again.empty()) remarks.insert(remarks.begin(), std::move(again));
    if (!remarks.empty()) text_ += '\n';
    for (const std::string& remark : remarks) line("", remark + ".");
    if (list_.left_off > 0) text_ += fmt::format("\nAnd {} more, left off by --first.\n", list_.left_off);
    // Also who only goes to look touches it.
    const bool somebody_looks = !plan_.no_record.empty() || !list_.seen.empty() || !plan_.not_possible.empty();
    if (plan_.visits.empty() && somebody_looks) text_ += foot_of_list(look_);
  }

  std::string take() { return std::move(text_); }

 private:
  void line(std::string_view before, std::string_view text) {
    if (!text.empty()) text_ += wrapped(before, text, columns_, before.size());
  }

  void title(std::string_view text) { text_ += '\n' + heading(look_, text); }

  std::string nothing_words() const {
    const std::string until = to_text(plan_.to);
    if (needs_doing(list_)) {
      return fmt::format("Nobody is sent anywhere until {}. What is not planned or not known{} below.", until,
                         list_.calls.empty() ? " stands" : ", and calls, stand");
    }
    return list_.calls.empty()
               ? fmt::format("Nothing comes due until {}, and all is known: nobody has to go.", until)
               : fmt::format("Nothing comes due until {}, and all is known. Somebody has to go for calls: see below.",
                             until);
  }

  void one(const SiteVisit& visit) {
    const service::Site& site = *visit.site;
    const std::string customer = cleaned(site.customer);
    title(fmt::format("{}: {}{}, {}", day_words(visit.on), cli::site_words(site),
                      customer.empty() ? "" : fmt::format(" ({})", customer), crew_words(*visit.crew)));
    line("  ", trip_words(list_, visit));
    if (!site.access.empty()) line("  ", "Access: " + cleaned(site.access));
    if (!site.contact.empty()) line("  ", "Contact: " + cleaned(site.contact));
    const service::Machine* before = nullptr;
    for (const TripTask& task : visit.tasks) {
      if (task.point->machine != before) machine(visit, *task.point->machine);
      before = task.point->machine;
      line("    - ", task_words(list_, task));
      line("      ", placing_words(list_, visit, task) + ".");
      for (const std::string& each : lack_lines(lacks_of(list_, task), plan_.as_of)) line("      * ", each);
      line("      !! ", keep_out_words(list_, task));
    }
    for (const service::WaitsToMend* waits : waiting_at(list_, visit)) line("  * ", mend_words(*waits, nullptr));
    load(visit);
    line("  ", mind_words(visit.cautions));
    line("  ", "Sheets to print that day:");
    line("  ", sheets_of(visit, look_.command));
  }

  void machine(const SiteVisit& visit, const service::Machine& machine) {
    line("  ", machine_words(machine));
    line("    !! ", laid_up_words(list_, visit, machine));
    line("    !! ", stop_words(*plan_.list, machine));
    for (const std::string& each : safety_left_lines(list_, visit, machine)) line("    !! ", each);
    for (const service::SharedMachine& one : visit.shared) {
      if (one.machine == &machine) line("    !! ", shared_words(one.others) + ".");
    }
    line("    - ", lay_up_over_words(list_, visit, machine));
    for (const service::WaitsToMend* waits : waiting_of(list_, machine)) line("    * ", mend_words(*waits, &machine));
    for (const service::SeenSign* seen : to_look_at(list_, visit)) {
      if (seen->machine == &machine) line("    - ", "look before it runs: " + words_of(*seen));
    }
  }

  void load(const SiteVisit& visit) {
    const auto lines = load_lines(list_.fleet(), visit.parts, visit.fluids, lacks_of(list_, visit), plan_.as_of);
    line("  ", lines.empty() ? "To load: nothing beside what is always on board." : "To load:");
    for (const std::string& each : lines) line("    [ ] ", each);
    line("    ", fills_up_words(visit.fills_up));
  }

  void crowded() {
    if (list_.crowded.empty()) return;
    title("More on a day than a crew has hours, made one trip after the other");
    for (const service::CrowdedDay& day : list_.crowded) line("  ", crowded_words(day) + ".");
    line("  ", "A round through these sites may be shorter: `rounds` says what fits, and what waits.");
  }

  // The work that `rounds` alone plans.
  void calls() {
    if (list_.calls.empty()) return;
    title("Calls, which are not in these visits: see `rounds`");
    SaidLines lines;
    for (const service::Call* call : list_.calls) {
      lines.emplace_back("call " + cleaned(call->key), call_words(list_, *call));
    }
    text_ += said_rows(lines, look_);
    line("", fmt::format("Who goes for them: {}", rounds_command(list_, look_.command)));
  }

  void not_possible() {
    if (plan_.not_possible.empty()) return;
    title(fmt::format("Not possible until {}", to_text(plan_.to)));
    for (const service::NotPossible& out : plan_.not_possible) {
      line("  ", fmt::format("{} {}.", cleaned(out.point->machine->key), not_possible_words(list_, out)));
      line("    !! ", keep_out_words(list_, out));
    }
  }

  void not_planned() {
    if (plan_.not_planned.empty()) return;
    title("Not planned");
    SaidLines lines;
    for (const service::NotPlanned& row : plan_.not_planned) {
      lines.emplace_back(cli::whose(row), not_planned_words(list_, row));
    }
    text_ += said_rows(lines, look_);
  }

  // A line a machine.
  void points(std::string_view called, const std::vector<service::PointName>& names) {
    if (names.empty()) return;
    title(called);
    for (const std::string& each : left_out_lines(names, {}, look_.command)) line("  ", each);
  }

  void seen() {
    const auto seen = seen_beside_mending(list_);
    if (seen.empty()) return;
    title(title_of(service::OverdueHeading::seen));
    SaidLines lines;
    for (const service::SeenSign* sign : seen) lines.push_back(line_of(*sign));
    text_ += said_rows(lines, look_);
  }

  void to_mend() {
    for (const MendBlock& block : mend_blocks(waiting_elsewhere(list_))) {
      title(block.heading);
      text_ += said_rows(block.lines, look_);
    }
  }

  const VisitsList& list_;
  const VisitsPlan& plan_;
  const Look& look_;
  std::size_t columns_;
  std::string text_;
};

}  // namespace

std::string visits_as_text(const VisitsList& list, const Look& look) {
  Writer out(list, look);
  out.head();
  out.visits();
  out.behind();
  return out.take();
}

}  // namespace cli
