// A fleet that a program filled in, as a draft, so that it goes through the checks of one that was read.
#pragma once

#include <memory>
#include <vector>

#include "fleet/draft.h"
#include "service/fleet.h"

namespace service::fleet {

// Takes the fleet apart into drafts, noting every name that it mentions and of what each diagnostic is to be told. What
// only a reader of files would find out (a key given twice, an interval of nothing) is said here.
class MadeInCode {
 public:
  MadeInCode(Fleet fleet, Diagnostics& diagnostics, Draft& draft);

  Spot whole() const { return {sources_.front().get(), whole_file}; }

 private:
  Spot spot_of(std::string whose);
  void take_sites(const Spot& whole);
  void take_surroundings();
  void take_schedule(Schedule schedule);
  TaskDraft take_task(Task task, const std::string& schedule);
  void take_machine(Machine machine);
  ChangeDraft take_change(TaskChange change, const std::string& machine);
  void note_interval(const std::vector<Limb>& limbs, const char* key, const Spot& spot, LimbNotes& notes);
  void note_grace(const Grace& grace, const Spot& spot);
  void mention(Noun noun, const std::string& name, const Spot& spot);

  Diagnostics& diagnostics_;
  Draft& draft_;
  std::vector<std::unique_ptr<Source>> sources_;  // spots point at them
};

}  // namespace service::fleet
