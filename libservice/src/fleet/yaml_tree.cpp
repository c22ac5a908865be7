#include "fleet/yaml_tree.h"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <array>
#include <sstream>
#include <unordered_map>

#include "fleet/guard.h"
#include "fleet/open_quote.h"

namespace service::fleet {
namespace {

constexpr std::size_t deepest = 32;
constexpr std::size_t most_nodes = 2'000'000;

// Thrown out of the event handler when going on would only produce nonsense. The reason is with the diagnostics.
struct Stop {};

Span span_of(const YAML::Mark& mark, const Source& source) {
  if (mark.is_null()) return {};
  const int last = source.lines() - 1;
  if (mark.line > last) return {last, static_cast<int>(source.line(last).size()), 1};
  return {mark.line, mark.column, 1};
}

// How much of its first line a scalar takes.
int width_of(std::string_view rest, bool plain, std::string_view value) {
  if (!plain && !rest.empty() && (rest.front() == '|' || rest.front() == '>')) return 1;
  if (plain && rest.starts_with(value)) return static_cast<int>(value.size());
  if (const auto end = end_of_quoted(rest)) return static_cast<int>(*end);
  const std::size_t last = rest.find_last_not_of(" \t");
  return last == std::string_view::npos ? 1 : static_cast<int>(last) + 1;
}

class TreeBuilder : public YAML::EventHandler {
 public:
  TreeBuilder(const Source& source, Diagnostics& diagnostics) : source_(source), diagnostics_(diagnostics) {}

  bool documents_started() const { return documents_ > 0; }
  Span last_span() const { return last_; }
  Node take_root() { return std::move(root_); }

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (++documents_ == 1) return;
    const Span span = span_of(mark, source_);
    if (source_.line(span.line).substr(static_cast<std::size_t>(span.column)).starts_with("---")) {
      error(code::second_document, span, "a second document begins here",
            "put it into a file of its own, or join the two");
    } else {
      error(code::second_document, span, "this does not belong to what stands before it",
            "the file is one map of keys and values: check the indentation and stray characters");
    }
    throw Stop{};
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    add({Node::Kind::nothing, true, span_of(mark, source_), {}, {}, {}});
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    const Span span = span_of(mark, source_);
    refuse_alias(span);
    add({Node::Kind::broken, true, span, {}, {}, {}});
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    Span span = span_of(mark, source_);
    const bool refused = refuse_properties(span, tag, anchor);
    const bool plain = tag == "?";
    const std::string_view line = source_.line(span.line);
    const std::string_view rest = line.substr(std::min(line.size(), static_cast<std::size_t>(span.column)));
    if (!plain && !refused && opens_quote(rest) && !end_of_quoted(rest)) {
      report_open_quote(source_, span, diagnostics_);
      throw Stop{};
    }
    span.width = width_of(rest, plain, value);
    if (const auto control = first_control_character(value)) {  // by an escape; the text as a whole has none
      error(code::control_character, span, fmt::format("the text holds a control character (U+{:04X})", control->value),
            "leave the escape out");
      add({Node::Kind::broken, plain, span, {}, {}, {}});
      return;
    }
    add({refused ? Node::Kind::broken : Node::Kind::scalar, plain, span, value, {}, {}});
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value /*style*/) override {
    open(Node::Kind::list, mark, tag, anchor);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value /*style*/) override {
    open(Node::Kind::map, mark, tag, anchor);
  }
  void OnMapEnd() override { close(); }

 private:
  struct Open {
    Node node;
    std::optional<Node> key;                     // of a map: the one whose value comes next
    std::unordered_map<std::string, int> lines;  // of a map: on which line each key stands
  };

  void error(const char* code, Span span, std::string message, std::string hint) {
    diagnostics_.error(code, {&source_, span}, std::move(message), std::move(hint));
  }

  void refuse_alias(Span span) {
    error(code::anchor_or_alias, span, "anchors (`&name`) and aliases (`*name`) are not read",
          "write the value out, or put it in quotes if it is meant to be text");
  }

  bool refuse_properties(Span span, const std::string& tag, YAML::anchor_t anchor) {
    const std::string_view line = source_.line(span.line);
    const char first =
        static_cast<std::size_t>(span.column) < line.size() ? line[static_cast<std::size_t>(span.column)] : ' ';
    if (first == '!' || (tag != "?" && tag != "!" && !tag.empty())) {
      error(code::explicit_tag, span, "tags (`!name`) are not read", "leave the tag out, or put the text in quotes");
      return true;
    }
    if (anchor != 0 || first == '&') {
      refuse_alias(span);
      return true;
    }
    return false;
  }

  void count_node(Span span) {
    last_ = span;
    if (++nodes_ <= most_nodes) return;
    error(code::too_many_values, span, fmt::format("the file holds more than {} keys and values", most_nodes),
          "large fleets are best listed in register.csv");
    throw Stop{};
  }

