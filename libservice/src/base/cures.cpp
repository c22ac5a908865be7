#include "service/base.h"

namespace service {

std::string_view to_text(CureKind kind) {
  switch (kind) {
    case CureKind::mend_value:
      return "mend-value";
    case CureKind::other_meter:
      return "other-meter";
    case CureKind::mend_earlier_row:
      return "mend-earlier-row";
    case CureKind::mend_start:
      return "mend-start";
    case CureKind::change_meter:
      return "change-meter";
    case CureKind::roll_over:
      return "roll-over";
    case CureKind::strike_fact:
      return "strike-fact";
    case CureKind::confirm_value:
      return "confirm-value";
    case CureKind::show_facts:
      return "show-facts";
    case CureKind::look_before_again:
      return "look-before-again";
    case CureKind::ask_due_list:
      return "ask-due-list";
    case CureKind::save_legible:
      return "save-legible";
    case CureKind::make_fleet:
      return "make-fleet";
    case CureKind::tell_decimal_mark:
      return "tell-decimal-mark";
    case CureKind::tell_date_order:
      return "tell-date-order";
    case CureKind::next_season:
      return "next-season";
    case CureKind::take_out_of_use:
      return "take-out-of-use";
    case CureKind::tell_found:
      return "tell-found";
    case CureKind::tell_columns:
      return "tell-columns";
    case CureKind::leave_out:
      return "leave-out";
    case CureKind::tell_who:
      return "tell-who";
    case CureKind::ask_season:
      return "ask-season";
  }
  return "";
}

std::string_view Cure::value(std::string_view name) const {
  for (const auto& [key, text] : values) {
    if (key == name) return text;
  }
  return {};
}

}  // namespace service
