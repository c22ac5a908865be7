// How the parts of an answer are put in words, the same in every format that people read.
#pragma once

#include <string>
#include <vector>

#include "service/due_list.h"

namespace cli {

using service::to_text;  // days are no types of ours, so their namespace does not find it

std::string words_of(service::Standing standing);      // `no record`
std::string_view mark_of(service::Standing standing);  // `!!`, `! `, ...: told apart without colour

// `250.0 h`, `30 bales`.
std::string with_unit(service::Amount amount, const std::string& unit);

// An estimate, rounded to whole units: decimals would claim to know more than it does.
std::string about(service::Amount amount, const std::string& unit);

// `, counted from the reading of 2026-05-21`: behind the figure of an estimate that holds use before the fitting, too.
// Empty elsewhere.
std::string estimate_from_words(const service::LimbStanding& limb, const service::Point& point);

// The due point of a usage limb, its meter named where that is not the machine's first; where the meter was changed or
// went round, also what it then shows.
std::string due_point(const service::LimbStanding& limb, const service::Point& point);

// `leak or hard-start`, `a, b and c`.
std::string listed(const std::vector<std::string>& names, std::string_view last);

// Of a gap: the machine, with how many more, or the whole fleet.
std::string whose(const service::GapLine& line);

// For whom a machine is kept: the customer of its site. Empty where none is given.
std::string customer_of(const service::Fleet& fleet, const service::Machine& machine);

// What a list is about: `Thrennay estate`, or `Thrennay estate, site wullamere (Wullamere drainage board)`.
// What stands before the names of tasks that never wait: `safety`, or `safety or statutory` where one of them is for a
// competent person.
std::string_view never_wait_words(bool competent_person);

std::string whose_list(const service::Fleet& fleet, const service::Scope& scope);

// Where a machine stands and for whom: `quernholt`, `quernholt (A. Thorne)`. Empty where nothing is known of it.
std::string site_words(const service::Fleet& fleet, const service::Machine& machine);

// `engine-oil`, `tyre@front-left`.
std::string task_of(const service::Point& point);
std::string task_of(const service::PointName& point);

// Tasks and positions alone, one after the other.
std::string names_of(const std::vector<service::PointName>& points, std::string_view between);

// One limb as it stands: `11.4 h over 250 h`, `1 day left of 12 months`. Empty for what is quiet (a sign that nobody
// saw, a value that nobody measured) unless `loud`.
std::string words_of(const service::LimbStanding& limb, const service::Point& point, bool loud = false);

// What is left of a usage limb, or over it: `11.4 h over 250 h`.
std::string left_words(service::Amount left, const service::LimbStanding& limb, const service::Point& point);

// `sooner if leak or hard-start shows it`; empty where nothing that people see or measure can bring it due.
std::string sooner_words(const service::Point& point);

// The interval alone: `250 h`, `12 months`, `on leak or hard-start`.
std::string interval_of(const service::LimbStanding& limb, const service::Point& point);

// `leak seen 2026-06-11; looked at 2026-06-15 by M.T., good: tightened`.
std::string noticed_words(const service::NoticedSign& sign);

// All limbs, the ruling one first.
std::vector<std::string> limb_words(const service::Point& point);

// `since 2026-02-14`, `today`, `on 2026-07-18`, `by 2026-07-18 at the latest`, `about 2026-07-02 (2026-06-20 to ...)`.
std::string when(const service::Point& point, service::Day as_of);

// Of what forbids to run a machine (`run_ban.h`): at its own row, in front of what was seen, and of what is named
// there.
inline constexpr std::string_view not_before_mended = "do not run it before this is mended";
inline constexpr std::string_view rests_on_doubt = "rests on a doubtful reading";  // `doubtful` in data

// `by estimate: read the meter`, of what is past its grace but for a reading `overdue by estimate: read the meter`;
// else empty.
std::string estimate_words(const service::Point& point);

// What else must be known: that it never waits, that it forbids to run the machine, by estimate, sooner by what is
// seen, put off, year only, not known.
std::vector<std::string> remarks_of(const service::Point& point);

// `until 2026-07-01 or 1300.0 h, by Ann: potatoes first`.
std::string words_of(const service::PutOff& put_off, const service::Machine& machine);

// `the meter`, or of a machine with several which: `the separator meter`.
std::string meter_words(const service::Machine& machine, std::string_view meter);

std::string as_known(const service::DaySpan& span);  // `2026-06-15`, `2026-06, month only`

// `out of use since 2026-05-21: fork worn`, `out of use since 2026-06-15: leaks; laid up since 2026-03-09: drained`.
std::string words_of(const service::UseState& state);
std::string words_of(const service::LayUp& laid_up);  // `laid up since 2026-03-09 until 2026-11-01: drained`
// `: left fork worn; 2026-06-15: seat belt torn`: each with its day, but for the first where it stands since that day.
std::string reasons_of(const std::vector<service::UseReason>& reasons, service::Day since);

// `strange knocking noise, seen 2026-06-14; looked at 2026-06-15, found worn: a bearing hums`, for where it is said
// anyhow whether the machine may be run; `words_of` says that too.
std::string seen_words(const service::SeenSign& seen);
std::string words_of(const service::SeenSign& seen);
// `brakes: overdue; safety; do not run it before this is mended; brake-pull seen 2026-06-14`.
std::string words_of_what_is_wrong(const service::Point& point);

// `Look before it runs: steering loose, seen 2026-06-15`: at a machine, of what was seen of it but for what forbids to
// run it, which is said by itself. Empty where that is nothing.
std::string look_first_words(const std::vector<const service::SeenSign*>& seen);
std::string again_words(const service::Sighting& sighting);  // `again 2026-06-18 (flames now)`

std::string words_of(service::LimbKind kind);  // `hours`: what a person calls it, for lists of what is not known

}  // namespace cli
