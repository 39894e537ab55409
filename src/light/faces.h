// Which faces a garden has, what they are called and what grows on them. For face_places.cpp alone.
#pragma once

#include <string>
#include <vector>

#include "garden/faces.h"
#include "light/places.h"

namespace spadework::light {

/// Pieces of one thing, on one side of its line, that look the same way.
struct Face {
  std::string id, thing;
  bool of_support = false;
  bool listed = false;
  std::vector<const garden::FacePiece*> pieces;
  std::vector<std::string> trained;  // the plants that grow on it
};

class Faces {
 public:
  explicit Faces(const Scenery& scenery);
  Faces(const Faces&) = delete;  // faces point at its pieces
  Faces& operator=(const Faces&) = delete;

  /// Those of supports first.
  [[nodiscard]] const std::vector<Face>& all() const { return faces_; }
  /// The face against whose wall a plant is trained, by itself or by its support; or nothing.
  [[nodiscard]] const Face* before_wall(const std::string& plant) const;
  /// The plants that grow on a support.
  [[nodiscard]] std::vector<std::string> grown_on(const std::string& support) const;

 private:
  void gather();
  void name();
  void train();
  void list();
  [[nodiscard]] const garden::Support* support_under(const garden::Plant& plant) const;
  [[nodiscard]] bool has_back_to_wall(const Face& face) const;
  [[nodiscard]] bool looks_at_wall(const garden::FacePiece& piece, geometry::Vec2 p) const;

  const Scenery& scenery_;
  const std::vector<garden::FacePiece> pieces_;
  const std::vector<garden::RoundSupport> round_;
  std::vector<Face> faces_;
  std::vector<std::pair<std::string, std::string>> grown_on_;  // support, plant
};

/// The true bearing of a direction in the plan, 0 to 360°.
[[nodiscard]] Angle bearing_of(const garden::Garden& garden, geometry::Vec2 way);

}  // namespace spadework::light
