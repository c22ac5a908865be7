// Taking over: a fleet out of a spreadsheet of machines as somebody keeps it.
//
//   const TakenOver taken = take_over(bytes, ask);              // or a Failure that lists all that must be asked back
//   for (const auto& [name, text] : taken.files) write(name, text);  // fleet.yaml after the record: it makes the fleet
//   make_record(taken, "farm/record.db", writer);
//
// The spreadsheet is text: fields between commas, semicolons or tabs, in UTF-8, UTF-16 or Windows-1252. Nothing is
// written here; what was understood comes as a value, with every column that was left alone and every row put aside.
#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "service/base.h"
#include "service/due_list.h"
#include "service/entry.h"
#include "service/fleet.h"
#include "service/record.h"

#pragma GCC visibility push(default)

namespace service {

// What a column of somebody's spreadsheet can hold. `at` is a reading, of the day `on`; what the meter showed when the
// machine came stands in `in-service-at` or `bought-at`.
enum class TakenColumn {
  machine,
  name,
  schedule,
  site,
  serial,
  in_service,
  in_service_at,
  bought,
  bought_at,
  at,
  on,
  per_year,
  notes
};

std::string_view to_text(TakenColumn column);  // `in-service-at`
std::optional<TakenColumn> parse_taken_column(std::string_view name);

// What a heading means in everyday words of several languages: `Betriebsstunden` is `at`. Nothing where it is no such
// word.
std::optional<TakenColumn> guess_column(std::string_view heading);

enum class TextEncoding { utf8, utf16, windows_1252 };

std::string_view to_text(TextEncoding encoding);  // `Windows-1252`

struct TakeOverAsk {
  std::string file;                                          // how messages call it
  std::string fleet_name;                                    // what the fleet is to be called
  std::vector<std::pair<std::string, std::string>> columns;  // told: heading and column; the others are guessed
  std::string schedule = "example";                          // of machines whose row names none
  Dialect told;                                              // what is told of numbers and days
  Day today;                                                 // no reading is of a later day
  std::optional<Day> read_on;                                // the day of readings whose row has none; else today
  bool skip_bad = false;                                     // leave out what must be asked back, and say so
  std::map<std::string, std::string> schedules;              // those there already: `schedules/pump.yaml` and text
  std::string starter;  // the text of a schedule of example values for those not there; its name stands as NAME
};

struct TakenOver {
  // How the file was read.
  std::string file;
  Day today;  // the day asked about
  TextEncoding encoding = TextEncoding::utf8;
  char separator = ',';
  Dialect dialect;
  std::string number_settled_by;  // the field that told
  std::string dates_settled_by;

  struct Column {
    int number = 0;                     // from 1
    std::string heading;                // may be empty
    std::optional<TakenColumn> column;  // none: left alone
    bool told = false;                  // else guessed
  };
  std::vector<Column> columns;  // in the order of the file; without those that hold nothing at all

  // Rows that are no machine, and why; with `skip_bad` also those that could not be taken.
  struct RowAside {
    int line = 0;
    std::string row;  // as it was written
    std::string why;
  };
  std::vector<RowAside> aside;

  // With `skip_bad`: a field that was left out, and its machine kept.
  struct FieldLeftOut {
    Diagnostic what;
    std::string machine;  // its key
    std::string heading;  // of the column
    std::string value;    // as it was written
    std::string besides;  // what else went with it: `the reading 1200`; may be empty
  };
  std::vector<FieldLeftOut> left_out;

  struct MachineTaken {
    int line = 0;
    std::string key;
    std::string name;
    std::string schedule;
    std::string site;
    std::optional<Amount> at;  // what its meter showed
    std::optional<Day> on;     // and when
    std::string notes;         // they may tell of a fault, and are in no list: nobody can read that off words
  };
  std::vector<MachineTaken> machines;

  // Two machines whose names give one key: the later one got a number. Indexes of `machines`.
  struct Alike {
    std::size_t first = 0;
    std::size_t later = 0;
  };
  std::vector<Alike> alike;

  // Machines that went into service so long ago that services have come due since, though none is written down: keys.
  // The register has their day as `bought`, so those services are asked for and not called overdue.
  std::vector<std::string> services_not_known;
  int without_day = 0;                         // readings whose row gives no day
  Day read_on;                                 // which were taken to be of this one
  std::vector<std::string> example_schedules;  // written with example values

  std::map<std::string, std::string> files;  // names within the folder and texts; fleet.yaml, register.csv, schedules
  std::shared_ptr<const Fleet> fleet;        // what they say, and the schedules that were there
  std::vector<Fact> readings;
  std::shared_ptr<const DueList> list;  // with these readings and nothing else; `find_out` tells what to ask
};

// Fails with usage where columns are told that are not there, and with bad_data where the file cannot be read or where
// something must be asked back: a machine that is there twice, a field that is no number or no day, a reading that
// cannot be true, a day or a figure that cannot be. All of it is told at once. With `skip_bad` such rows and fields are
// left out, and machines are kept wherever only a field is wrong. Fails with bad_fleet where a schedule that is there
// already is wrong.
TakenOver take_over(std::string_view bytes, const TakeOverAsk& ask);

// The record of such a fleet: there whole, with its readings, or not at all. Their origin is `new` and the name of the
// spreadsheet. Fails as `Record::create` and `Record::append` do.
void make_record(const TakenOver& taken, const std::filesystem::path& record, const Writer& writer);

// Whether a record can be read and holds nothing but what `make_record` put in.
bool holds_only_taken_over(const std::filesystem::path& record);

}  // namespace service

#pragma GCC visibility pop
