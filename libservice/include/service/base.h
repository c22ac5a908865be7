// Quantities, days, strict readers of both, and the one way to report what is wrong.
//
// One header an idea, and this one for all of them; csv.h and files.h are for those who write. Nothing here knows about
// machines. Everything else is built from these values:
//
//   Amount    usage of a meter, exact, in hundredths of the meter's own unit (for an hour meter: of an hour);
//             Money, PartAmount, Distance, Speed and Factor likewise, each a type of its own
//   Measure   something measured (restriction, tread depth), exact, in millionths of its unit
//   Probability  odds, from 0 to 1: estimates, and the one value here that is not exact
//   Day       a civil day, no time and no zone
//   DaySpan   a day written at reduced precision: `2009`, `2009-05` or `2009-05-17`
//   Failure   the only exception this library throws; it carries diagnostics
//
// No floating point takes part in any decision. None of these functions reads the clock, the locale or the environment.
#pragma once

#include "service/cures.h"
#include "service/days.h"
#include "service/diagnostics.h"
#include "service/parsed.h"
#include "service/probability.h"
#include "service/progress.h"
#include "service/quantities.h"
#include "service/spreadsheet.h"
#include "service/text.h"
#include "service/typed.h"
