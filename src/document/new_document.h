// The text of a fresh garden document: for `spadework new`, and for one that is drawn.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity.h"
#include "base/result.h"
#include "document/known_words.h"

namespace spadework::document {

struct FreshGarden {
  std::string title;
  Angle latitude, longitude;
  std::string time_zone;  // IANA
  std::optional<Length> elevation = {};
  bool imperial = false;
  std::vector<std::string> guessed = {};  // of latitude_deg, longitude_deg, elevation_m
};

/// Out:    a small document that reads without problems: the place filled in, a boundary, level
///         ground, one wall and one bed as examples to be changed, each with a remark, and what to
///         measure next. All figures but the place are marked as guessed.
/// Errors: those of reading it, the first of them, with `where` empty: kImpossibleValue for a place
///         that is none, kUnknownKind for an unknown time zone, with the nearest name.
[[nodiscard]] Result<std::string> new_document(const FreshGarden& garden);
/// The same with the place alone, north guessed to be up the page, and what else of the place is:
/// what is drawn step by step begins with it.
[[nodiscard]] Result<std::string> bare_document(const FreshGarden& garden);

}  // namespace spadework::document
