// What a job sheet says, in words: the same on every kind of paper. All of it is cleaned.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "service/job_sheet.h"

namespace cli {

inline constexpr std::string_view found_choices = "good / worn / failed";

std::string name_of(const service::Machine& machine);  // `Combine`, its key where it has no name

// `Combine (combine) · 2026-06-15`, and that nobody may run it: at the head of each of its pages.
std::string stop_mark(const service::MachineSheet& sheet);  // `DO NOT RUN before this is mended`; empty: it may be run
std::string page_head(const service::MachineSheet& sheet, service::Day day);

// `Quernholt grain store, for A. Thorne`; empty where it has no site.
std::string site_of(const service::MachineSheet& sheet);
std::string site_of(const service::Site& site);

// Why nobody may run it, and what is looked at before it runs: below the head. Nothing where it may.
std::vector<std::string> stop_lines(const service::MachineSheet& sheet);

std::string last_words(const service::SheetMeter& meter);   // `2161.5 h on 2026-06-01`, `never read`
std::string blank_words(const service::SheetMeter& meter);  // `________ h`

// What is not known of a meter, or hard to believe, and what to do where it shows less than that; empty elsewhere.
struct MeterDoubt {
  std::string say;
  std::string if_less;
};
std::vector<MeterDoubt> doubts_of(const service::SheetMeter& meter, const std::string& command);

// At a machine whose meters are read: how it stands, and that nobody may run it.
std::vector<std::string> stands_words(const service::RoundMachine& machine);

std::string doing_of(const service::SheetTask& task);

// What is to be known of a task beside its name: that it never waits, who does it, how many it takes, not before when.
std::vector<std::string> marks_of(const service::SheetTask& task);
std::vector<std::string> marks_of(const service::SheetLook& look);

// A step to tick; of an included task with its name: `brakes: Level and firm`.
std::string step_words(const service::SheetStep& step);

// `since 2026-02-14: 11.4 h over 250 h · 1 day left of 12 months`; where it has positions, not which.
std::string standing_words(const service::Point& point, service::Day as_of);

// `50 min`, `1 h 40 min x 2 people`, parts and fluids behind it.
std::string takes_words(const service::SheetTask& task);

// `oil-filter-a: 1 not in stock, order by 2026-07-01`; empty where nothing that was counted is short.
std::string stock_words(const service::SheetTask& task, service::Day as_of);

// `air-primary (overdue too): Change the outer air element`.
std::string included_words(const service::SheetIncluded& included);

// `engine-oil/check-leaks, within 1.0 h`; what is to be done is its own.
std::string check_name(const service::Machine& machine, const service::SheetCheck& check);

// When what goes in comes due again, for its label; empty where no label can say.
std::string again_words(const service::SheetTask& task);

// Of checks that an earlier service asked for.
std::string renewed_words(const service::SheetTask& task);

// `fluid-under-pressure: `, empty of a sentence of the schedule's own; `Fluid under pressure goes ...`; and at which
// tasks: `engine-oil, brakes`; empty where there is one thing alone to do.
std::string name_of(const service::SheetCaution& caution);
std::string sentence_of(const service::SheetCaution& caution);
std::string tasks_of(const service::SheetCaution& caution, const service::MachineSheet& sheet);

// In which order the tasks stand; empty of one alone.
std::string order_words(const service::MachineSheet& sheet);

// Over the tasks: `To do`; of a machine that is laid up, that they are no work of that day.
std::string tasks_heading(const service::MachineSheet& sheet);

// What a task of a machine that nobody may run says of that; empty where it says nothing.
std::string gate_words(service::RunRule rule, const service::MachineSheet& sheet);

// Of a task that wants it cold and stands behind others.
std::string cold_words(const service::SheetTask& task);

// That what is locked off stays so between the tasks, and how long; empty where nothing is.
std::string lock_words(const service::MachineSheet& sheet);

// The later work that begins with this task of the page; null where none does.
const service::SheetLater* later_from(const service::SheetTask& task, const service::MachineSheet& sheet);

// Over the tasks of a later day: when, and that what they want locked off is locked off for them alone.
std::string later_lock_words(const service::SheetLater& later, const service::MachineSheet& sheet);

// Headed lines.
struct Remark {
  std::string heading;
  std::vector<std::string> lines;
};

// What is ticked when all work is done: of the day, and of each later day.
std::vector<Remark> afterwards_of(const service::MachineSheet& sheet);

// `Includes brakes: !! overdue since 2026-02-14: 30 days over 12 months`, of each that is for safety, and what it takes
// alone.
std::vector<std::string> overdue_within(const service::SheetTask& task, service::Day as_of);

// `left: heel-wear ________ % (limit 10 %)`, parted where the blank is.
struct MeasureWords {
  std::string before;
  std::string after;
};
MeasureWords measure_words(const service::SheetMeasure& measure);

// Where something is found worn or failed at a task that only looks.
std::string only_looks_words(const service::SheetTask& task);

// A check that an earlier service asked for: `engine-oil/check-leaks, safety: Look for leaks (...)`.
std::string owed_words(const service::Point& check, service::Day as_of);

// `fork@right: by 2026-07-29 at the latest · 44 days left of 12 months · heel-wear 9 %, limit 10 %: measure again`.
std::string near_limit_words(const service::Point& point, service::Day as_of);

inline constexpr std::string_view owed_heading = "Checks owed after an earlier service";
inline constexpr std::string_view near_limit_heading = "Measure again: near its limit";

// `12 L engine-oil-15w40, Engine oil 15W-40; 3 L not in stock, order today`.
std::string part_words(const service::SheetPart& part, service::Day as_of);

// `1 h 30 min there, 3 h of labour, and 20 min for the checks afterwards; 2 people, not for one alone`; empty where
// only a competent person works.
std::string labour_words(const service::MachineSheet& sheet);

// `hydraulic-oil from 2026-07-04; 50 min of work`, of what is wholly put off; empty where nothing is.
std::string later_words(const service::MachineSheet& sheet);

// `burner-service: 2 h there; lock and tag, leak detector`; empty where none comes.
std::string competent_words(const service::MachineSheet& sheet);

// What is no work of this sheet and yet to be known: put off, to find out; on machines without a page also what is owed
// and to be measured again.
std::vector<Remark> remarks_of(const service::MachineSheet& sheet, const std::string& command);
std::vector<Remark> remarks_without_page(const service::MachineSheet& sheet, service::Day as_of,
                                         const std::string& command);

// How to write it down afterwards: command lines, and what is to be known of them.
struct TypedLines {
  std::string say;
  std::vector<std::string> commands;
};
std::vector<TypedLines> typed_lines(const service::MachineSheet& sheet, const std::string& command);

// What the sheet says where there is no work; and of one machine.
std::string nothing_words(const service::JobSheet& sheet);
std::string nothing_words(const service::MachineSheet& sheet, const service::JobSheet& of);

}  // namespace cli
