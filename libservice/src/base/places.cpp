#include "base/places.h"

#include <algorithm>

namespace service {

Places::Places(std::string_view text, std::string file) : text_(text), file_(std::move(file)), lines_{0} {
  for (std::size_t at = text.find('\n'); at != std::string_view::npos; at = text.find('\n', at + 1)) {
    lines_.push_back(at + 1);
  }
}

int Places::line_of(std::size_t offset) const {
  return static_cast<int>(std::upper_bound(lines_.begin(), lines_.end(), offset) - lines_.begin());
}

Place Places::at(std::size_t offset) const {
  Place place;
  place.file = file_;
  place.line = line_of(offset);
  const std::size_t from = lines_[static_cast<std::size_t>(place.line) - 1];
  std::size_t start = from;
  if (place.line == 1 && text_.starts_with("\xef\xbb\xbf")) start += 3;  // the byte order mark is no character
  std::string_view line = text_.substr(start, text_.find('\n', start) - start);
  if (line.ends_with('\r')) line.remove_suffix(1);
  place.text = line;
  place.column = 1;
  for (std::size_t i = start; i < offset && i < text_.size(); ++i) {
    if ((static_cast<unsigned char>(text_[i]) & 0xc0) != 0x80) ++place.column;
  }
  return place;
}

}  // namespace service
