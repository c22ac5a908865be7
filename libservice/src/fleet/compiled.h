// A fleet as it was read from its files, in one compact text.
//
// Reading is what costs most of a short question, and the files change once a season. The compiled text holds every
// byte of the files and says by which text of this program they were read: where all that is the same, the fleet is
// what reading them would give. Files with a mistake are never compiled.
#pragma once

#include <optional>
#include <string>

#include "service/fleet.h"

namespace service::fleet {

// As it is written, from files that gave this fleet.
std::string compiled(const FleetFiles& files, const Fleet& fleet);

// Whether `files.compiled` is of these very files, whole, and of this program.
bool is_of(const FleetFiles& files);

// The fleet without its index and checksum; nothing where the text is not of these files.
std::optional<Fleet> from_compiled(const FleetFiles& files);

// How a file of a fleet is named in messages.
std::string shown_name(const FleetFiles& files, const std::string& name);

}  // namespace service::fleet
