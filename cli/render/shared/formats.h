// In which formats an answer can be written. Each answer has one list of them, in its own header; the command table
// takes the names from it, and `written_as` writes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "terminal/fold.h"
#include "terminal/look.h"

namespace cli {

template <class Answer>
class Format {
 public:
  constexpr Format(std::string_view name, std::string (*write)(const Answer&)) : name_(name), plain_(write) {}
  // One that is laid out for people, and folded to the columns.
  constexpr Format(std::string_view name, std::string (*write)(const Answer&, const Look&))
      : name_(name), drawn_(write) {}
  // One that names commands, and is given how they begin (`Look`).
  constexpr Format(std::string_view name, std::string (*write)(const Answer&, const std::string& command))
      : name_(name), naming_(write) {}

  constexpr std::string_view name() const { return name_; }
  std::string write(const Answer& answer, const Look& look) const {
    if (plain_ != nullptr) return plain_(answer);
    if (naming_ != nullptr) return naming_(answer, look.command);
    return folded(drawn_(answer, look), static_cast<std::size_t>(look.columns));
  }

 private:
  std::string_view name_;
  std::string (*plain_)(const Answer&) = nullptr;
  std::string (*drawn_)(const Answer&, const Look&) = nullptr;
  std::string (*naming_)(const Answer&, const std::string&) = nullptr;
};

template <class Formats>
std::vector<std::string_view> names_of(const Formats& formats) {
  std::vector<std::string_view> names;
  for (const auto& format : formats) names.push_back(format.name());
  return names;
}

// In the format of that name, else in the first one. The parser lets no other name through.
template <class Answer, class Formats>
std::string written_as(std::string_view name, const Formats& formats, const Answer& answer, const Look& look) {
  for (const Format<Answer>& format : formats) {
    if (format.name() == name) return format.write(answer, look);
  }
  return formats[0].write(answer, look);
}

}  // namespace cli
