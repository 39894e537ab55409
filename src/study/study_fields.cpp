// The light of every cell, and of a thing that moves.
#include <fmt/format.h>

#include <algorithm>

#include "study/study.h"
#include "study/study_parts.h"

namespace spadework::study {
namespace {

std::vector<garden::Body> bodies_of(const Stand& stand, const std::string& thing) {
  std::vector<garden::Body> own;
  for (const garden::Body& body : stand.bodies)
    if (body.thing == thing) own.push_back(body);
  return own;
}

/// Whether a field is measured on the same planes over two stands, past the same bodies but for
/// those of one thing.
bool measures_alike(const Stand& a, const Stand& b, const std::string& thing) {
  const auto same = [](const auto& one, const auto& other, auto by) {
    return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                      [&](const auto& x, const auto& y) { return by(x) == by(y); });
  };
  const auto outline = [](const auto& x) { return std::pair(x.id, x.outline); };
  const auto all = [](const auto& x) { return x; };
  const auto is_it = [&](const auto& x) { return x.id == thing; };
  for (const garden::Garden* garden : {&a.garden, &b.garden}) {
    if (std::any_of(garden->beds.begin(), garden->beds.end(), is_it) ||
        std::any_of(garden->buildings.begin(), garden->buildings.end(), is_it))
      return false;
  }
  std::vector<garden::Body> others_a = a.bodies, others_b = b.bodies;
  for (auto* bodies : {&others_a, &others_b})
    std::erase_if(*bodies, [&](const garden::Body& body) { return body.thing == thing; });
  return a.garden.boundary == b.garden.boundary &&
         same(a.surface.facets(), b.surface.facets(), all) && a.bed_levels_m == b.bed_levels_m &&
         same(a.garden.beds, b.garden.beds, outline) &&
         same(a.garden.buildings, b.garden.buildings, outline) && others_a == others_b;
}

}  // namespace

Result<Shared<light::Field>> Study::field(const std::string& scheme, double cell_m,
                                          Progress* progress) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<light::Field>(fmt::format("field {} {} {}", kLightVersion, s.key, cell_m),
                            [&]() -> Result<light::Field> {
                              const auto sun = open_sun(scheme);
                              if (!sun) return tl::unexpected<Error>(sun.error());
                              return light::sun_field(scenery_of(s, known_.catalogue), s.bodies,
                                                      *sun, cell_m, threads_, progress);
                            });
}

Result<Shared<light::Field>> Study::field_hours(const std::string& scheme, double cell_m,
                                                std::optional<LocalDate> date, Progress* progress) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<light::Field>(fmt::format("field hours {} {} {} {}", kLightVersion, s.key, cell_m,
                                        date ? date_key(*date) : "year"),
                            [&]() -> Result<light::Field> {
                              const auto sun = open_sun(scheme, date);
                              if (!sun) return tl::unexpected<Error>(sun.error());
                              light::SunYear dark = *sun;
                              dark.leave_out_light();
                              return light::sun_field(scenery_of(s, known_.catalogue), s.bodies,
                                                      dark, cell_m, threads_, progress);
                            });
}

Result<light::Field> Study::field_of_moment(const std::string& scheme, double cell_m,
                                            LocalDate date, double clock_h) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return light::sun_field(scenery_of(s, known_.catalogue), s.bodies,
                          light::sun_of_moment(s.garden, date, clock_h), cell_m, threads_, nullptr);
}

Result<light::Field> Study::field_with(const std::string& scheme, double cell_m,
                                       const garden::Draft& draft, LocalDate date,
                                       std::optional<double> clock_h) {
  const auto with = stand_of(draft, scheme);
  if (!with) return tl::unexpected<Error>(with.error());
  auto sun = open_sun(scheme, date);
  if (!sun) return tl::unexpected<Error>(sun.error());
  sun->leave_out_light();
  return light::sun_field(scenery_of(*with, known_.catalogue), with->bodies,
                          clock_h ? light::sun_of_moment(with->garden, date, *clock_h) : *sun,
                          cell_m, threads_, nullptr);
}

Result<light::Field> Study::field_moved(const std::string& scheme, double cell_m,
                                        const garden::Draft& moved, const std::string& thing,
                                        const light::FieldMovesOptions& options) {
  const auto base = stand(scheme);
  if (!base) return tl::unexpected<Error>(base.error());
  const auto with = stand_of(moved, scheme);
  if (!with) return tl::unexpected<Error>(with.error());
  const auto whole = field_hours(scheme, cell_m);
  if (!whole) return tl::unexpected<Error>(whole.error());
  if (!measures_alike(**base, *with, thing)) {
    auto sun = open_sun(scheme);
    if (!sun) return tl::unexpected<Error>(sun.error());
    sun->leave_out_light();
    return light::sun_field(scenery_of(*with, known_.catalogue), with->bodies, *sun, cell_m,
                            options.threads, nullptr);
  }
  std::string key = fmt::format("{} {} {} {}", (*base)->key, cell_m, thing, options.every);
  for (const int month : options.months) key += fmt::format(" {}", month);
  if (moves_key_ != key) {
    moves_ = std::make_shared<const light::FieldMoves>(
        scenery_of(**base, known_.catalogue), (*base)->bodies, light::sun_year((*base)->garden),
        **whole, thing, options);
    moves_key_ = std::move(key);
  }
  light::Field out = **whole;
  moves_->with(bodies_of(*with, thing), out);
  return out;
}

Result<Shared<light::Field>> Study::field_of_day(const std::string& scheme, double cell_m,
                                                 LocalDate date) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  return once<light::Field>(
      fmt::format("field {} {} {} {}", kLightVersion, s.key, cell_m, date_key(date)),
      [&]() -> Result<light::Field> {
        const auto sun = open_sun(scheme, date);
        if (!sun) return tl::unexpected<Error>(sun.error());
        return light::sun_field(scenery_of(s, known_.catalogue), s.bodies, *sun, cell_m, threads_,
                                nullptr);
      });
}

}  // namespace spadework::study
