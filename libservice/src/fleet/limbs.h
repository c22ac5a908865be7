// The limbs of an interval, wherever one is written: `every:`, `first:`, `in:`, `change:` and `within:`.
#pragma once

#include "fleet/reader.h"

namespace service::fleet {

enum class Limbs {
  all,
  usage_and_calendar,  // of a follow-up
};

std::vector<Limb> read_limbs(const Reader& reader, const Field& field, Limbs allowed, LimbNotes& notes);

// `10%`, or a map of units. Meters that it names are noted in the draft.
std::optional<Grace> read_grace(const Reader& reader, const Field& field);

// `{engine: {unit: h}}`, in the order written.
std::vector<Meter> read_meters(const Reader& reader, const Field& field);

}  // namespace service::fleet
