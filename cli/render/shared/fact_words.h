// A fact in words, as the book of a machine shows it.
#pragma once

#include <string>

#include "service/fleet.h"
#include "service/record.h"

namespace cli {

// Counted one by one: the fleet gives the part no other unit.
bool is_in_pieces(const service::Part& part);

std::string what_of(const service::Fact& fact);                                // `engine-oil`, `restriction`, `engine`
std::string value_of(const service::Fact& fact, const service::Fleet& fleet);  // `1250.0 h`, `4.5 kPa`, `2170 -> 0`
std::string fact_words(const service::Fact& fact, const service::Fleet& fleet);

}  // namespace cli
