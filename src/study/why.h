// The chains behind light figures. For the study room alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "study/study.h"
#include "study/why_pointer.h"

namespace spadework::study {

/// The bodies that can shade a place.
[[nodiscard]] light::Scene scene_for(const light::Place& place, const Stand& stand,
                                     const light::SunYear& sun);

/// All that is behind the figures of one place: of a year, or of one day.
struct Asked {
  const Stand& stand;
  const facts::Catalogue& catalogue;
  const climate::PlaceClimate& climate;
  const light::SunYear& sun;
  const light::PlaceSun& place;
  const light::Scene& scene;  // all that can shade it
  std::optional<LocalDate> day;
  const OnGuesses* on_guesses = nullptr;  // of the scheme's places

  /// Whether the place's figures of those months rest on guesses; as the tables have it.
  [[nodiscard]] bool guessed(const std::vector<int>& months) const {
    return on_guesses != nullptr && on_guesses->rests(place.place.id, months);
  }
};

/// In:     `takers`: of the year, where the pointer asks for them or for what they take.
/// Errors: kWrongUse, saying what the pointer could have named.
[[nodiscard]] Result<Trace> why_light(const Asked& asked, const light::Takers* takers,
                                      const Pointer& pointer);
/// Whether the figure rests on the takers of the year.
[[nodiscard]] bool asks_for_takers(const Pointer& pointer);

/// What a taker is called that belongs to the place: "its own boards" of a bed, else "itself";
/// empty for every other taker.
[[nodiscard]] std::string own_taker_says(const light::Place& place, const std::string& taker);

/// "the skyline", "the ground", "its own boards", else the thing's id. `place`: whose taker;
/// nothing: of no place in particular.
[[nodiscard]] std::string taker_called(const light::Place* place, const std::string& taker);

[[nodiscard]] tl::unexpected<Error> no_such_place(const std::string& id,
                                                  const std::vector<std::string>& ids,
                                                  const std::string& scheme);

}  // namespace spadework::study
