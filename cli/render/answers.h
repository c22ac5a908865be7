// What the commands hand to the renderers, where the library's own values are not the whole answer.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "service/record.h"
#include "service/standing.h"

namespace cli {

// What a command that writes did, or would do.
struct Written {
  std::string command;
  service::Day today;
  bool dry_run = false;
  bool about_several = false;  // machines: then each line names its own
  bool takes_back = true;      // `undo` takes back what was added, and nothing else
  std::vector<service::Fact> added;
  int already_there = 0;
  std::vector<service::Diagnostic> refused;  // where bad rows are skipped: what is wrong with them
  std::vector<std::size_t> refused_rows;     // and which they are, among the proposals
  std::size_t left_out = 0;                  // how many rows that were, those that could not be read among them
  std::string rejects;                       // the file that holds them now; empty: none
  std::vector<std::string> understood;       // how a file was read
  std::vector<std::string> what;             // one line a fact
  std::vector<std::string> said;             // what was understood beyond the plain facts
  std::vector<std::string> write_on_it;      // for the new element: day and meter value
  std::vector<std::string> next;             // what follows from it for people
  service::DueList before;
  service::DueList after;
  std::vector<service::PointChange> changes;  // point into the two lists
  std::vector<service::HeadingChange> moves;  // likewise
};

// One standing explained: `why` prints it and reckons nothing.
struct Explained {
  const service::Point* point = nullptr;
  std::string rule;
  std::vector<std::string> facts;
  std::vector<std::string> sums;
  std::vector<std::string> ahead;  // what is expected, and from what
  std::string ruling;
};

// What `check` looked at and found.
struct Checked {
  std::optional<int> machines;  // none: the fleet files cannot be read
  int facts = 0;
  std::vector<service::Diagnostic> findings;
};

struct BookLine {
  service::Fact fact;
  std::string what;  // the task, sign, measurement or meter
  std::string value;
  std::optional<service::Amount> usage;  // lifetime usage, where it differs from what the meter showed
  bool struck = false;
  std::string struck_because;
};

struct Book {
  std::string machine;
  std::string name;
  service::Day as_of;
  service::UseState state;
  std::vector<BookLine> lines;
};

}  // namespace cli
