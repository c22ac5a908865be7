// YAML as a strict tree in which every key and value knows its place.
//
// Stricter than YAML: one document, no anchors, aliases or tags, no key twice, text as keys, quotes closed on their
// line, bounded depth and size. Each of these is a way in which lines of a file can be lost without a word.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fleet/diagnostics.h"

namespace service::fleet {

struct Entry;

struct Node {
  enum class Kind {
    nothing,  // no value
    scalar,
    list,
    map,
    broken,  // already reported; readers pass over it
  };
  Kind kind = Kind::nothing;
  bool plain = false;  // a scalar without quotes
  Span span;
  std::string text;            // of a scalar
  std::vector<Node> items;     // of a list
  std::vector<Entry> entries;  // of a map, in the order written
};

struct Entry {
  Node key;
  Node value;
};

// The root, or nothing where the text could not be read to its end. Either way what is wrong is with the diagnostics.
std::optional<Node> read_yaml(const Source& source, Diagnostics& diagnostics);

}  // namespace service::fleet
