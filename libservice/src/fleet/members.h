// What the parts of a fleet hold, each in one place: whoever goes through all of it goes by this. A part that holds
// something more does not compile here until that is named too.
#pragma once

#include <tuple>

#include "service/fleet.h"

namespace service::fleet {

// The part by which the members are told apart; `whole` is it, const or not.
template <class Part>
struct Of {};

// clang-format off
template <class M> auto members(Of<Meter>, M& whole) { auto& [a, b, c] = whole; return std::tie(a, b, c); }
template <class M> auto members(Of<CalendarSpan>, M& whole) { auto& [a, b] = whole; return std::tie(a, b); }
template <class M> auto members(Of<UsageLimb>, M& whole) { auto& [a, b] = whole; return std::tie(a, b); }
template <class M> auto members(Of<CalendarLimb>, M& whole) { auto& [a] = whole; return std::tie(a); }
template <class M> auto members(Of<ChangesLimb>, M& whole) { auto& [a, b] = whole; return std::tie(a, b); }
template <class M> auto members(Of<MeasuredLimb>, M& whole) { auto& [a, b, c, d] = whole; return std::tie(a, b, c, d); }
template <class M> auto members(Of<SignLimb>, M& whole) { auto& [a] = whole; return std::tie(a); }
template <class M> auto members(Of<SeasonLimb>, M& whole) { auto& [a, b] = whole; return std::tie(a, b); }
template <class M> auto members(Of<Grace>, M& whole) {
  auto& [a, b, c, d, e] = whole;
  return std::tie(a, b, c, d, e);
}
template <class M> auto members(Of<Quantity>, M& whole) { auto& [a, b] = whole; return std::tie(a, b); }
template <class M> auto members(Of<FollowUp>, M& whole) {
  auto& [a, b, c, d, e] = whole;
  return std::tie(a, b, c, d, e);
}
template <class M> auto members(Of<Task>, M& whole) {
  auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, v, w, x, y] = whole;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, t, u, v, w, x, y);
}
template <class M> auto members(Of<Schedule>, M& whole) { auto& [a, b, c, d] = whole; return std::tie(a, b, c, d); }
template <class M> auto members(Of<Start>, M& whole) { auto& [a, b, c] = whole; return std::tie(a, b, c); }
template <class M> auto members(Of<TaskChange>, M& whole) {
  auto& [a, b, c, d, e, f, g, h, i] = whole;
  return std::tie(a, b, c, d, e, f, g, h, i);
}
template <class M> auto members(Of<Expect>, M& whole) { auto& [a, b] = whole; return std::tie(a, b); }
template <class M> auto members(Of<Machine>, M& whole) {
  auto& [a, b, c, d, e, f, g, h, i, j, k, l, m] = whole;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l, m);
}
template <class M> auto members(Of<ClockSpan>, M& whole) { auto& [a, b] = whole; return std::tie(a, b); }
template <class M> auto members(Of<Coordinates>, M& whole) { auto& [a, b] = whole; return std::tie(a, b); }
template <class M> auto members(Of<Site>, M& whole) {
  auto& [a, b, c, d, e, f, g, h, i, j] = whole;
  return std::tie(a, b, c, d, e, f, g, h, i, j);
}
template <class M> auto members(Of<Season>, M& whole) { auto& [a, b, c] = whole; return std::tie(a, b, c); }
template <class M> auto members(Of<MonthDay>, M& whole) { auto& [a, b] = whole; return std::tie(a, b); }
template <class M> auto members(Of<Part>, M& whole) {
  auto& [a, b, c, d, e, f, g, h, i] = whole;
  return std::tie(a, b, c, d, e, f, g, h, i);
}
template <class M> auto members(Of<Crew>, M& whole) {
  auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, n] = whole;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l, m, n);
}
template <class M> auto members(Of<TravelRow>, M& whole) { auto& [a, b, c, d] = whole; return std::tie(a, b, c, d); }
template <class M> auto members(Of<Travel>, M& whole) { auto& [a, b, c, d] = whole; return std::tie(a, b, c, d); }
template <class M> auto members(Of<Costs>, M& whole) { auto& [a, b, c, d] = whole; return std::tie(a, b, c, d); }
template <class M> auto members(Of<Call>, M& whole) {
  auto& [a, b, c, d, e, f, g, h, i, j, k] = whole;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k);
}
template <class M> auto members(Of<Mail>, M& whole) { auto& [a, b, c] = whole; return std::tie(a, b, c); }
template <class M> auto members(Of<Place>, M& whole) {
  auto& [a, b, c, d, e] = whole;
  return std::tie(a, b, c, d, e);
}
template <class M> auto members(Of<Cure>, M& whole) { auto& [a, b] = whole; return std::tie(a, b); }
template <class M> auto members(Of<Diagnostic>, M& whole) {
  auto& [a, b, c, d, e, f] = whole;
  return std::tie(a, b, c, d, e, f);
}
// Without the index, which is made of the rest, and the checksum of the files.
template <class M> auto members(Of<Fleet>, M& whole) {
  auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, index, files] = whole;
  return std::tie(a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p);
}
// clang-format on

}  // namespace service::fleet
