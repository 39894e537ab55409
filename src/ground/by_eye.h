// What the eye and the body tell: the skyline in fists held out, and how far the ground falls.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "garden/garden.h"
#include "ground/measured.h"

namespace spadework::ground {

/// How much of the sky a fist covers at the end of a straight arm.
struct FistSize {
  Angle wide = degrees(10);  // common practice, no source
  double share = 0.1;        // one standard deviation among people, as a share; common practice
};
/// One's own fist, from how many of them, one upon the other, reach from the level to overhead.
/// In:     about 9; 5 to 18.
/// Out:    90° over the count, sure to 3 % (judgement, no source: many steps, each a little off).
/// Errors: kImpossibleValue at `/fists_overhead` outside 5 to 18.
/// Tested: Fists. Source: [closed-form] a quarter turn shared out.
[[nodiscard]] Result<FistSize> own_fist(double fists_overhead);

/// The altitude of what stands so many fists above the level.
/// In:     fists from 0 up to where they would reach 89°; half fists are told apart.
/// Out:    sigma by the fist's size and by reading to half a fist (evenly within a quarter).
/// Errors: kImpossibleValue at `/fists` outside that.
/// Tested: Fists. Source: [memory] 10° a fist; [closed-form] the rest.
[[nodiscard]] Result<Measured<Angle>> altitude_of_fists(double fists, const FistSize& fist = {});

struct FistPoint {
  Angle bearing;  // true
  double fists = 0;
};
struct FistSkyline {
  std::vector<garden::Ground::HorizonPoint> points;  // by bearing, 0 to 360°: `[ground] horizon`
  std::vector<Angle> sigma;                          // of each altitude
  std::vector<Remedy<Angle>> remedies;               // for the highest point
};
/// The far skyline from fists by bearing. It is for hills and woods beyond the garden: what stands
/// near is drawn as a thing, for it looks higher from nearer by.
/// Errors: kImpossibleValue at `/0/fists` … as `altitude_of_fists`; kConflict at `/1/bearing` … for
///         a bearing told twice; kMissingKey for an empty list.
/// Tested: Fists. Source: as altitude_of_fists.
[[nodiscard]] Result<FistSkyline> skyline_of_fists(const std::vector<FistPoint>& points,
                                                   const FistSize& fist = {});

enum class BodyMark { kAnkle, kKnee, kWaist, kHead };
/// 0.1, 0.5, 1.0 and 1.7 m: common practice, no source.
[[nodiscard]] Length body_mark(BodyMark mark);
/// "It falls by one knee", "by two heads".
/// In:     the mark, and how often; above 0, at most 20.
/// Out:    its height times that; the sigma as if of all falls one that is nearest to this mark
///         were told, evenly between halfway to the next mark below and above, and of people whose
///         bodies differ by a tenth.
/// Errors: kImpossibleValue at `/times` outside that.
/// Tested: Fall; FirstMeasures. Source: [memory] the marks; [closed-form] the sigma.
[[nodiscard]] Result<Measured<Length>> fall_by_body(BodyMark mark, double times = 1);
/// A fall guessed in figures: off by a quarter. Judgement, no source. Errors: none. Tested: Fall.
[[nodiscard]] Measured<Length> fall_by_eye(Length falls);
/// A fall levelled with a hose or a board and a spirit level: off by 2 cm. Judgement, no source.
/// Errors: none. Tested: Fall.
[[nodiscard]] Measured<Length> fall_by_level(Length falls);
/// A way of so many paces, turned into a length: off by a tenth. Judgement, no source.
/// Errors: none. Tested: Fall.
[[nodiscard]] Measured<Length> over_by_pacing(Length over);

/// An arrow down the slope drawn by eye is off by so much, one standard deviation.
inline constexpr Angle kArrowByEye = degrees(15);  // judgement, no source

struct FallTold {
  Measured<Length> falls;
  Measured<Angle> toward{{}, kArrowByEye};  // true bearing toward which water runs
  Measured<Length> over;                    // in the plan
};
struct ToldFall {
  double falls_m = 0, toward_deg = 0, over_m = 0;  // the document's `falls_m`, `toward_deg`, `over`
  std::vector<std::string> guessed;                // which of them are not measured
  Measured<double> grade;  // falls over way: what the ground's surface is made from
  Measured<Angle> toward;  // 0 to 360°
  Measured<Length> falls;
  std::vector<Remedy<double>> remedies;  // of the grade
};
/// "Water runs this way, and falls this far over that length": the ground as one plane.
/// In:     falls 0 to 200 m; over 0.1 to 2000 m. For an arrow on the sheet, `bearing_on_plan`
///         of its direction.
/// Out:    the document's figures, with what they make of the ground: `ground_surface` falls by
///         grade toward the bearing, level 0 at the plan's origin. Guessed: a fall less sure than
///         5 cm and a twentieth of itself, a bearing less sure than 5°, a way less sure than a
///         twentieth.
/// Errors: kImpossibleValue at `/falls_m` or `/over`.
/// Tested: Fall (against `ground_surface`). Source: [closed-form]
[[nodiscard]] Result<ToldFall> fall_told(const FallTold& told);

}  // namespace spadework::ground
