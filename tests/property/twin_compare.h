// Holds the library's answer about a world against the twin's.
#pragma once

#include <string>

#include "twin/twin.h"

namespace test {

// How a world's facts reach the library: as values, as the text of an export with ids, or as plain rows of text that
// the judge has to accept.
enum class Way { direct, exported, judged };

// Empty where both agree on every point; else the differences in words, with the world as files.
std::string disagreement(const twin::World& world, Way way);

}  // namespace test
