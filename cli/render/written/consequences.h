// What came of facts that were entered, piece by piece: all answers that write say it in these words. `command`: how
// printed commands begin (`Look`).
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "service/entry.h"
#include "terminal/look.h"

namespace cli {

// Of the machines that this is about, those that stay out of use.
std::string out_of_use_lines(const service::Entered& entered);

// What changed on the due list and on the overdue list.
std::string list_changes(const service::Entered& entered, const Look& look);

// What is to be looked at now, and what no more.
std::string seen_lines(const service::Entered& entered);

// That a look found good what was not open, and where that is open. Of all that was added, or of these facts alone.
std::string idle_look_lines(const service::Entered& entered, const std::vector<service::Fact>& only);

// Of which values of the book the doubt has ended, and which first values of a meter are far above its kind.
std::string meter_news_lines(const service::Entered& entered, const std::string& command);

// Where a value was told, and would be told better: a message has words for options.
enum class ToldBy { command, message };

// Values that are hard to believe or were not told, and what was written down twice.
std::string value_lines(const service::Entered& entered, const std::string& command, ToldBy by = ToldBy::command);

// What is to be looked at afterwards, what to mind while doing so, and what goes back on. Folded to so many columns.
std::string check_lines(const service::Entered& entered, std::size_t columns);

}  // namespace cli
