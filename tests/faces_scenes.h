// Walls and supports whose faces are places, for the tests of faces.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "light/light.h"
#include "light/light_testing.h"
#include "tests/scenes.h"

namespace spadework::testing {

inline constexpr double kLatitude = 48.41;
inline const std::string kHead = head(kLatitude, 0, "UTC");
inline const std::string kWall =
    "[[wall]]\nid = \"wall\"\nline = [[-5,0],[5,0]]\nheight_m = 2\n"
    "kind = \"brick\"\nthickness_m = 0.3\n";
/// A fig trained against the south side of that wall.
inline const std::string kFig = "[[plant]]\nid = \"fig\"\ncrop = \"fig\"\nat = [0,-0.35]\n";

inline std::string wires(const std::string& id, const std::string& line,
                         const std::string& crop = "") {
  return "[[support]]\nid = \"" + id + "\"\nkind = \"wires\"\nline = " + line +
         "\nheight_m = 1.8\n" + (crop.empty() ? "" : "crop = \"" + crop + "\"\n");
}

/// A scheme with its study: places as the study sees them.
class FacesScene {
 public:
  explicit FacesScene(const std::string& text) : study_(study_of(text)) {
    stand_ = *study_.stand("proposed");
  }
  light::Scenery scenery() const {
    return {stand_->garden, stand_->surface, stand_->bed_levels_m, catalogue()};
  }
  const garden::Garden& garden() const { return stand_->garden; }
  std::vector<light::Place> faces(const std::vector<std::string>& also = {}) const {
    return light::face_places(scenery(), also);
  }
  std::vector<std::string> listed() const {
    std::vector<std::string> ids;
    for (const light::Place& place : faces()) ids.push_back(place.id);
    return ids;
  }
  std::vector<std::string> ids() const { return light::face_ids(scenery()); }
  light::Place place(const std::string& id) const {
    for (light::Place& place : faces({id})) {
      if (place.id == id) return std::move(place);
    }
    ADD_FAILURE() << "no place " << id;
    return {};
  }
  light::Scene around(const light::Place& place) const {
    return light::Scene(light::with_own(stand_->bodies, place.own, place.replaces));
  }
  light::YearSun year(const std::string& id) {
    return (*study_.places_year("proposed", nullptr, {id}))->find(id)->months;
  }
  light::MonthSun day(const std::string& id, unsigned month, unsigned day) {
    const auto year = study_.places_day("proposed", make_date(2026, month, day), {id});
    return (*year)->find(id)->months[month - 1];
  }
  study::Study& study() { return study_; }

 private:
  study::Study study_;
  study::Shared<study::Stand> stand_;
};

inline light::SunYear sun_of(FacesScene& scene) {
  return (*scene.study().places_year("proposed"))->sun;
}

inline void expect_same(const light::YearSun& a, const light::YearSun& b) {
  for (std::size_t m = 0; m < 12; ++m) {
    EXPECT_EQ(a[m].sun_h_per_day, b[m].sun_h_per_day) << m;
    EXPECT_EQ(a[m].dli_mol_m2_d, b[m].dli_mol_m2_d) << m;
  }
}

}  // namespace spadework::testing
