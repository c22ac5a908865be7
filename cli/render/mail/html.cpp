// The letter as a page. Its look stands in the elements where it matters, for some programs take style sheets out; what
// is left reads by day and by night, for no colour of text or ground is said there.
#include <fmt/format.h>

#include "render/html/page.h"
#include "render/mail/letter.h"
#include "service/cautions.h"
#include "terminal/palette.h"

namespace cli {
namespace {

using service::OverdueHeading;

// Beside what must be done, what must be found out, and what waits. Each stands out from white and from black by at
// least 3 to 1; the heading says the same.
Colour beside(OverdueHeading heading) {
  constexpr Colour grey{118, 118, 118};
  switch (heading) {
    case OverdueHeading::out_of_use:
    case OverdueHeading::do_not_run:
    case OverdueHeading::overdue:
      return colour_of(Ink::overdue)->exact;
    case OverdueHeading::seen:
    case OverdueHeading::read_the_meter:
    case OverdueHeading::find_out:
      return colour_of(Ink::no_record)->exact;
    case OverdueHeading::put_off:
    case OverdueHeading::laid_up:
      return grey;
  }
  return grey;
}

std::string with_line(OverdueHeading heading) {
  const Colour colour = beside(heading);
  return fmt::format("border-left: 5px solid #{:02x}{:02x}{:02x}; padding-left: 10px; margin: 10px 0", colour.red,
                     colour.green, colour.blue);
}

constexpr std::string_view narrow = "margin: 2px 0";

void add_first(const Element& body, const std::vector<std::string>& lines) {
  const Element box = body.add("div").with("style", with_line(OverdueHeading::overdue));
  box.add("p").with("style", narrow).add("strong").say("Must not wait:");
  for (const std::string& line : lines) box.add("p").with("style", narrow).say(line);
  box.add("p").with("style", narrow).say("Before you touch a machine: the steps below.");
}

void add_sentences(const Element& body, const std::vector<std::string>& sentences) {
  for (const std::string& sentence : sentences) body.add("p").say(sentence);
}

void add_part(const Element& body, const LetterPart& part) {
  body.add("h2").say(part.title);
  for (const LetterItem& item : part.items) {
    const Element box = body.add("div").with("style", with_line(part.heading));
    box.add("p").with("style", narrow).add("strong").say(item.head);
    for (const std::string& line : item.below) box.add("p").with("style", narrow).say(line);
  }
}

void add_steps(const Element& body, const std::vector<std::string>& cautions) {
  const service::BaseCautions& base = service::base_cautions();
  body.add("h2").say("Before you touch a machine");
  const Element steps = body.add("ol");
  for (const std::string_view step : base.steps) steps.add("li").say(step);
  body.add("p").say(fmt::format("Afterwards: {}.", base.afterwards));
  if (cautions.empty()) return;
  body.add("h2").say("What to mind");
  for (const std::string& written : cautions) {
    const service::Caution* const named = service::caution(written);
    const Element line = body.add("p");
    if (named != nullptr) line.add("strong").say(fmt::format("{}: ", named->name));
    line.say(service::caution_sentence(written)).say(named != nullptr ? "." : "");
  }
}

}  // namespace

std::string letter_as_html(const Letter& letter) {
  const Page page({letter.subject, letter.title});
  const Element body = page.body();
  if (!letter.counts.empty()) body.add("p").say(letter.counts);
  if (!letter.first.empty()) add_first(body, letter.first);
  body.add("h1").say(letter.title);
  add_sentences(body, letter.opening);
  for (const LetterPart& part : letter.parts) add_part(body, part);
  add_sentences(body, letter.word);
  add_sentences(body, letter.closing);
  if (letter.sends_people) add_steps(body, letter.cautions);
  if (!letter.last.empty()) body.add("p").add("strong").say(letter.last);
  return page.text();
}

}  // namespace cli
