// Asking: what is due on the machines of a fleet, and why one of them is.
//
//   fleet folder -> Fleet, record -> Snapshot of one day -> DueList -> Explanation
//
// usage: ask_what_is_due FLEET_FOLDER      (with a facts.csv in it, see sample_copy.h)
#include <cstdio>
#include <exception>
#include <memory>
#include <optional>
#include <string>

#include "sample_copy.h"
#include "service/due_list.h"
#include "service/explain.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"
#include "service/standing.h"

namespace {

using service::to_text;

std::string day_or_none(const std::optional<service::Day>& day) { return day ? to_text(*day) : "not known"; }

// One line for one service point. Everything that it says is decided already; a list only words it.
void print(const service::Point& point) {
  const std::string label = service::point_label(point.name, point.position);
  std::printf("  %-9s  %-17s  %-22s  %s%s\n", std::string(to_text(point.standing)).c_str(), point.machine->key.c_str(),
              label.c_str(), day_or_none(point.due_on).c_str(), point.by_estimate ? ", by estimate" : "");
}

void print_due_list(const service::DueList& list) {
  // Which rows a list shows is the library's answer too: here the first six of each standing, and how many are left
  // out.
  service::DueShow show;
  show.first = 6;
  const service::DueRows rows = service::rows_of(list, show);
  std::printf("What is due on %s:\n", to_text(list.as_of).c_str());
  // Machines that must not run come before all else.
  for (const service::MachineUse& use : list.not_in_use) {
    std::printf("  %s: %s\n", std::string(to_text(use.state.kind)).c_str(), use.machine->key.c_str());
  }
  for (const service::Point* point : rows.points) print(*point);
  std::printf("  and %zu more, and %zu that come later\n", rows.left_off, rows.later);
  // Points are not all: what nobody knows is an answer as well, and an empty list without it would be a lie.
  for (const service::Gap& gap : list.gaps) {
    std::printf("  not known: %s, %s\n", gap.machine.c_str(), std::string(to_text(gap.kind)).c_str());
  }
  std::printf("Something needs doing: %s\n", service::needs_doing(list) ? "yes" : "no");
}

void print_explanation(const service::Explanation& why) {
  const service::Point& point = why.point;
  std::printf("\nWhy %s of %s:\n", point.name.c_str(), point.machine->key.c_str());
  std::printf("  last done on %s\n", point.fitted ? to_text(point.fitted->on).c_str() : "a day not known");
  // Every limb of the interval races; the point takes its worst one.
  for (const service::LimbStanding& limb : point.limbs) {
    std::printf("  %s:", std::string(to_text(limb.kind)).c_str());
    if (limb.every && limb.used) {
      std::printf(" %s of %s %s used,", to_text(*limb.used).c_str(), to_text(*limb.every).c_str(), limb.unit.c_str());
    }
    std::printf(" due on %s%s\n", day_or_none(limb.due_on).c_str(),
                point.ruled_by && &limb == &point.limbs[*point.ruled_by] ? "  <- this one rules" : "");
  }
  // The facts that it rests on: those somebody would have to doubt who doubts the answer.
  for (const service::ExplainedFact& each : why.facts) {
    const auto& fact = each.fact;
    std::printf("  in the book: %s on %s%s\n", std::string(to_text(fact.kind)).c_str(), to_text(fact.on).c_str(),
                fact.at ? (" at " + to_text(*fact.at)).c_str() : "");
  }
}

int ask(const std::filesystem::path& sample) {
  const example::SampleCopy copy(sample);

  // All mistakes of the fleet's files come in one Failure, each with its file, line and column.
  const auto fleet =
      std::make_shared<const service::Fleet>(service::read_fleet(service::load_fleet_files(copy.folder())));
  const service::Record record = service::Record::open(copy.record(), service::Access::read);

  // Everything that is known on one day. It is a value: nothing that is asked of it reads the clock or the disk.
  const service::Snapshot snapshot = service::take_snapshot(fleet, record, example::today, true);
  print_due_list(service::due_list(snapshot, service::add_months(example::today, 1)));

  // The same question about one machine. The machines of its kind are read too, so that the days are the same.
  const service::Scope drill{{{"tractor-drill"}}};
  const service::Snapshot one = service::take_snapshot(fleet, record, example::today, true, drill);
  const service::Explanations answer = service::explain(one, "engine-oil", "", service::learnt_from(one));
  for (const service::Explanation& why : answer.points) print_explanation(why);
  return 0;
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    std::fprintf(stderr, "usage: ask_what_is_due FLEET_FOLDER\n");
    return 64;
  }
  try {
    return ask(words[1]);
  } catch (const service::Failure& failure) {
    for (const service::Diagnostic& each : failure.diagnostics()) std::fprintf(stderr, "%s\n", each.message.c_str());
    return static_cast<int>(failure.kind());
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 70;
  }
}
