// A page of HTML: one file that needs no script and no network, for a screen, a telephone and paper.
//
//   Page page({"Job sheet, 2026-06-15", "Thrennay estate · 2026-06-15"});
//   Element section = page.body().add("section");
//   section.add("h2").say(machine.name);
//
// It is built as a tree and written down by the library that holds it, which escapes every text and every attribute, so
// nobody makes a tag out of text. What is said is cleaned of control characters first, as text for a terminal is.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace pugi {
class xml_document;
struct xml_node_struct;
}  // namespace pugi

namespace cli {

// A place in a page. Copies are the same place; it lives as long as its page does.
class Element {
 public:
  // A new child behind the others, which is returned. `kinds`: its classes, by which the style sheet knows it.
  Element add(std::string_view tag, std::string_view kinds = {}) const;

  // Each returns the element itself.
  Element say(std::string_view text) const;  // behind what it holds already
  Element with(std::string_view attribute, std::string_view value) const;

 private:
  friend class Page;
  explicit Element(pugi::xml_node_struct* node) : node_(node) {}
  pugi::xml_node_struct* node_;
};

class Page {
 public:
  struct Head {
    std::string title;    // of the window, and of what a browser prints above a page
    std::string running;  // at the top of every printed page
  };

  explicit Page(Head head);
  ~Page();
  Page(Page&&) noexcept;
  Page& operator=(Page&&) noexcept;

  Element body() const;

  // Rules of this kind of page, behind those that all pages share (`style_sheet`).
  void add_style(std::string_view rules);

  // Printed, the element begins a page of its own, and every page that it runs over says this at its top.
  void on_pages_of_its_own(const Element& element, std::string_view running);

  // The whole file, the same each time. The page is as it was.
  std::string text() const;

 private:
  Head head_;
  std::string rules_;
  int named_pages_ = 0;
  std::unique_ptr<pugi::xml_document> tree_;
};

// As a string of a style sheet, quotes and all, whatever it holds.
std::string css_string(std::string_view text);

}  // namespace cli
