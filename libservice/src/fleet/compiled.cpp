#include "fleet/compiled.h"

#include <algorithm>
#include <cstdint>

#include "base/checksum.h"

namespace service::fleet {
namespace {

// To be changed with anything that changes a tree or the way in which it is written here. The version of the program
// stands beside it, for who changes the one may forget the other.
constexpr std::string_view header = "whichever compiled fleet 1, of version " WHICHEVER_VERSION "\n";

class Writer {
 public:
  std::string text;

  void number(std::uint64_t value) {
    for (; value >= 0x80; value >>= 7U) text += static_cast<char>(0x80U | (value & 0x7FU));
    text += static_cast<char>(value);
  }

  void words(std::string_view value) {
    number(value.size());
    text += value;
  }

  void node(const Node& node) {
    number(static_cast<std::uint64_t>(node.kind) << 1U | (node.plain ? 1U : 0U));
    number(static_cast<std::uint64_t>(node.span.line) + 1);  // a line may be -1
    number(static_cast<std::uint64_t>(node.span.column));
    number(static_cast<std::uint64_t>(node.span.width));
    words(node.text);
    number(node.items.size());
    for (const Node& item : node.items) this->node(item);
    number(node.entries.size());
    for (const Entry& entry : node.entries) {
      this->node(entry.key);
      this->node(entry.value);
    }
  }
};

// Its input agreed with its checksum and was made by a Writer of the same version; it only never reads past the end.
class ByteReader {
 public:
  explicit ByteReader(std::string_view text) : rest_(text) {}

  bool at_end() const { return rest_.empty(); }

  std::uint64_t number() {
    std::uint64_t value = 0;
    for (unsigned shift = 0; shift < 64 && !rest_.empty(); shift += 7) {
      const auto byte = static_cast<unsigned char>(rest_.front());
      rest_.remove_prefix(1);
      value |= (std::uint64_t{byte} & 0x7FU) << shift;
      if (byte < 0x80) break;
    }
    return value;
  }

  int small() { return static_cast<int>(number()); }

  std::string_view words() {
    const std::string_view value = rest_.substr(0, static_cast<std::size_t>(number_then_bound()));
    rest_.remove_prefix(value.size());
    return value;
  }

  Node node() {
    Node node;
    const int kind = small();
    node.kind = static_cast<Node::Kind>(kind >> 1);
    node.plain = (kind & 1) != 0;
    node.span.line = small() - 1;
    node.span.column = small();
    node.span.width = small();
    node.text = words();
    const auto items = number_then_bound();
    node.items.reserve(items);
    for (std::size_t i = 0; i < items; ++i) node.items.push_back(this->node());
    const auto entries = number_then_bound();
    node.entries.reserve(entries);
    for (std::size_t i = 0; i < entries; ++i) {
      Node key = this->node();
      node.entries.push_back({std::move(key), this->node()});
    }
    return node;
  }

 private:
  // A count of things that take a byte at least.
  std::size_t number_then_bound() {
    const std::uint64_t value = number();
    return static_cast<std::size_t>(std::min<std::uint64_t>(value, rest_.size()));
  }

  std::string_view rest_;
};

}  // namespace

CompiledFiles::CompiledFiles(std::string_view compiled) {
  if (!compiled.starts_with(header)) return;
  compiled.remove_prefix(header.size());
  constexpr std::size_t sum_size = 8;
  if (compiled.size() < sum_size) return;
  std::uint64_t sum = 0;
  for (std::size_t i = 0; i < sum_size; ++i) sum |= std::uint64_t{static_cast<unsigned char>(compiled[i])} << (8 * i);
  compiled.remove_prefix(sum_size);
  if (sum != checksum_of(compiled)) return;
  for (ByteReader reader(compiled); !reader.at_end();) {
    const std::string_view text = reader.words();
    trees_.emplace(text, reader.words());
  }
}

std::optional<Node> CompiledFiles::tree_of(std::string_view text) const {
  const auto found = trees_.find(text);
  if (found == trees_.end()) return std::nullopt;
  return ByteReader(found->second).node();
}

std::string compile(const std::map<std::string_view, Node>& files) {
  Writer body;
  for (const auto& [text, root] : files) {
    Writer tree;
    tree.node(root);
    body.words(text);
    body.words(tree.text);
  }
  std::string compiled(header);
  const std::uint64_t sum = checksum_of(body.text);
  for (unsigned shift = 0; shift < 64; shift += 8) compiled += static_cast<char>(sum >> shift & 0xFFU);
  return compiled + body.text;
}

}  // namespace service::fleet
