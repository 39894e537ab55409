// The light of every cell, and of a thing that moves.
#include <fmt/format.h>
#include <fmt/ranges.h>

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

/// The months are written anew: no need to copy them.
light::Field without_hours(const light::Field& field) {
  light::Field out;
  out.corner = field.corner, out.cell_m = field.cell_m;
  out.columns = field.columns, out.rows = field.rows;
  out.lies_on = field.lies_on;
  return out;
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
  const auto others_alike = [&] {
    auto x = a.bodies.begin(), y = b.bodies.begin();
    for (;; ++x, ++y) {
      while (x != a.bodies.end() && x->thing == thing) ++x;
      while (y != b.bodies.end() && y->thing == thing) ++y;
      if (x == a.bodies.end() || y == b.bodies.end()) break;
      if (!(*x == *y)) return false;
    }
    return x == a.bodies.end() && y == b.bodies.end();
  };
  return a.garden.boundary == b.garden.boundary &&
         same(a.surface.facets(), b.surface.facets(), all) && a.bed_levels_m == b.bed_levels_m &&
         same(a.garden.beds, b.garden.beds, outline) &&
         same(a.garden.buildings, b.garden.buildings, outline) && others_alike();
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
                                                const SunsAsked& asked, Progress* progress) {
  const auto stand = this->stand(scheme);
  if (!stand) return tl::unexpected<Error>(stand.error());
  const Stand& s = **stand;
  const std::string suns = asked.date
                               ? date_key(*asked.date)
                               : fmt::format("{} of {}", fmt::join(asked.months, ","), asked.every);
  return once<light::Field>(
      fmt::format("field hours {} {} {} {}", kLightVersion, s.key, cell_m, suns),
      [&]() -> Result<light::Field> {
        const auto sun = open_sun(scheme, asked.date);
        if (!sun) return tl::unexpected<Error>(sun.error());
        light::SunYear dark = *sun;
        dark.leave_out_light();
        if (!asked.date) {
          if (!asked.months.empty()) dark.leave_out_all_but(asked.months);
          dark.look_at_every(asked.every);
        }
        return light::sun_field(scenery_of(s, known_.catalogue), s.bodies, dark, cell_m, threads_,
                                progress);
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

Result<light::Field> Study::field_with(const std::string& scheme, double cell_m, const Stand& with,
                                       LocalDate date, std::optional<double> clock_h) {
  auto sun = open_sun(scheme, date);
  if (!sun) return tl::unexpected<Error>(sun.error());
  sun->leave_out_light();
  return light::sun_field(scenery_of(with, known_.catalogue), with.bodies,
                          clock_h ? light::sun_of_moment(with.garden, date, *clock_h) : *sun,
                          cell_m, threads_, nullptr);
}

Result<light::Field> Study::field_moved(const std::string& scheme, double cell_m,
                                        const Stand& moved, const std::string& thing,
                                        const light::FieldMovesOptions& options) {
  const auto base = stand(scheme);
  if (!base) return tl::unexpected<Error>(base.error());
  const auto whole = field_hours(scheme, cell_m, {options.months}, options.progress);
  if (!whole) return tl::unexpected<Error>(whole.error());
  if (!measures_alike(**base, moved, thing)) {
    auto sun = open_sun(scheme);
    if (!sun) return tl::unexpected<Error>(sun.error());
    sun->leave_out_light();
    return light::sun_field(scenery_of(moved, known_.catalogue), moved.bodies, *sun, cell_m,
                            options.threads, options.progress);
  }
  std::string key = fmt::format("moves {} {} {} {}", (*base)->key, cell_m, thing, options.every);
  for (const int month : options.months) key += fmt::format(" {}", month);
  const auto moves = once<light::FieldMoves>(key, [&]() -> Result<light::FieldMoves> {
    light::FieldMoves made(scenery_of(**base, known_.catalogue), (*base)->bodies,
                           light::sun_year((*base)->garden), **whole, thing, options);
    if (options.progress && options.progress->cancelled())
      return fail(ErrorCode::kNoAnswer, "", "The work was stopped before it was done.");
    return made;
  });
  if (!moves) return tl::unexpected<Error>(moves.error());
  light::Field out = without_hours(**whole);
  (*moves)->with(bodies_of(moved, thing), out);
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
