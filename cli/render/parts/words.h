// What is to be bought, in words.
#pragma once

#include <string>
#include <vector>

#include "service/workload.h"
#include "terminal/table.h"

namespace cli {

std::string what_of(const service::PartNeed& need);  // what the fleet file calls it, else its key

// `today, late by 3 days`, `2026-07-10`.
std::string order_words(const service::PartNeed& need, service::Day as_of);

std::string money_words(service::Money money, const service::Fleet& fleet);
std::string each_words(const service::PartNeed& need);  // `14.20 each`, `4.10 a L`; empty without a price
std::string cost_words(const service::PartNeed& need, const service::Fleet& fleet);  // of what is to be bought

// Said where some machines are asked about, for the stock is the whole fleet's.
std::string figures_of_fleet();

// `2 packs of 25`, `3`, `205 L`: how much to buy of it.
std::string to_buy(const service::PartNeed& need);

// `mainland order`, or that nobody says who sells it.
std::string supplier_words(const service::SupplierOrder& order);

// That its needs rest on readings which are hard to believe; said first. Empty where they do not.
std::string parts_doubts(const service::PartsList& list);

// `to 2026-09-15`, `for the work before harvest and to have ready in it`.
std::string parts_span(const service::PartsList& list);

// The rows of a list of parts, each table with the row of its headings first.
struct PartsTables {
  std::vector<Row> shorts;   // order, part, need, in stock, missed from, for
  std::vector<Row> perhaps;  // part, need, in stock, first for, its early end
  std::vector<Row> enough;
  std::vector<Row> others;  // as `shorts`: of a list for a season, what its own work does not take
};

inline constexpr const char* short_for_other_work = "Short for other work before then: order by the day in front";

PartsTables parts_tables(const service::PartsList& list);

// What the words in the columns mean, where they stand.
std::string parts_legend(const service::PartsList& list);

}  // namespace cli
