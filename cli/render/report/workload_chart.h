// The hours of work of each month as columns: light up to the low end of the band, dark within it, a stroke at the
// mean.
#pragma once

#include "render/html/page.h"
#include "service/workload.h"

namespace cli {

// By month; nothing where there are no rows.
void add_workload_chart(const Element& parent, const service::Workload& load);

}  // namespace cli
