// The code of every diagnostic of the fleet room, and the only place where one is spelled.
// Each has a folder of the same name under tests/errors, and a line in the table there.
#pragma once

namespace service::fleet::code {

// The folder and its files.
inline constexpr const char* no_such_folder = "no-such-folder";
inline constexpr const char* no_fleet_file = "no-fleet-file";
inline constexpr const char* unreadable_file = "unreadable-file";
inline constexpr const char* wrong_suffix = "wrong-suffix";
inline constexpr const char* file_too_large = "file-too-large";
inline constexpr const char* line_too_long = "line-too-long";
inline constexpr const char* not_utf8 = "not-utf8";
inline constexpr const char* control_character = "control-character";
inline constexpr const char* empty_file = "empty-file";

// YAML.
inline constexpr const char* bad_yaml = "bad-yaml";
inline constexpr const char* unclosed_quote = "unclosed-quote";
inline constexpr const char* second_document = "second-document";
inline constexpr const char* anchor_or_alias = "anchor-or-alias";
inline constexpr const char* explicit_tag = "explicit-tag";
inline constexpr const char* duplicate_key = "duplicate-key";
inline constexpr const char* key_not_text = "key-not-text";
inline constexpr const char* too_deep = "too-deep";
inline constexpr const char* too_many_values = "too-many-values";

// Shape.
inline constexpr const char* unknown_key = "unknown-key";
inline constexpr const char* missing_key = "missing-key";
inline constexpr const char* empty_value = "empty-value";
inline constexpr const char* not_a_map = "not-a-map";
inline constexpr const char* not_a_list = "not-a-list";
inline constexpr const char* not_one_value = "not-one-value";
inline constexpr const char* bad_name = "bad-name";
inline constexpr const char* repeated_value = "repeated-value";

// Values.
inline constexpr const char* bad_number = "bad-number";
inline constexpr const char* out_of_range = "out-of-range";
inline constexpr const char* bad_day = "bad-day";
inline constexpr const char* bad_day_of_year = "bad-day-of-year";
inline constexpr const char* bad_length_of_time = "bad-length-of-time";
inline constexpr const char* bad_number_of_days = "bad-number-of-days";
inline constexpr const char* bad_percent = "bad-percent";
inline constexpr const char* bad_quantity = "bad-quantity";
inline constexpr const char* bad_speed = "bad-speed";
inline constexpr const char* bad_clock_span = "bad-clock-span";
inline constexpr const char* bad_weekday = "bad-weekday";
inline constexpr const char* bad_coordinates = "bad-coordinates";
inline constexpr const char* bad_address = "bad-address";
inline constexpr const char* bad_time_zone = "bad-time-zone";
inline constexpr const char* bad_choice = "bad-choice";
inline constexpr const char* bad_yes_or_no = "bad-yes-or-no";
inline constexpr const char* bad_position = "bad-position";

// Limbs.
inline constexpr const char* no_limb = "no-limb";
inline constexpr const char* two_calendar_units = "two-calendar-units";
inline constexpr const char* above_or_below = "above-or-below";
inline constexpr const char* wrong_limb = "wrong-limb";
inline constexpr const char* no_hour_meter = "no-hour-meter";
inline constexpr const char* same_meter_twice = "same-meter-twice";
inline constexpr const char* changes_of_itself = "changes-of-itself";
inline constexpr const char* ring_of_covers = "ring-of-covers";

// Names that are nowhere.
inline constexpr const char* unknown_schedule = "unknown-schedule";
inline constexpr const char* unknown_site = "unknown-site";
inline constexpr const char* unknown_season = "unknown-season";
inline constexpr const char* unknown_machine = "unknown-machine";
inline constexpr const char* unknown_task = "unknown-task";
inline constexpr const char* unknown_meter = "unknown-meter";
inline constexpr const char* unknown_caution = "unknown-caution";

// Things that contradict each other.
inline constexpr const char* schedule_name = "schedule-name";
inline constexpr const char* no_machines = "no-machines";
inline constexpr const char* no_tasks = "no-tasks";
inline constexpr const char* duplicate_machine = "duplicate-machine";
inline constexpr const char* two_starts = "two-starts";
inline constexpr const char* left_before_start = "left-before-start";
inline constexpr const char* seasons_above_year = "seasons-above-year";
inline constexpr const char* site_or_machine = "site-or-machine";
inline constexpr const char* from_after_by = "from-after-by";
inline constexpr const char* carried_fluid = "carried-fluid";
inline constexpr const char* overlapping_hours = "overlapping-hours";

// The register, and CSV files in general.
inline constexpr const char* unknown_column = "unknown-column";
inline constexpr const char* missing_column = "missing-column";
inline constexpr const char* duplicate_column = "duplicate-column";
inline constexpr const char* ragged_row = "ragged-row";
inline constexpr const char* two_readings = "two-readings";
inline constexpr const char* mixed_dialect = "mixed-dialect";
inline constexpr const char* bad_quote = "bad-quote";

// The travel table.
inline constexpr const char* bad_file_name = "bad-file-name";
inline constexpr const char* no_travel_table = "no-travel-table";
inline constexpr const char* way_to_itself = "way-to-itself";

// Remarks.
inline constexpr const char* grace_on_safety = "grace-on-safety";
inline constexpr const char* grace_on_examination = "grace-on-examination";
inline constexpr const char* until_on_safety = "until-on-safety";
inline constexpr const char* safety_interval_longer = "safety-interval-longer";
inline constexpr const char* examination_covered = "examination-covered";
inline constexpr const char* condition_unused = "condition-unused";
inline constexpr const char* machine_without_site = "machine-without-site";
inline constexpr const char* part_not_listed = "part-not-listed";
inline constexpr const char* part_not_used = "part-not-used";

}  // namespace service::fleet::code
