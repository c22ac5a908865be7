// A fleet while it is being read: the values, and where each name was mentioned, to be checked when all names are
// known.
#pragma once

#include <array>
#include <set>
#include <string>
#include <vector>

#include "fleet/diagnostics.h"
#include "service/fleet.h"

namespace service::fleet {

struct Mention {
  std::string name;
  Spot spot;
};

// A usage limb as written. Which meter it means can only be said machine by machine.
struct MeterUse {
  std::string meter;  // empty for `hours:`, the first meter in h
  Spot spot;
  int interval = 0;  // limbs of one interval (one `every:`, one `first:`) share a number
};

// Names in the limbs of a task, or of a change to one.
struct LimbNotes {
  std::vector<MeterUse> meters;
  std::vector<Mention> changes;
  int intervals = 0;
};

struct TaskDraft {
  Task task;
  LimbNotes limbs;
  std::vector<Mention> covers;
  std::optional<Spot> grace;
  std::optional<Spot> until;
};

struct ScheduleDraft {
  Schedule schedule;
  std::vector<TaskDraft> tasks;
  bool tasks_unsure = false;  // the tasks could not be read, so nothing is said about names that are not among them
};

struct ChangeDraft {
  TaskChange change;
  LimbNotes limbs;
  std::optional<Spot> every;
  std::optional<Spot> first;
  std::optional<Spot> grace;
  Spot spot;
};

struct MachineDraft {
  Machine machine;
  Spot key;
  Spot schedule;
  bool own_meters = false;
  std::optional<Spot> start;
  std::optional<Spot> start_at;
  std::optional<Spot> left;
  std::optional<Spot> expect;
  std::vector<ChangeDraft> changes;
};

// Things that are referred to by name across files.
enum class Noun { schedule, site, season, machine, part };

struct Draft {
  Fleet fleet;  // without schedules and machines until the end
  std::vector<ScheduleDraft> schedules;
  std::vector<MachineDraft> machines;

  std::array<std::vector<Mention>, 5> mentions;  // by noun
  std::array<bool, 5> unsure{};                  // by noun: not all of them could be read
  std::set<std::string> unread_schedules;        // their files exist, and cannot be read
  std::vector<Mention> grace_meters;
  std::vector<Mention> conditions;  // of machines
  std::vector<Mention> parts_listed;
  std::vector<Mention> carried;            // by crews
  std::set<std::string> conditions_named;  // in `in:`
  bool lists_parts = false;
  std::optional<Spot> travel_table;  // where its name stands

  std::vector<Mention>& mentions_of(Noun noun) { return mentions[static_cast<std::size_t>(noun)]; }
  bool& unsure_of(Noun noun) { return unsure[static_cast<std::size_t>(noun)]; }
};

// Everything that can only be checked when all files have been read.
void check_names(Draft& draft, Diagnostics& diagnostics);             // names that are mentioned exist
void check_meters(const Draft& draft, Diagnostics& diagnostics);      // limbs find their meters on every machine
void check_covers(const Draft& draft, Diagnostics& diagnostics);      // no ring
void check_carried(const Draft& draft, Diagnostics& diagnostics);     // pieces, and nothing that is poured
void check_machines(const Draft& draft, Diagnostics& diagnostics);    // starts, ends, expected usage, keys given once
void remark_on(const Draft& draft, Diagnostics& diagnostics);         // what is odd, but no mistake
void remark_on_safety(const Draft& draft, Diagnostics& diagnostics);  // of it, what lets safety wait

}  // namespace service::fleet
