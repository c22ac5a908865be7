#include "render/html/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <pugixml.hpp>

#include "render/html/style.h"
#include "service/text.h"

namespace cli {
namespace {

// Elements that hold nothing and have no end tag.
constexpr std::array<std::string_view, 13> voids{"area",  "base", "br",   "col",    "embed", "hr", "img",
                                                 "input", "link", "meta", "source", "track", "wbr"};

bool is_void(std::string_view tag) { return std::find(voids.begin(), voids.end(), tag) != voids.end(); }

class Text : public pugi::xml_writer {
 public:
  void write(const void* data, std::size_t size) override { text_.append(static_cast<const char*>(data), size); }
  std::string take() { return std::move(text_); }

 private:
  std::string text_;
};

pugi::xml_node child(pugi::xml_node parent, const char* tag, std::string_view text = {}) {
  pugi::xml_node made = parent.append_child(tag);
  if (!text.empty()) made.append_child(pugi::node_pcdata).set_value(std::string(text).c_str());
  return made;
}

void meta(pugi::xml_node head, const char* key, const char* name, const char* content) {
  pugi::xml_node made = head.append_child("meta");
  made.append_attribute(key).set_value(name);
  made.append_attribute("content").set_value(content);
}

// What holds nothing and yet has an end tag is written with both tags where it holds an empty text.
void fill_empty(pugi::xml_node node) {
  for (pugi::xml_node inner : node.children()) fill_empty(inner);
  if (node.type() != pugi::node_element || is_void(node.name()) || node.first_child()) return;
  node.append_child(pugi::node_pcdata).set_value("");
}

}  // namespace

Element Element::add(std::string_view tag, std::string_view kinds) const {
  pugi::xml_node made = pugi::xml_node(node_).append_child(std::string(tag).c_str());
  const Element element(made.internal_object());
  return kinds.empty() ? element : element.with("class", kinds);
}

Element Element::say(std::string_view text) const {
  if (!text.empty()) {
    pugi::xml_node(node_).append_child(pugi::node_pcdata).set_value(service::cleaned(text).c_str());
  }
  return *this;
}

Element Element::with(std::string_view attribute, std::string_view value) const {
  const std::string name(attribute);
  pugi::xml_node node(node_);
  pugi::xml_attribute found = node.attribute(name.c_str());
  if (!found) found = node.append_attribute(name.c_str());
  found.set_value(service::cleaned(value).c_str());
  return *this;
}

Page::Page(Head head) : head_(std::move(head)), tree_(std::make_unique<pugi::xml_document>()) {
  tree_->append_child(pugi::node_doctype).set_value("html");
  pugi::xml_node html = child(*tree_, "html");
  html.append_attribute("lang").set_value("en");
  child(html, "head");
  child(html, "body");
}

Page::~Page() = default;
Page::Page(Page&&) noexcept = default;
Page& Page::operator=(Page&&) noexcept = default;

Element Page::body() const { return Element(tree_->child("html").child("body").internal_object()); }

void Page::add_style(std::string_view rules) { rules_ += rules; }

void Page::on_pages_of_its_own(const Element& element, std::string_view running) {
  const std::string name = fmt::format("own-{}", ++named_pages_);
  rules_ += fmt::format("@page {} {{ @top-left {{ content: {}; }} }}\n", name, css_string(service::cleaned(running)));
  element.with("style", fmt::format("page: {}", name));
}

std::string Page::text() const {
  pugi::xml_document written;
  written.reset(*tree_);
  pugi::xml_node head = written.child("html").child("head");
  head.append_child("meta").append_attribute("charset").set_value("utf-8");
  meta(head, "name", "viewport", "width=device-width, initial-scale=1");
  meta(head, "http-equiv", "Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; img-src data:");
  child(head, "title", service::cleaned(head_.title));
  const std::string running = css_string(service::cleaned(head_.running));
  child(head, "style", fmt::format("\n{}@page {{ @top-left {{ content: {}; }} }}\n{}", style_sheet(), running, rules_));
  fill_empty(written.child("html"));
  Text text;
  written.save(text, "", pugi::format_indent | pugi::format_no_declaration, pugi::encoding_utf8);
  return text.take();
}

std::string css_string(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == ' ' ||
                       c == '-' || c == ',' || c == '.' || byte >= 0x80;
    if (plain) {
      quoted += c;
    } else {
      quoted += fmt::format("\\{:06x} ", byte);  // a blank ends the figures and is none of the text
    }
  }
  return quoted + '"';
}

}  // namespace cli
