// The YAML files of a fleet, parsed, in one compact text.
//
// Parsing is what costs most of a short question, and the files change once a season. The compiled text holds every
// byte of the files it was made of, and a tree out of it is used only for a file that equals its copy byte for byte.
// It holds trees only: what they mean is read, and every rule checked, anew each time.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "fleet/yaml_tree.h"

namespace service::fleet {

class CompiledFiles {
 public:
  // A text of another version, or one that is damaged, holds nothing. `compiled` must outlive it.
  explicit CompiledFiles(std::string_view compiled);

  bool holds(std::string_view text) const { return trees_.contains(text); }
  std::size_t size() const { return trees_.size(); }

  // The tree of a file with this very text.
  std::optional<Node> tree_of(std::string_view text) const;

 private:
  std::map<std::string_view, std::string_view> trees_;  // by the text of the file
};

// `files` is the text of each file, and its root.
std::string compile(const std::map<std::string_view, Node>& files);

}  // namespace service::fleet
