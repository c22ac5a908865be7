// From a command line to an open fleet: which folder, which day, which record.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "run.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"
#include "service/standing.h"

namespace cli {

struct Session {
  std::filesystem::path folder;
  service::FleetFiles files;
  std::shared_ptr<const service::Fleet> fleet;
  service::Day today;
  bool day_is_given = false;  // by --as-of; else it came off the clock
};

// --fleet, else $WHICHEVER_FLEET, else the nearest folder upwards with a fleet.yaml. Fails with not_found.
std::filesystem::path fleet_folder(const Context& context);

Session open_fleet(const Context& context);
Session open_fleet(const Context& context, const std::filesystem::path& folder);

// Fails with not_found where the folder has no record yet. It says how far long work with it is.
service::Record open_record(Context& context, const std::filesystem::path& folder, service::Access access);

// Says how far `what` is; nothing where nobody would see it.
service::Progress telling(ProgressLine& line, std::string what);
inline constexpr const char* deciding_what_is_due = "deciding what is due";

// --- Names as people write them; each fails with usage and the nearest valid names ---

// By key, else the only one whose key or name it is but for case and blanks.
const service::Machine& the_machine(const service::Fleet& fleet, const std::string& written);

const service::Site& the_site(const service::Fleet& fleet, const std::string& written);

// The machines of --machine, --site and the words from this one on, together; all where none is given.
service::Scope scope_of(const Arguments& arguments, const service::Fleet& fleet, std::size_t first_machine);

service::Scope only(const service::Machine& machine);

const service::Season& the_season(const service::Fleet& fleet, const std::string& written);

// The key of a crew that is named likewise; else what was written, and the library says which there are.
std::string crew_told(const service::Fleet& fleet, const std::string& written);

// --- Values of options; each fails with usage ---

service::Day day_option(const Arguments& arguments, const std::string& name, service::Day today);  // else today
// Until when: a day, or how far ahead.
service::Day until_option(const std::string& written, service::Day today);
// --within, or this; the last day inside it. How far an answer looks ahead unless told is the same wherever it is
// given.
inline constexpr const char* due_horizon = "30d";
inline constexpr const char* parts_horizon = "3m";
inline constexpr const char* visits_horizon = "12w";
inline constexpr const char* outlook_horizon = "12m";  // of use and work ahead
service::Day horizon_option(const Arguments& arguments, const std::string& otherwise, service::Day today);
// The same, at most five years ahead.
service::Day outlook_option(const Arguments& arguments, const std::string& otherwise, service::Day today);
// --first: how many of each standing or block.
std::optional<std::size_t> first_option(const Arguments& arguments);
std::optional<service::Amount> amount_option(const Arguments& arguments, const std::string& name);

}  // namespace cli
