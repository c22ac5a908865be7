// A plan of visits in words, the same in every format.
#pragma once

#include <string>
#include <vector>

#include "service/visits_list.h"

namespace cli {

using service::SiteVisit;
using service::TripTask;
using service::VisitsList;

// `4 visits, 12 tasks; 1 not possible, 10 without record.` Where some machines were asked about: `1 visit for it, of a
// plan of all work at Holm: 4 visits, 12 tasks.`
std::string counts_of(const VisitsList& list);

// Of which machines it is told, where some were asked about; else empty.
std::string told_words(const VisitsList& list);

// What it costs, beside each task on its own day, and how far it can be from the best.
std::string cost_words(const VisitsList& list);
std::string own_days_words(const VisitsList& list);
std::string bound_words(const VisitsList& list);

// `1 h 30 min of work, 10 min of set-up, 46 min of driving there and back, 36.4 km: the trip costs 61.09 GBP.`
std::string trip_words(const VisitsList& list, const SiteVisit& visit);

// `engine-oil: Change the oil (overdue since 2026-04-20)`
std::string task_words(const VisitsList& list, const TripTask& task);

// `14 days late, waiting loses 0.56 GBP: the first day on which somebody can go`
std::string placing_words(const VisitsList& list, const SiteVisit& visit, const TripTask& task);

// Why a task has its day, and why one has none.
std::string why_words(const VisitsList& list, const SiteVisit& visit, const TripTask& task);
std::string why_words(const VisitsList& list, const service::NotPossible& out);

// Of work for safety after its due day: `safety: keep it out of use until done`; `until mended` where what
// is done of it mends nothing. Else empty.
std::string keep_out_words(const VisitsList& list, const TripTask& task);
std::string keep_out_words(const VisitsList& list, const service::NotPossible& out);

// `laid up since 2026-03-09 until 2026-11-01: drained`, of a machine on the day of the visit; empty where it is not.
// That its lay-up is over by then, and that what it took off goes back on: empty where it is not.
std::string laid_up_words(const VisitsList& list, const SiteVisit& visit, const service::Machine& machine);
std::string lay_up_over_words(const VisitsList& list, const SiteVisit& visit, const service::Machine& machine);

// What is left of the work for safety at a machine of a visit.
inline constexpr std::string_view not_in_these_weeks = "not possible in these weeks";
std::vector<std::string> safety_left_lines(const VisitsList& list, const SiteVisit& visit,
                                           const service::Machine& machine);

// `Boat winch brake slips, at Slipway, from 2026-06-15, by 2026-06-20; safety: keep what it is about out of use until
// done`.
std::string call_words(const VisitsList& list, const service::Call& call);

std::string not_possible_words(const VisitsList& list, const service::NotPossible& out);
std::string not_planned_words(const VisitsList& list, const service::NotPlanned& row);

// The command that plans the rounds of the first week, of the same crews and site.
std::string rounds_command(const VisitsList& list, const std::string& command);

// The command that prints the sheets of a visit on its day, with what is done before it is due.
std::string sheets_of(const SiteVisit& visit, const std::string& command);

// `Van on Tuesday 2026-06-16: ...`
std::string crowded_words(const service::CrowdedDay& day);

// What is planned once, and comes round again; empty: nothing.
std::string again_words(const VisitsList& list);

// All that is to be minded at the visits that are told, each once.
std::vector<std::string> cautions_of(const VisitsList& list);

}  // namespace cli
