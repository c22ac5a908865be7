// A fact in words, as the book of a machine shows it.
#pragma once

#include <optional>
#include <string>

#include "service/book.h"
#include "service/fleet.h"
#include "service/record.h"

namespace cli {

// Counted one by one: the fleet gives the part no other unit.
bool is_in_pieces(const service::Part& part);

std::string what_of(const service::Fact& fact);  // `engine-oil`, `restriction`, `engine`
// `1250.0 h`, `4.5 kPa`, `2170 -> 0`, `until 1661.9 h on the separator meter`. `shown`: what the meter shows where a
// delay ends (`shown_at_end`); without it the lifetime use is told.
std::string value_of(const service::Fact& fact, const service::Fleet& fleet,
                     const std::optional<service::Amount>& shown = {});
std::string fact_words(const service::Fact& fact, const service::Fleet& fleet,
                       const std::optional<service::Amount>& shown = {});

// Of a line of the book: who did it, how it was found, what was noted, and what became of the fact.
std::string rest_of(const service::BookLine& line);

}  // namespace cli
