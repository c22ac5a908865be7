// What a forecast of use rests on, in words.
#pragma once

#include <string>

#include "service/forecast.h"

namespace cli {

// `88 % of it in August and September`, `spread over the year`: months with half as much again as the mean.
std::string words_of(const service::BusyMonths& busy);

// Asks whether the last reading is right; empty where use is as before.
std::string words_of(service::UseLately lately, const service::Grounds& grounds, const std::string& unit);

// The same with its meter, where its machine has several: `engine: lately much more than ...`.
std::string words_of(const service::OddUse& odd);

// `from 8.2 years of readings and 2 other machines of its kind; its owner says how much a year`.
std::string words_of(const service::Grounds& grounds, const std::string& unit);

}  // namespace cli
