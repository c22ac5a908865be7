#include "terminal/palette.h"

namespace cli {
namespace {

// From M. Okabe and K. Ito, "Color Universal Design" (2008): colours that people with any kind of colour vision
// tell apart.
constexpr StandingColour vermillion{{213, 94, 0}, 166};
constexpr StandingColour orange{{230, 159, 0}, 178};
constexpr StandingColour sky_blue{{86, 180, 233}, 74};
constexpr StandingColour reddish_purple{{204, 121, 167}, 175};

}  // namespace

const StandingColour* colour_of(Ink ink) {
  switch (ink) {
    case Ink::overdue:
      return &vermillion;
    case Ink::due:
      return &orange;
    case Ink::coming:
      return &sky_blue;
    case Ink::no_record:
      return &reddish_purple;
    case Ink::plain:
    case Ink::quiet:
    case Ink::strong:
      return nullptr;
  }
  return nullptr;
}

Ink ink_of(service::Standing standing) {
  switch (standing) {
    case service::Standing::overdue:
      return Ink::overdue;
    case service::Standing::due:
      return Ink::due;
    case service::Standing::coming:
      return Ink::coming;
    case service::Standing::no_record:
      return Ink::no_record;
    case service::Standing::later:
      return Ink::plain;
  }
  return Ink::plain;
}

}  // namespace cli
