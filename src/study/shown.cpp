#include "study/shown.h"

#include <cmath>
#include <limits>

namespace spadework::study {
namespace {

/// With what the mean over the time is made.
Result<light::SunYear> sun_of(Study& study, const std::string& scheme, const When& when) {
  if (!when.clock_h) return study.open_sun(scheme, when.day);
  light::SunYear sun;
  sun.days_in_month.fill(1);
  return sun;
}

double open_hours(const light::SunYear& sun, const std::vector<int>& months) {
  double hours = 0, days = 0;
  for (const int m : months) {
    const auto month = static_cast<std::size_t>(m);
    hours += sun.open_sun_h[month] * sun.days_in_month[month];
    days += sun.days_in_month[month];
  }
  return hours / days;
}

Result<Shared<light::Field>> field_of(Study& study, const std::string& scheme, const When& when,
                                      double cell_m, Progress* progress) {
  if (!when.clock_h)
    return study.field_hours(scheme, cell_m, {when.months, when.day, when.every}, progress);
  auto moment = study.field_of_moment(scheme, cell_m, *when.day, *when.clock_h);
  if (!moment) return tl::unexpected<Error>(moment.error());
  return std::make_shared<const light::Field>(std::move(*moment));
}

}  // namespace

Result<FieldShown> field_shown(Study& study, const std::string& scheme, const When& when,
                               double cell_m, Progress* progress) {
  const auto field = field_of(study, scheme, when, cell_m, progress);
  if (!field) return tl::unexpected<Error>(field.error());
  return field_shown(study, scheme, when, *field);
}

Result<FieldShown> field_shown(Study& study, const std::string& scheme, const When& when,
                               Shared<light::Field> field) {
  const auto sun = sun_of(study, scheme, when);
  if (!sun) return tl::unexpected<Error>(sun.error());
  FieldShown shown{std::move(field), {}, open_hours(*sun, when.months)};
  shown.hours = light::field_mean(*shown.field, *sun, when.months);
  return shown;
}

std::vector<float> more_than(const FieldShown& now, const FieldShown& then) {
  const light::Field &a = *now.field, &b = *then.field;
  std::vector<float> more(now.hours.size(), std::numeric_limits<float>::quiet_NaN());
  for (int r = 0; r < a.rows; ++r) {
    for (int c = 0; c < a.columns; ++c) {
      const geometry::Vec2 p = a.middle(c, r);
      const int column = static_cast<int>(std::floor((p.x - b.corner.x) / b.cell_m));
      const int row = static_cast<int>(std::floor((p.y - b.corner.y) / b.cell_m));
      if (column < 0 || row < 0 || column >= b.columns || row >= b.rows) continue;
      more[a.index(c, r)] = now.hours[a.index(c, r)] - then.hours[b.index(column, row)];
    }
  }
  return more;
}

}  // namespace spadework::study
