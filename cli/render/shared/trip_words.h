// What plans of trips have in common, in words: the way, the crew, the work, what goes on board, what is not planned.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "service/rounds_list.h"

namespace cli {

std::string span_words(int minutes);      // `1 h 30 min`
std::string km_words(int tenths);         // `18.2 km`
std::string day_words(service::Day day);  // `Monday 2026-05-04`
std::string plain(service::Money money);  // `61.09`, where its currency was named before
std::string crew_words(const service::Crew& crew);
std::string site_words(const service::Site& site);
std::string machine_words(const service::Machine& machine);     // `Loader (loader)`
std::string need_words(const std::vector<std::string>& needs);  // `lifting and two people`

// `in use again from 2026-06-18 on: before it runs, put back what the lay-up took off (laid up since 2026-03-09 until
// 2026-06-18: drained)`: of a lay-up that is over on the day of a trip.
std::string lay_up_over_words(const service::LayUp& over);

// `engine-oil: Change the oil (overdue since 2026-04-20; safety)`, with what more is to be said of it in the brackets.
std::string job_words(const service::Point& point, service::Day as_of, const std::vector<std::string>& more);

// `safety: from 2026-05-10 on keep it out of use until done`, `until mended` where what is done there mends nothing: of
// work for safety that is done after its due day, or not at all.
std::string keep_out_words(const service::DueList& list, const service::Point& point);

// `Van works at it that day too: agree who locks it off, and who gives it free`.
std::string shared_words(const std::vector<const service::Crew*>& others);

// `stock is 1 short from 2026-06-15 on; ordered now it can be there on 2026-06-22`.
std::string short_words(const service::ShortPart& part);

// `1 oil-filter-a (Engine oil filter)`, a line each; and where stock does not cover it, that.
std::vector<std::string> load_lines(const service::Fleet& fleet,
                                    const std::vector<std::pair<std::string, service::PartAmount>>& parts,
                                    const std::vector<std::pair<std::string, service::Quantity>>& fluids,
                                    const std::vector<service::PartLack>& lacks, service::Day as_of);

// `1 oil-filter-a`, each.
std::vector<std::string> piece_words(const std::vector<std::pair<std::string, service::PartAmount>>& parts);

// Of what is to load, `Of it, to fill up what is always on board: 1 oil-filter-a`; empty where nothing was used of
// that.
std::string fills_up_words(const std::vector<std::pair<std::string, service::PartAmount>>& fills_up);

// Of crews that always carry something: what is taken for granted of that.
inline constexpr std::string_view carried_words =
    "What a crew always carries is on board when its first trip begins; what a trip uses of it is to load with the "
    "next "
    "one";

// A line a part that some work lacks: `air-filter: 1 not in stock, order by 2026-07-01`.
std::vector<std::string> lack_lines(const std::vector<service::PartLack>& lacks, service::Day as_of);

// `2 parts are short: 1 visit cannot be finished as planned: loader on 2026-05-04 (filter).`; empty where none is.
std::string lacking_words(const std::vector<service::PlannedLoad>& loads);

// Of what is in no plan: the machine or the call; the task, or what the customer asks for; and why, with who said so
// and until when. `beyond`: until when the plan goes, as `this week`.
std::string whose(const service::NotPlanned& row);
std::string not_planned_what(const service::NotPlanned& row);
std::string reason_words(const service::NotPlanned& row, std::string_view beyond);
std::string_view short_reason_words(service::NotPlannedReason reason);  // `the machine is laid up`

// What counts as no time, or as nothing, a line each.
std::vector<std::string> without_figures(const std::vector<service::PointName>& no_time,
                                         const std::vector<std::string>& no_price);

}  // namespace cli
