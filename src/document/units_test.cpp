// Figures with units: what they measure by the units' definitions (the international foot is
// 0.3048 m exactly), and what is refused.
#include "document/units.h"

#include <gtest/gtest.h>

#include <numbers>

namespace spadework::document {
namespace {

struct Measure {
  const char* text;
  double value;
};
struct Refused {
  const char* text;
  ErrorCode code;
  const char* hint;
};

void expect_refused(const Error& error, const Refused& refused) {
  EXPECT_EQ(error.code, refused.code) << refused.text << ": " << error.message;
  EXPECT_NE(error.hint.find(refused.hint), std::string::npos) << refused.text << ": " << error.hint;
  EXPECT_FALSE(error.message.empty());
}

TEST(ALength, IsReadInEveryUnit) {
  const Measure measures[] = {
      {"1.4 m", 1.4},          {"1.4m", 1.4},
      {"0.2 km", 200},         {"140 cm", 1.4},
      {"195 mm", 0.195},       {"2 metres", 2},
      {"1 meter", 1},          {"7 ft", 2.1336},
      {"7ft", 2.1336},         {"1 foot", 0.3048},
      {"6 feet", 1.8288},      {"2 yd", 1.8288},
      {"1 yard 1 ft", 1.2192}, {"9 in", 0.2286},
      {"1 inch", 0.0254},      {"9 inches", 0.2286},
      {"6 ft 6 in", 1.9812},   {"6' 6\"", 1.9812},
      {"6'6\"", 1.9812},       {"6′ 6″", 1.9812},
      {"6’ 6”", 1.9812},       {"2 yd 1 ft 3 in", 2.2098},
      {"1 m 40 cm", 1.4},      {"1 m 20 cm 5 mm", 1.205},
  };
  for (const Measure& measure : measures) {
    const auto length = parse_length(measure.text);
    ASSERT_TRUE(length.has_value()) << measure.text << ": " << length.error().message;
    EXPECT_NEAR(in_metres(*length), measure.value, 1e-12) << measure.text;
  }
}

TEST(ALength, TakesFractionsAndSigns) {
  const Measure measures[] = {
      {"9 1/4 in", 0.23495}, {"1/2 in", 0.0127},      {"6½ in", 0.1651},   {"½ m", 0.5},
      {"5 ⅜ in", 0.136525},  {"6' 6 1/2\"", 1.9939},  {"-3 ft", -0.9144},  {"−10 cm", -0.1},
      {"+10 cm", 0.1},       {"-1 ft 6 in", -0.4572}, {"  1.5  m  ", 1.5}, {"0 m", 0},
      {".5 m", 0.5},
  };
  for (const Measure& measure : measures) {
    const auto length = parse_length(measure.text);
    ASSERT_TRUE(length.has_value()) << measure.text << ": " << length.error().message;
    EXPECT_NEAR(in_metres(*length), measure.value, 1e-12) << measure.text;
  }
}

TEST(ALength, IsRefusedWithWhatWouldBeRight) {
  const Refused all[] = {
      {"7", ErrorCode::kWrongUnit, "7 ft"},
      {"7 kg", ErrorCode::kWrongUnit, "7 ft"},
      {"7 C", ErrorCode::kWrongUnit, "7 ft"},
      {"6 in 6 ft", ErrorCode::kWrongUnit, "7 ft"},
      {"6 ft 6 ft", ErrorCode::kWrongUnit, "7 ft"},
      {"1 m 6 in", ErrorCode::kWrongUnit, "7 ft"},
      {"6 ft 6", ErrorCode::kWrongUnit, "7 ft"},
      {"1,4 m", ErrorCode::kWrongType, "1.4 m"},
      {"1.234,5 mm", ErrorCode::kWrongType, "\"1234.5 mm\""},
      {"1,234.5 mm", ErrorCode::kWrongType, "\"1234.5 mm\""},
      {"1,400 mm", ErrorCode::kWrongType, "nothing between thousands"},
      {"", ErrorCode::kWrongType, "7 ft"},
      {"m", ErrorCode::kWrongType, "7 ft"},
      {"tall", ErrorCode::kWrongType, "7 ft"},
      {"6 ft six in", ErrorCode::kWrongType, "7 ft"},
      {"1/0 m", ErrorCode::kWrongType, "7 ft"},
      {"1.2.3 m", ErrorCode::kWrongType, "7 ft"},
      {"--1 m", ErrorCode::kWrongType, "7 ft"},
      {"1 m -40 cm", ErrorCode::kWrongType, "7 ft"},
      {"nan m", ErrorCode::kWrongType, "7 ft"},
      {"inf m", ErrorCode::kWrongType, "7 ft"},
      {"1e3 m", ErrorCode::kWrongUnit, "7 ft"},
      {"0x10 m", ErrorCode::kWrongUnit, "7 ft"},
      {"1 m!", ErrorCode::kWrongType, "7 ft"},
  };
  for (const Refused& refused : all) {
    const auto length = parse_length(refused.text);
    ASSERT_FALSE(length.has_value()) << refused.text;
    expect_refused(length.error(), refused);
  }
}

TEST(AStem, IsItsWidthOrItsGirth) {
  EXPECT_NEAR(in_metres(parse_stem("30 cm").value()), 0.3, 1e-12);
  EXPECT_NEAR(in_metres(parse_stem("width 30 cm").value()), 0.3, 1e-12);
  EXPECT_NEAR(in_metres(parse_stem("girth 0.9 m").value()), 0.9 / std::numbers::pi, 1e-12);
  EXPECT_NEAR(in_metres(parse_stem("girth 3 ft").value()), 0.9144 / std::numbers::pi, 1e-12);
  expect_refused(parse_stem("girth 3").error(), {"girth 3", ErrorCode::kWrongUnit, "girth 0.9 m"});
  expect_refused(parse_stem("girth").error(), {"girth", ErrorCode::kWrongType, "girth 0.9 m"});
  expect_refused(parse_stem("round 3 m").error(), {"round", ErrorCode::kWrongType, "girth 0.9 m"});
}

TEST(AnAngle, IsInDegrees) {
  for (const Measure& measure : {Measure{"12 deg", 12}, Measure{"12°", 12}, Measure{"12 °", 12},
                                 Measure{"-4.36 degrees", -4.36}, Measure{"1 degree", 1}}) {
    EXPECT_NEAR(in_degrees(parse_angle(measure.text).value()), measure.value, 1e-12)
        << measure.text;
  }
  for (const Refused& refused : {Refused{"12", ErrorCode::kWrongUnit, "12 deg"},
                                 {"12 rad", ErrorCode::kWrongUnit, "12 deg"},
                                 {"12 C", ErrorCode::kWrongUnit, "12 deg"},
                                 {"12,5 deg", ErrorCode::kWrongType, "12.5 deg"},
                                 {"12 deg 30", ErrorCode::kWrongUnit, "12 deg"},
                                 {"east", ErrorCode::kWrongType, "12 deg"}}) {
    const auto angle = parse_angle(refused.text);
    ASSERT_FALSE(angle.has_value()) << refused.text;
    expect_refused(angle.error(), refused);
  }
}

TEST(ALengthInFeet, IsSaidAsItIsTaped) {
  const auto says = [](const char* text) { return feet_says(in_metres(*parse_length(text))); };
  for (const char* text : {"27 ft 6 in", "9 1/4 in", "3 ft", "-8 ft 1/2 in", "1 1/2 in", "7/16 in",
                           "39 ft 11 15/16 in", "0 ft"})
    EXPECT_EQ(says(text), text);
  EXPECT_EQ(says("18 in"), "1 ft 6 in");
  EXPECT_EQ(feet_says(0.30489), "1 ft");        // within 0.1 mm
  EXPECT_EQ(feet_says(3.5), "11 ft 5.795 in");  // what no tape has
  EXPECT_EQ(feet_says(0.30475 * 12), "11 ft 11.976 in");
  EXPECT_TRUE(is_taped_in_feet(0.0254 * 5.0625));
  EXPECT_FALSE(is_taped_in_feet(3.5));
  for (int i = -400; i < 400; ++i) {
    const double metres = i * 0.0137;
    const auto again = parse_length(feet_says(metres));
    ASSERT_TRUE(again.has_value()) << feet_says(metres);
    EXPECT_NEAR(in_metres(*again), metres, 1.0001e-4) << feet_says(metres);
  }
}

TEST(ATemperature, IsInCelsiusOrFahrenheit) {
  for (const Measure& measure : {Measure{"28 F", -20 / 9.0}, Measure{"32 °F", 0},
                                 Measure{"-40 F", -40}, Measure{"212°F", 100}, Measure{"-2 C", -2},
                                 Measure{"−2.5 °C", -2.5}, Measure{"98.6 f", 37}}) {
    EXPECT_NEAR(in_celsius(parse_temperature(measure.text).value()), measure.value, 1e-9)
        << measure.text;
  }
  for (const Refused& refused : {Refused{"28", ErrorCode::kWrongUnit, "28 F"},
                                 {"28 K", ErrorCode::kWrongUnit, "28 F"},
                                 {"28 m", ErrorCode::kWrongUnit, "28 F"},
                                 {"28 F 3", ErrorCode::kWrongUnit, "28 F"},
                                 {"cold", ErrorCode::kWrongType, "28 F"},
                                 {"2,5 C", ErrorCode::kWrongType, "2.5 C"}}) {
    const auto temperature = parse_temperature(refused.text);
    ASSERT_FALSE(temperature.has_value()) << refused.text;
    expect_refused(temperature.error(), refused);
  }
}

const std::vector<std::string> kUnits = {"kg", "heads", "meals",  "litres",
                                         "m3", "boxes", "bunches"};

TEST(AnAmount, HasAFigureAUnitAndPerhapsATime) {
  struct Row {
    const char* text;
    double number;
    const char *unit, *per;
  };
  for (const Row& row :
       {Row{"6 kg", 6, "kg", ""}, Row{"6kg", 6, "kg", ""}, Row{"30 heads", 30, "heads", ""},
        Row{"1 head", 1, "heads", ""}, Row{"2 meals a week", 2, "meals", "week"},
        Row{"1 meal per month", 1, "meals", "month"}, Row{"3 kg/year", 3, "kg", "year"},
        Row{"1 l", 1, "litres", ""}, Row{"1/2 m3", 0.5, "m3", ""}, Row{"1 box", 1, "boxes", ""},
        Row{"1 bunch a week", 1, "bunches", "week"}, Row{"some", 0, "", ""}}) {
    const auto amount = parse_amount(row.text, kUnits);
    ASSERT_TRUE(amount.has_value()) << row.text << ": " << amount.error().message;
    EXPECT_EQ(amount->number, row.number) << row.text;
    EXPECT_EQ(amount->unit, row.unit) << row.text;
    EXPECT_EQ(amount->per, row.per) << row.text;
  }
}

TEST(AnAmount, IsRefusedWithWhatWouldBeRight) {
  for (const Refused& refused : {Refused{"6", ErrorCode::kWrongUnit, "30 heads"},
                                 {"6 headz", ErrorCode::kWrongUnit, "did you mean heads?"},
                                 {"6 kg a fortnight", ErrorCode::kWrongUnit, "a week"},
                                 {"0 kg", ErrorCode::kImpossibleValue, "6 kg"},
                                 {"-1 kg", ErrorCode::kWrongType, "6 kg"},
                                 {"much", ErrorCode::kWrongType, "some"},
                                 {"1,5 kg", ErrorCode::kWrongType, "1.5 kg"},
                                 {"6 kg 3", ErrorCode::kWrongUnit, "did you mean kg?"},
                                 {"", ErrorCode::kWrongType, "6 kg"}}) {
    const auto amount = parse_amount(refused.text, kUnits);
    ASSERT_FALSE(amount.has_value()) << refused.text;
    expect_refused(amount.error(), refused);
  }
  // Without a unit there is none to guess.
  EXPECT_EQ(parse_amount("30", kUnits).error().hint.find("did you mean"), std::string::npos);
}

}  // namespace
}  // namespace spadework::document
