// The plan of a week in words, the same in every format.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "render/shared/trip_words.h"
#include "service/rounds_list.h"

namespace cli {

using service::RoundsList;
using service::Visit;

// What all files of these words share.
const Visit& visit_of(const RoundsList& list, std::size_t number);
service::Day day_of(const RoundsList& list, const service::Round& round);
std::string money_of(const RoundsList& list, service::Money money);
std::string crew_named(const RoundsList& list, const std::string& key);  // as the fleet names it, else its key

std::string clock_words(int minutes);  // of a day: `07:30`
std::string crew_of(const RoundsList& list, const service::Round& round);

// `Skarvey estate`, or of a site `Skarvey estate, site holm (A. Thorne)`.
std::string whose_rounds(const RoundsList& list);

// Where a round begins, and where it ends.
const service::Site& start_of(const RoundsList& list, const service::Round& round);
const service::Site& end_of(const RoundsList& list, const service::Round& round);

// `Loader (loader)`, `call c-01`, `call c-02: Loader (loader)`.
std::string what_words(const Visit& visit);

// What is done there, a line each: `engine-oil: Change the oil (overdue since 2026-04-20; safety)`.
std::vector<std::string> job_lines(const RoundsList& list, const Visit& visit);

// `two people`, `a call for safety; needs electrics`: what is special about it, beside its tasks.
std::string marks_of(const Visit& visit);

// Of a machine at which another crew works that day: that they have to agree who locks it off. Else empty.
std::string also_there_words(const RoundsList& list, const service::Round& round, const Visit& visit);

// `50 min, oil-filter-a, 11.5 L engine-oil-15w40`.
std::string takes_words(const Visit& visit);

// `1 oil-filter-a (Engine oil filter)`, a line each; and where stock does not cover it, that.
std::vector<std::string> load_lines(const RoundsList& list, const service::Round& round);

// `Comes back to Loader (loader), with other stops between: leave it safe each time`; empty where it does not.
std::string two_goes_words(const service::Round& round);

// `1 stop: 46 min of driving, 36.4 km, 10 min of set-up, 50 min of work, 30 min for the meal, before the first work`.
std::string sums_of(const RoundsList& list, const service::Round& round);

// `Arrive 08:00 (23 min, 18.2 km from Workshop); 15 min free; begin 08:15, 10 min of it set-up; done by 09:00.` `from`:
// where the crew comes from; null: it is there already, or nobody is told.
std::string times_words(const service::RoundStop& stop, const service::Site* from);

// The cautions of the stops that are told of a round, and the machines that have sheets.
std::vector<std::string> cautions_of(const RoundsList& list, const service::Round& round);
std::vector<std::string> machines_of(const RoundsList& list, const service::Round& round);

// Why it is not this week.
std::string why_words(const RoundsList& list, const service::NotThisWeek& out);

// What leaving it out costs, and until when that is reckoned; and that a machine is not to be used until then.
std::string left_out_words(const RoundsList& list, const service::NotThisWeek& out);
std::string keep_out_words(const RoundsList& list, const Visit& visit);  // empty where it may be used

// Of a stop, a line for each thing that is said: `brakes: safety: keep it out of use until done`, with what is left of
// the work for safety at its machine. Of the whole plan, with what is not this week, or not in the book: `Keep out of
// use until done or mended, for safety: loader (brakes, Monday 2026-05-04).`
std::vector<std::string> keep_out_lines(const RoundsList& list, const service::Round& round,
                                        const service::RoundStop& stop);
std::string kept_out_words(const RoundsList& list);
inline constexpr std::string_view not_this_week = "not this week";

// What the kept plan is taken to have done and the book does not have: `Taken as done ..., and not in the book: ...`;
// and of which of it parts were short, so that it may not be whole.
std::string not_in_book_words(const RoundsList& list);
std::string not_in_book_words(const RoundsList& list, const service::NotInBook& one, bool keep_out);

// The same of calls that the fleet still lists.
std::string still_listed_words(const RoundsList& list);
std::string still_listed_words(const service::CallStillListed& one);

// `loader`, `pump+pressure`, `call c-01`, and of a call to a machine `call c-02: Loader (loader)`.
std::string called(const Visit& visit);

// `laid up since 2026-03-09: drained`: that the machine of a stop is not in use that day. Empty where it is. That its
// lay-up is over by then, and that what it took off goes back on: empty where it is not.
std::string not_in_use_words(const RoundsList& list, const service::Round& round, const Visit& visit);
std::string lay_up_over_words(const RoundsList& list, const service::Round& round, const Visit& visit);

// `Print that of pump on 2026-06-18 or later: before that it is of a machine laid up`: of the job sheets of a round.
std::string sheets_later_words(const RoundsList& list, const service::Round& round);

// `do not run it before this is mended: hoses, leak seen 2026-06-11`. Empty where its machine may be run.
std::string not_to_run_words(const RoundsList& list, const Visit& visit);

// `engine-oil: the machine is laid up`.
std::string not_planned_words(const service::NotPlanned& row);

// `was Van, Monday 2026-05-04; now not this week: ring up keeper, 01 23`.
std::string change_words(const RoundsList& list, const service::PlanChange& change);

// All of them, a call a customer: `ring up Beck and Holm: keeper, 01 23`, and of each visit what changed.
struct ChangedFor {
  std::string whom;
  std::vector<std::pair<std::string, std::string>> changes;
};
std::vector<ChangedFor> changes_by_whom(const RoundsList& list);

// How much there is, what it costs, and how far it can be from the best; the last two of the whole week alone.
std::string counts_of(const RoundsList& list);
std::string cost_words(const RoundsList& list);
std::string bound_words(const RoundsList& list);

// What the plan takes for granted or counts as nothing, a line each.
std::vector<std::string> remark_lines(const RoundsList& list);

// Of a plan that was judged.
std::string value_words(const service::Week& week, const service::PlanValue& value);
std::string not_judged_words(const std::vector<std::string>& fields);
std::string safety_left_out_words(const service::PlanJudgement& judged);  // empty where there is none
std::string fault_words(
    const service::PlanFault& fault);  // `qualified: van 2026-05-05 pump+pressure: van lacks pressure`
std::string follow_on_words(const service::PlanJudgement& judged);  // what those are; empty where there are none

}  // namespace cli
