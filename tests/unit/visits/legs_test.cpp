// How far it is from site to site, how long it takes and what it costs.
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>
#include <numbers>

#include "unit/visits/estate.h"
#include "visits/great_circle.h"

using namespace service;

namespace {

struct Ways {
  estate::Estate estate;
  explicit Ways(const estate::Texts& texts = {}) : estate(texts) {}
  const Fleet& fleet() const { return estate.world.fleet(); }
  const Crew& crew(std::size_t number = 0) const { return fleet().crews[number]; }
  std::optional<Leg> leg(std::string_view from, std::string_view to, std::size_t crew_number = 0) const {
    return leg_of(fleet(), crew(crew_number), *fleet().site(from), *fleet().site(to));
  }
};

// The angle between two directions from the middle of the earth, another way to the same figure.
double km_by_vectors(const Coordinates& a, const Coordinates& b) {
  struct Vector {
    double x, y, z;
  };
  const auto direction = [](const Coordinates& at) {
    const double latitude = static_cast<double>(at.latitude) / 1e6 * std::numbers::pi / 180;
    const double longitude = static_cast<double>(at.longitude) / 1e6 * std::numbers::pi / 180;
    return Vector{std::cos(latitude) * std::cos(longitude), std::cos(latitude) * std::sin(longitude),
                  std::sin(latitude)};
  };
  const Vector u = direction(a);
  const Vector v = direction(b);
  const Vector cross{u.y * v.z - u.z * v.y, u.z * v.x - u.x * v.z, u.x * v.y - u.y * v.x};
  const double sine = std::sqrt(cross.x * cross.x + cross.y * cross.y + cross.z * cross.z);
  return 6371.0088 * std::atan2(sine, u.x * v.x + u.y * v.y + u.z * v.z);
}

}  // namespace

TEST_CASE("a way by the map") {
  const Ways ways;
  CHECK((ways.leg("workshop", "holm") == Leg{23, 182}));
  CHECK((ways.leg("holm", "workshop") == Leg{23, 182}));
  CHECK((ways.leg("workshop", "beck") == Leg{22, 172}));
  CHECK((ways.leg("beck", "beck") == Leg{0, 0}));
}

TEST_CASE("minutes are rounded up, exactly") {
  estate::Texts texts;
  texts.crews +=
      "  slow: {start: workshop, hours: {}, speed: 36.4 km/h}\n  slower: {start: workshop, hours: {}, speed: 36.39 "
      "km/h}\n";
  const Ways ways(texts);
  CHECK(ways.leg("workshop", "holm", 1)->minutes == 30);  // 18.2 km at 36.4 km/h are half an hour to the second
  CHECK(ways.leg("workshop", "holm", 2)->minutes == 31);
}

TEST_CASE("where there is no travel section, roads are 1.3 times as long and driven at 50 km/h") {
  estate::Texts texts;
  texts.travel = "{}";
  const Ways ways(texts);
  CHECK((ways.leg("workshop", "holm") == Leg{22, 182}));
}

TEST_CASE("a row of the table goes before the map, in its direction alone") {
  estate::Texts texts;
  texts.travel = "{road-factor: 1.3, speed: 48 km/h, table: travel.csv}";
  texts.table = "from,to,minutes,km\nworkshop,holm,31,20.5\nbeck,holm,70,33.25\nbeck,croft,12,8\n";
  texts.sites += "  croft: {name: Croft}\n";
  const Ways ways(texts);
  CHECK((ways.leg("workshop", "holm") == Leg{31, 205}));
  CHECK((ways.leg("holm", "workshop") == Leg{23, 182}));
  CHECK((ways.leg("beck", "holm") == Leg{70, 333}));
  CHECK((ways.leg("beck", "croft") == Leg{12, 80}));
  CHECK((ways.leg("croft", "beck") == std::nullopt));  // nothing tells where it is
}

TEST_CASE("the money of a way and of a set-up is rounded once") {
  estate::Texts texts;
  texts.crews +=
      "  odd: {start: workshop, hours: {}, per-hour: 43.99, per-km: 0.33}\n"
      "  cheap: {start: workshop, hours: {}, per-hour: 0.30, per-km: 0}\n"
      "  dear: {start: workshop, hours: {}, per-hour: 0.90, per-km: 0}\n";
  const Ways ways(texts);
  const auto cost = [&](std::size_t crew, Leg leg) { return cost_of(ways.fleet(), ways.crew(crew), leg).hundredths; };
  CHECK(cost(0, {23, 182}) == 2688);
  CHECK(cost(0, {22, 172}) == 2559);
  CHECK(cost(0, {0, 0}) == 0);
  CHECK(cost(1, {17, 101}) == 1580);  // 12.4638 and 3.333
  CHECK(cost(2, {1, 50}) == 1);       // half a penny
  CHECK(cost(3, {1, 50}) == 2);       // one and a half
  CHECK(set_up_cost(ways.fleet(), ways.crew(), *ways.fleet().site("holm")).hundredths == 733);
  CHECK(set_up_cost(ways.fleet(), ways.crew(), *ways.fleet().site("beck")).hundredths == 1100);
}

TEST_CASE("the distance by the map is that of another formula") {
  const auto whole = rc::check([] {
    const Coordinates a{*rc::gen::inRange<std::int64_t>(-89'000'000, 89'000'001),
                        *rc::gen::inRange<std::int64_t>(-180'000'000, 180'000'001)};
    // Near ones, as sites are, and far ones.
    const std::int64_t reach = *rc::gen::element<std::int64_t>(2'000, 500'000, 90'000'000);
    const Coordinates b{std::clamp<std::int64_t>(a.latitude + *rc::gen::inRange<std::int64_t>(-reach, reach + 1),
                                                 -90'000'000, 90'000'000),
                        std::clamp<std::int64_t>(a.longitude + *rc::gen::inRange<std::int64_t>(-reach, reach + 1),
                                                 -180'000'000, 180'000'000)};
    const Factor factor{*rc::gen::inRange<std::int64_t>(100, 300)};
    const double tenths = km_by_vectors(a, b) * static_cast<double>(factor.hundredths) / 10;
    RC_ASSERT(std::abs(tenths - visits::tenths_of_km(a, b, factor)) <= 0.5 + 1e-4);
    RC_ASSERT(visits::tenths_of_km(a, b, factor) == visits::tenths_of_km(b, a, factor));
  });
  CHECK(whole);
}
