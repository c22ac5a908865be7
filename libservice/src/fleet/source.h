// One input file in memory, and places in it. Or a thing that a program made, which is no file and has no places.
//
// Readers keep byte positions, which are cheap; a Place (characters, the line's text) is made only when something is
// said about it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "service/base.h"

namespace service::fleet {

// Line and column from 0, both column and width in bytes. Line -1 means the file as a whole.
struct Span {
  int line = 0;
  int column = 0;
  int width = 1;
};

inline constexpr Span whole_file{-1, 0, 0};

class Source {
 public:
  // `name` is how messages call it, `rank` its place in the order of files, `text` must outlive it.
  Source(std::string name, int rank, std::string_view text);

  // `whose` is what messages about it begin with: "the machine `pump-3`".
  static Source in_code(std::string whose, int rank);
  bool is_file() const { return is_file_; }

  const std::string& name() const { return name_; }
  int rank() const { return rank_; }
  std::string_view text() const { return text_; }
  int lines() const { return static_cast<int>(starts_.size()); }
  std::string_view line(int number) const;  // without its line end; empty beyond the last
  Span span_at(std::size_t offset) const;
  Place place(Span span) const;

 private:
  std::string name_;
  int rank_;
  bool is_file_ = true;
  std::string_view text_;
  std::vector<std::size_t> starts_;
};

struct Spot {
  const Source* source = nullptr;
  Span span;
  Place place() const { return source->place(span); }
  std::string where() const;  // " at fleet.yaml:3:5"; empty where it is in no file
};

std::string_view without_bom(std::string_view text);

}  // namespace service::fleet