  void open(Node::Kind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) {
    const Span span = span_of(mark, source_);
    refuse_properties(span, tag, anchor);
    count_node(span);
    if (stack_.size() == deepest) {
      error(code::too_deep, span, fmt::format("lists and maps are nested more than {} deep here", deepest),
            "check the brackets and the indentation");
      throw Stop{};
    }
    stack_.push_back({{kind, false, span, {}, {}, {}}, std::nullopt, {}});
  }

  void close() {
    Node node = std::move(stack_.back().node);
    stack_.pop_back();
    place(std::move(node));
  }

  void add(Node node) {
    count_node(node.span);
    place(std::move(node));
  }

  void place(Node node) {
    if (stack_.empty()) {
      root_ = std::move(node);
      return;
    }
    Open& top = stack_.back();
    if (top.node.kind == Node::Kind::list) {
      top.node.items.push_back(std::move(node));
    } else if (!top.key) {
      if (node.kind != Node::Kind::scalar && node.kind != Node::Kind::broken) {
        error(code::key_not_text, node.span, "a key must be a word", "write `key: value`; put odd words in quotes");
        node.kind = Node::Kind::broken;
      }
      top.key = std::move(node);
    } else {
      place_value(top, std::move(node));
    }
  }

  void place_value(Open& top, Node value) {
    Node key = std::move(*top.key);
    top.key.reset();
    if (key.kind != Node::Kind::scalar) return;
    const auto [known, fresh] = top.lines.try_emplace(key.text, key.span.line + 1);
    if (fresh) {
      top.node.entries.push_back({std::move(key), std::move(value)});
    } else {
      error(code::duplicate_key, key.span,
            fmt::format("`{}` is here twice; it stands on line {} already", cleaned(key.text), known->second),
            "keep one of the two, or give the second one its own name");
    }
  }

