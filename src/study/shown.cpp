#include "study/shown.h"

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

}  // namespace spadework::study
