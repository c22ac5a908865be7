// Collects everything that is wrong in all files, so that one run tells it all.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fleet/codes.h"
#include "fleet/source.h"

namespace service::fleet {

class Diagnostics {
 public:
  void error(const char* code, const Spot& spot, std::string message, std::string hint);
  void remark(const char* code, const Spot& spot, std::string message, std::string hint);

  // In the order of files, lines and columns.
  std::vector<Diagnostic> errors() const { return sorted(Severity::error); }
  std::vector<Diagnostic> remarks() const { return sorted(Severity::remark); }

 private:
  struct Ranked {
    int rank;
    Diagnostic diagnostic;
  };
  void add(Severity severity, const char* code, const Spot& spot, std::string message, std::string hint);
  Place place_of(const Spot& spot);
  std::vector<Diagnostic> sorted(Severity severity) const;

  std::vector<Ranked> found_;
  int in_long_lines_ = 0;
};

// Text from a file as it may stand in a sentence: in quotes, cleaned, and not longer than a phrase.
std::string in_quotes(std::string_view text);

// `a`, `b` and `c`
std::string listed(const std::vector<std::string>& names, std::string_view last_link);

}  // namespace service::fleet
