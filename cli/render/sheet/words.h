// What a job sheet says, in words: the same on every kind of paper. All of it is cleaned.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "service/job_sheet.h"

namespace cli {

inline constexpr std::string_view found_choices = "good / worn / failed";

std::string name_of(const service::Machine& machine);  // `Combine`, its key where it has no name

// `Combine (combine) · 2026-06-15`: at the head of each of its pages.
std::string page_head(const service::MachineSheet& sheet, service::Day day);

// `Quernholt grain store, for A. Thorne`; empty where it has no site.
std::string site_of(const service::MachineSheet& sheet);
std::string site_of(const service::Site& site);

std::string last_words(const service::SheetMeter& meter);   // `2161.5 h on 2026-06-01`, `never read`
std::string blank_words(const service::SheetMeter& meter);  // `________ h`

std::string doing_of(const service::SheetTask& task);

// What is to be known of a task beside its name: that it never waits, who does it, how many it takes.
std::vector<std::string> marks_of(const service::SheetTask& task);

// `since 2026-02-14: 11.4 h over 250 h · 1 day left of 12 months`; where it has positions, not which.
std::string standing_words(const service::Point& point, service::Day as_of);

// `50 min`, `1 h 40 min x 2 people`, parts and fluids behind it.
std::string takes_words(const service::SheetTask& task);

// `air-primary (overdue too): Change the outer air element`.
std::string included_words(const service::SheetIncluded& included);

// `engine-oil/check-leaks, within 1.0 h`; what is to be done is its own.
std::string check_name(const service::Machine& machine, const service::SheetCheck& check);

// When what goes in comes due again, for its label; empty where no label can say.
std::string again_words(const service::SheetTask& task, service::Day done_on);

// Of checks that an earlier service asked for.
std::string renewed_words(const service::SheetTask& task);

// `fluid-under-pressure: `, empty of a sentence of the schedule's own; `Fluid under pressure goes ...`; and at which
// tasks: `engine-oil, brakes`.
std::string name_of(const service::SheetCaution& caution);
std::string sentence_of(const service::SheetCaution& caution);
std::string tasks_of(const service::SheetCaution& caution);

// In which order the tasks stand, and why; empty of one alone that does not run.
std::string order_words(const service::MachineSheet& sheet);

// `12 L engine-oil-15w40, Engine oil 15W-40`.
std::string part_words(const service::SheetPart& part);

// `3 h 10 min of work by hand, and 20 min for the checks afterwards; not for one alone`.
std::string labour_words(const service::MachineSheet& sheet);

// Headed lines of what is no work of this sheet and yet to be known: put off, owed, to measure again, to find out.
struct Remark {
  std::string heading;
  std::vector<std::string> lines;
};

std::vector<Remark> remarks_of(const service::MachineSheet& sheet, service::Day as_of, const std::string& command);

// How to write it down afterwards.
std::string entry_command(const service::MachineSheet& sheet, const std::string& command);

// What the sheet says where there is no work; and of one machine.
std::string nothing_words(const service::JobSheet& sheet);
std::string nothing_words(const service::MachineSheet& sheet, const service::JobSheet& of);

}  // namespace cli
