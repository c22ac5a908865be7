// What the commands hand to the renderers, where the library's own values are not the whole answer.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "service/entry.h"
#include "service/record.h"
#include "service/standing.h"

namespace cli {

// What a command that writes did, or would do, and how it is told.
struct Written {
  std::string command;
  service::Entered entered;
  std::size_t left_out = 0;              // rows of a file that were skipped, those that could not be read among them
  std::string rejects;                   // the file that holds them now; empty: none
  std::vector<std::string> understood;   // how a file was read
  std::vector<std::string> what;         // one line a fact
  std::vector<std::string> write_on_it;  // for the new element: day and meter value
  std::vector<std::string> next;         // what follows from it for people
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
