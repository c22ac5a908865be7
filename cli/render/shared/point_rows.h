// Rows of service points and of machines: what lists for people share.
#pragma once

#include <string>
#include <vector>

#include "service/due_list.h"
#include "terminal/look.h"

namespace cli {

// Each point as a row or a block of lines, whichever fits the columns; all of them line up. Where they stand at more
// than one site, each says at which. The machines without record stand behind what is due.
std::string point_rows(const std::vector<const service::Point*>& points,
                       const std::vector<service::NoRecord>& no_record, const service::DueList& list, const Look& look);

// Which sites are whose: `Sites: hill and yard for A. Thorne; mere for the drainage board.` Empty where all points are
// of one customer.
std::string customers_line(const service::DueList& list, const Look& look);

// `6 tasks, safety: brakes; to fill in: whichever find-out tractor-yard`. `command`: how printed commands begin.
std::string no_record_words(const service::NoRecord& line, const std::string& command);

// Machines with something to say about each: gaps, states.
using SaidLines = std::vector<std::pair<std::string, std::string>>;

std::string said_rows(const SaidLines& rows, const Look& look);

// Of the machines that are not in use, those that are so; and why.
SaidLines machines_that(const std::vector<service::MachineUse>& not_in_use, service::UseKind kind);

// Whose gap it is, and what to do about it.
// A heading, and what is not known line by line; empty where all is.
std::string not_known(const std::vector<const service::Gap*>& gaps, const Look& look);

// Where points without anything to go by are told beside, machines of which nothing is recorded are told with them.
std::vector<const service::Gap*> gaps_untold(const std::vector<service::Gap>& gaps,
                                             const std::vector<service::PointName>& told);
std::string not_known(const std::vector<service::Gap>& gaps, const std::vector<service::PointName>& told,
                      const Look& look);

SaidLines::value_type line_of(const service::GapLine& line, const Look& look);
SaidLines::value_type line_of(const service::SeenSign& seen);

}  // namespace cli
