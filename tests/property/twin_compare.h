// Holds the library's answer about a world against the twin's.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "service/fleet.h"
#include "service/record.h"
#include "twin/twin.h"

namespace test {

// How a world's facts reach the library: as values, as the text of an export with ids, or as plain rows of text that
// the judge has to accept.
enum class Way { direct, exported, judged };

// A world as the library's own values.
struct Built {
  std::shared_ptr<const service::Fleet> fleet;
  std::vector<service::Fact> facts;
  service::Day as_of;
};

Built build(const twin::World& world);

// How many points wanted their meter read, as the twin has it.
struct Compared {
  int past_by_estimate = 0;  // that no fact has brought to their due point
  int reached_and_past = 0;  // due by facts
};

// Empty where both agree on every point; else the differences in words, with the world as files.
std::string disagreement(const twin::World& world, Way way, Compared* compared = nullptr);

}  // namespace test
