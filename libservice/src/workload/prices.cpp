#include "workload/prices.h"

#include <algorithm>

namespace service::load {

Money cost_of(PartAmount amount, Money price) { return {(amount.hundredths * price.hundredths + 50) / 100}; }

const Part* Prices::part(const std::string& key) const {
  const auto found =
      std::find_if(fleet_.parts.begin(), fleet_.parts.end(), [&](const Part& part) { return part.key == key; });
  return found == fleet_.parts.end() ? nullptr : &*found;
}

std::optional<Money> Prices::of_piece(const std::string& key) const {
  const Part* listed = part(key);
  return listed == nullptr ? std::nullopt : listed->price;
}

std::optional<Money> Prices::of_fluid(const std::string& key, const std::string& unit) const {
  const Part* listed = part(key);
  return listed == nullptr || listed->unit != unit ? std::nullopt : listed->price;
}

Money Prices::of(const Resources& resources) const {
  Money sum;
  for (const auto& [key, pieces] : resources.parts) {
    if (const auto price = of_piece(key)) sum = sum + cost_of(pieces, *price);
  }
  for (const auto& [key, quantity] : resources.fluids) {
    if (const auto price = of_fluid(key, quantity.unit)) sum = sum + cost_of(quantity.amount, *price);
  }
  if (fleet_.costs.hour) sum = sum + Money{(resources.labour_minutes() * fleet_.costs.hour->hundredths + 30) / 60};
  return sum;
}

}  // namespace service::load