  const Source& source_;
  Diagnostics& diagnostics_;
  int documents_ = 0;
  std::size_t nodes_ = 0;
  Span last_;
  std::vector<Open> stack_;
  Node root_;
};

// The parser's complaints in our words. A complaint may go on with the offending text, so its beginning decides.
struct Words {
  std::string_view complaint;
  const char* code;
  const char* message;
  const char* hint;
};

namespace say = YAML::ErrorMsg;
constexpr const char* check_indentation = "check the indentation of this line and of the one before it";
constexpr const char* no_directives = "a line that starts with `%` is a directive, which is not needed here";
constexpr const char* no_tags = "tags (`!name`) are not read";
constexpr const char* no_anchors = "anchors (`&name`) and aliases (`*name`) are not read";
constexpr const char* quote_it = "put the text in quotes";
constexpr const char* bad_escape = "a backslash inside double quotes starts an escape, and there is none like this";
constexpr const char* single_quotes = "use single quotes for text with a backslash";
constexpr const char* bad_block = "a block of text (`|` or `>`) is not begun properly here";

const std::array known_complaints{
    Words{say::TAB_IN_INDENTATION, code::bad_yaml, "a tab is used to indent", "indent with blanks only"},
    Words{say::END_OF_MAP_FLOW, code::bad_yaml, "the `{` before this is not followed by `key: value` pairs and a `}`",
          "write {key: value, key: value}; put text that holds , : { } [ ] # in quotes"},
    Words{say::END_OF_SEQ_FLOW, code::bad_yaml, "the `[` before this is not followed by a list and a `]`",
          "write [one, two]; put text that holds , : { } [ ] # in quotes"},
    Words{say::END_OF_MAP, code::bad_yaml, "this line does not fit among the keys before it",
          "check the indentation, and that a colon and a blank stand between key and value"},
    Words{say::END_OF_SEQ, code::bad_yaml, "this line does not fit in the list before it", check_indentation},
    Words{say::MAP_KEY, code::bad_yaml, "a key cannot stand here", check_indentation},
    Words{say::MAP_VALUE, code::bad_yaml, "a colon followed by a blank cannot stand here",
          "put text that holds a colon and a blank in quotes, or check the indentation"},
    Words{say::BLOCK_ENTRY, code::bad_yaml, "a list item (`- `) cannot stand here", check_indentation},
    Words{say::FLOW_END, code::bad_yaml, "this bracket closes nothing", "delete it, or open it before"},
    Words{say::INVALID_ESCAPE, code::bad_yaml, bad_escape, single_quotes},
    Words{say::INVALID_UNICODE, code::bad_yaml, bad_escape, single_quotes},
    Words{say::INVALID_HEX, code::bad_yaml, bad_escape, single_quotes},
    Words{say::UNKNOWN_TOKEN, code::bad_yaml, "a value cannot start with this character", quote_it},
    Words{say::CHAR_IN_BLOCK, code::bad_yaml, bad_block, "write `key: |` and the text indented below it"},
    Words{say::ZERO_INDENT_IN_BLOCK, code::bad_yaml, bad_block, "write `key: |` and the text indented below it"},
    Words{say::CHAR_IN_SCALAR, code::bad_yaml, "a value cannot hold this character", quote_it},
    Words{say::YAML_DIRECTIVE_ARGS, code::bad_yaml, no_directives, "delete the line"},
    Words{say::YAML_VERSION, code::bad_yaml, no_directives, "delete the line"},
    Words{say::YAML_MAJOR_VERSION, code::bad_yaml, no_directives, "delete the line"},
    Words{say::REPEATED_YAML_DIRECTIVE, code::bad_yaml, no_directives, "delete the line"},
    Words{say::TAG_DIRECTIVE_ARGS, code::bad_yaml, no_directives, "delete the line"},
    Words{say::REPEATED_TAG_DIRECTIVE, code::bad_yaml, no_directives, "delete the line"},
    Words{say::CHAR_IN_TAG_HANDLE, code::explicit_tag, no_tags, quote_it},
    Words{say::TAG_WITH_NO_SUFFIX, code::explicit_tag, no_tags, quote_it},
    Words{say::END_OF_VERBATIM_TAG, code::explicit_tag, no_tags, quote_it},
    Words{say::MULTIPLE_TAGS, code::explicit_tag, no_tags, quote_it},
    Words{say::MULTIPLE_ANCHORS, code::anchor_or_alias, no_anchors, quote_it},
    Words{say::MULTIPLE_ALIASES, code::anchor_or_alias, no_anchors, quote_it},
    Words{say::ALIAS_CONTENT, code::anchor_or_alias, no_anchors, quote_it},
    Words{say::ALIAS_NOT_FOUND, code::anchor_or_alias, no_anchors, quote_it},
    Words{say::ANCHOR_NOT_FOUND, code::anchor_or_alias, no_anchors, quote_it},
    Words{say::CHAR_IN_ALIAS, code::anchor_or_alias, no_anchors, quote_it},
    Words{say::CHAR_IN_ANCHOR, code::anchor_or_alias, no_anchors, quote_it},
    Words{say::UNKNOWN_ANCHOR, code::anchor_or_alias, no_anchors, quote_it},
    Words{say::BAD_FILE, code::too_deep, "lists and maps are nested too deep here", "check the brackets"},
};

Words in_our_words(std::string_view complaint) {
  const auto* const known = std::find_if(known_complaints.begin(), known_complaints.end(),
                                         [&](const Words& words) { return complaint.starts_with(words.complaint); });
  if (known != known_complaints.end()) return *known;
  return {{}, code::bad_yaml, "the text cannot be read as YAML here", check_indentation};
}

void report(const YAML::Exception& complaint, const TreeBuilder& builder, const Source& source,
            Diagnostics& diagnostics) {
  // The parser notices an open quote only where the text after it makes no sense; people look where it was opened.
  const Span at = span_of(complaint.mark, source);
  if (const auto opened = open_quote_between(source, builder.last_span(), at)) {
    report_open_quote(source, *opened, diagnostics);
    return;
  }
  // Nor does it always see that a tab is why a line does not fit.
  const std::string_view line = source.line(at.line);
  const std::size_t tab = line.substr(0, line.find_first_not_of(" \t")).find('\t');
  if (tab != std::string_view::npos) {
    diagnostics.error(code::bad_yaml, {&source, {at.line, static_cast<int>(tab), 1}}, "a tab is used to indent",
                      "indent with blanks only");
    return;
  }
  const Words words = in_our_words(complaint.msg);
  diagnostics.error(words.code, {&source, at}, words.message, words.hint);
}

}  // namespace

std::optional<Node> read_yaml(const Source& source, Diagnostics& diagnostics) {
  if (!fit_to_read(source, yaml_limit, diagnostics)) return std::nullopt;
  // An open quote would reach to the end of the file and be taken; an end of document inside of it is an error.
  std::istringstream guarded(std::string(source.text()) + "\n...\n");
  TreeBuilder builder(source, diagnostics);
  try {
    YAML::Parser parser(guarded);
    parser.HandleNextDocument(builder);
    // Only ever twice: on some malformed texts the parser goes on giving documents without reading on.
    parser.HandleNextDocument(builder);
  } catch (const Stop&) {
    return std::nullopt;
  } catch (const YAML::Exception& complaint) {
    report(complaint, builder, source, diagnostics);
    return std::nullopt;
  }
  Node root = builder.take_root();
  if (root.kind != Node::Kind::nothing) return root;
  diagnostics.error(code::empty_file, {&source, {}}, "the file holds nothing", "write its keys, or delete the file");
  return std::nullopt;
}

}  // namespace service::fleet
