// The light of a time as it is shown: the field, each cell's figure, each bed's.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "study/study.h"

namespace spadework::study {

/// Months, a day, or a moment of it by the clock.
struct When {
  std::vector<int> months;  // 0 to 11, for a mean; of a day its own
  std::optional<LocalDate> day;
  std::optional<double> clock_h;
  int every = 1;  // of the months' suns each so manieth is looked at; 1: exact
};

struct FieldShown {
  Shared<light::Field> field;
  std::vector<float> hours;  // a day, by cell; of a moment 1 in the sun, 0 in the shade; NaN: none
  double open_h = 0;         // that the open has
};

/// Errors: those of the study.
[[nodiscard]] Result<FieldShown> field_shown(Study& study, const std::string& scheme,
                                             const When& when, double cell_m,
                                             Progress* progress = nullptr);
/// The same of a field that is there.
[[nodiscard]] Result<FieldShown> field_shown(Study& study, const std::string& scheme,
                                             const When& when, Shared<light::Field> field);

/// What each cell of `now` has more than the cell at the same spot of `then`; NaN where one of them
/// has none.
[[nodiscard]] std::vector<float> more_than(const FieldShown& now, const FieldShown& then);

}  // namespace spadework::study
