// Cutting a tree: a crown that is lifted, topped or narrowed never takes more light.
#include <gtest/gtest.h>

#include <cmath>

#include "base/random.h"
#include "tests/scenes.h"

namespace spadework::testing {
namespace {

std::string tree_text(const std::string& kind, const std::string& shape,
                      const std::string& change) {
  return head(51, 0, "UTC") + "[[tree]]\nid = \"tree\"\nkind = \"" + kind +
         "\"\nat = [0, 0]\nheight_m = 8\ncrown_base_m = 1\ncrown_width_m = 5\nshape = \"" + shape +
         "\"\n" + change;
}
std::string cut(const std::string& keys) { return "[[change]]\nthing = \"tree\"\n" + keys; }

const std::vector<std::string> kShapes{"round", "column", "cone", "spreading"};
const std::vector<std::string> kCuts{"crown_base_m = 3.5\n", "height_m = 4.5\n",
                                     "crown_base_m = 5.5\n", "crown_width_m = 3\n",
                                     "crown_base_m = 2\nheight_m = 6\ncrown_width_m = 4\n"};

geometry::RoundSolid crown_in(const std::string& text, const std::string& scheme) {
  study::Study study = study_of(text);
  for (const garden::Body& body : (*study.stand(scheme))->bodies)
    if (const auto* round = std::get_if<geometry::RoundSolid>(&body.shape)) return *round;
  ADD_FAILURE();
  return {};
}

// Every ray goes no farther through the crown that is left.
TEST(CutCrown, LiesWithinTheCrownThatItWas) {
  Random random(77);
  for (const std::string& shape : kShapes) {
    for (const std::string& keys : kCuts) {
      const std::string text = tree_text("hornbeam", shape, cut(keys));
      const auto was = crown_in(text, "found"), is = crown_in(text, "proposed");
      int through = 0;
      for (int i = 0; i < 5000; ++i) {
        const geometry::Vec3 from{random.between(-6, 6), random.between(-6, 6),
                                  random.between(-1, 9)};
        const geometry::Vec3 way{random.between(-1, 1), random.between(-1, 1),
                                 random.between(-0.5, 1)};
        const auto before = ray_inside(was, from, way), after = ray_inside(is, from, way);
        if (!after) continue;
        ASSERT_TRUE(before.has_value()) << shape << " " << keys;
        ++through;
        EXPECT_GE(after->first, before->first - 1e-9) << shape << " " << keys;
        EXPECT_LE(after->second, before->second + 1e-9) << shape << " " << keys;
      }
      EXPECT_GT(through, 50) << shape << " " << keys;
    }
  }
}

// Nowhere about the tree, in no month.
TEST(CutCrown, NeverDarkensASpot) {
  for (const std::string& shape : kShapes) {
    for (const std::string& keys : kCuts) {
      study::Study study = study_of(tree_text("hornbeam", shape, cut(keys)));
      double gained = 0;
      for (const geometry::Vec2 at :
           {geometry::Vec2{0, 5}, {0, 7}, {0, 9}, {3, 3}, {-4, 1}, {0.5, 0.7}, {1, -3}}) {
        const auto was = study.spot_year("found", at, metres(0));
        const auto is = study.spot_year("proposed", at, metres(0));
        ASSERT_TRUE(was && is);
        for (std::size_t m = 0; m < 12; ++m) {
          EXPECT_GE(is->months[m].sun_h_per_day, was->months[m].sun_h_per_day - 1e-9)
              << shape << " " << keys << at.x << " " << at.y << " " << m;
          EXPECT_GE(is->months[m].dli_mol_m2_d, was->months[m].dli_mol_m2_d * (1 - 1e-6))
              << shape << " " << keys << at.x << " " << at.y << " " << m;
          gained += is->months[m].dli_mol_m2_d - was->months[m].dli_mol_m2_d;
        }
      }
      EXPECT_GT(gained, 1) << shape << " " << keys;
    }
  }
}

// Topping alone leaves the crown's foot where it was, also where it was never measured.
TEST(CutCrown, KeepsItsFootWhenItIsTopped) {
  const std::string text = head(51, 0, "UTC") +
                           "[[tree]]\nid = \"tree\"\nkind = \"birch\"\nat = [0, 0]\nheight_m = 8\n"
                           "crown_width_m = 4\n" +
                           cut("height_m = 4\n");
  const auto was = crown_in(text, "found"), is = crown_in(text, "proposed");
  EXPECT_EQ(is.low_z(), was.low_z());
  EXPECT_EQ(is.top_z, was.top_z);
  EXPECT_EQ(is.high_z(), 4);
}

// A tree that is to be taller than it was has grown: its crown has the new figures' shape.
TEST(GrownCrown, HasItsNewShape) {
  const std::string text = tree_text("hornbeam", "round", cut("height_m = 10\n"));
  const auto is = crown_in(text, "proposed");
  EXPECT_FALSE(is.is_cut());
  EXPECT_EQ(is.top_z, 10);
  EXPECT_EQ(is.bottom_z, 1);
}

// The caster sees a cut crown as single rays do.
TEST(CutCrown, IsCastAsRaysSeeIt) {
  Random random(5);
  long asked = 0, differ = 0;
  double off = 0;
  for (int i = 0; i < 40; ++i) {
    geometry::RoundSolid crown{static_cast<geometry::RoundShape>(i % 4),
                               {random.between(-1, 1), random.between(-1, 1)},
                               random.between(-0.5, 1),
                               random.between(3, 6),
                               random.between(1, 2.5)};
    crown.cut_below_z = crown.bottom_z + random.between(0, 0.6) * (crown.top_z - crown.bottom_z);
    crown.cut_above_z = crown.top_z - random.between(0, 0.3) * (crown.top_z - crown.bottom_z);
    const light::Scene scene({{"crown", crown, garden::Through::kPerMetre, {0.4F}}});
    light::Receiver ground =
        light::level_receiver({-6, -6}, 0, random.between(-0.2, 1.5), 0.25, 48, 48);
    for (int s = 0; s < 5; ++s) {
      light::SunSample sun;
      const double high = random.between(0.15, 1.4), turn = random.between(0, 6.3);
      sun.toward_sun = {std::cos(high) * std::cos(turn), std::cos(high) * std::sin(turn),
                        std::sin(high)};
      sun.beam_w_m2 = 500;
      sun.light = static_cast<float>(1 / std::sin(high));
      const auto cast = light::cast_light(scene, ground, std::span(&sun, 1));
      for (int c = 0; c < ground.cells(); ++c) {
        const auto at = cell_centre(ground, c % 48, c / 48);
        const auto inside = ray_inside(crown, at, sun.toward_sun);
        const double chord = inside ? inside->second - inside->first : 0;
        const double passed = static_cast<double>(cast.beam_mol_m2[0][static_cast<std::size_t>(c)]);
        ++asked, off += std::abs(passed - std::exp(-0.4 * chord));
        differ +=
            (0.4 * chord > std::log(2)) == (cast.lit.at(0, 0, static_cast<std::size_t>(c)) == 1);
      }
    }
  }
  EXPECT_LT(off / static_cast<double>(asked), 1e-5);
  EXPECT_LT(static_cast<double>(differ) / static_cast<double>(asked), 1e-4);
}

}  // namespace
}  // namespace spadework::testing
